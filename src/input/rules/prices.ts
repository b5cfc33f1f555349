/** Prices need a currency, and a weight on the price needs the price of every part. */
import { catalogueName, type LoadedCatalogues } from '../catalogue/loadCatalogues.ts';
import { currencyNeeded, weightWithout } from '../messages/rule.ts';
import { type PathComplaint, valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/nodeAt.ts';
import { PART_LISTS } from './partLists.ts';

interface Entry {
  readonly path: readonly PathKey[];
  readonly part: unknown;
}

export function priceChecks(data: unknown, catalogues: LoadedCatalogues): readonly PathComplaint[] {
  const entries = ['front', 'rear'].flatMap((axle) =>
    Object.keys(PART_LISTS).flatMap((list) => entriesOf(data, axle, list)),
  );
  return [...currency(data, entries, catalogues), ...weight(data, entries, catalogues)];
}

function currency(data: unknown, entries: readonly Entry[], catalogues: LoadedCatalogues): readonly PathComplaint[] {
  if (valueAt(data, ['currency']) !== undefined) return [];
  const written = entries.find(({ part }) => valueAt(part, ['price']) !== undefined);
  if (written !== undefined) return [{ path: [...written.path, 'price'], at: 'key', complaint: currencyNeeded() }];
  const priced = entries.find(({ part }) => rows(part, catalogues).some((spring) => spring.price !== null));
  return priced === undefined
    ? []
    : [{ path: [...priced.path, 'catalogue'], at: 'value', complaint: currencyNeeded() }];
}

function weight(data: unknown, entries: readonly Entry[], catalogues: LoadedCatalogues): readonly PathComplaint[] {
  const path = ['ranking', 'weights', 'price'];
  const value = valueAt(data, path);
  if (typeof value !== 'number' || !(value > 0)) return [];
  const unpriced = entries.some(({ part }) => {
    if (typeof part !== 'object' || part === null) return false;
    if (valueAt(part, ['catalogue']) !== undefined)
      return rows(part, catalogues).some((spring) => spring.price === null);
    return valueAt(part, ['price']) === undefined;
  });
  const needed = 'a `price` for every part (0 for what you have)';
  return unpriced ? [{ path, at: 'value', complaint: weightWithout('price', needed) }] : [];
}

function rows(part: unknown, { byName }: LoadedCatalogues) {
  const catalogue = valueAt(part, ['catalogue']);
  return typeof catalogue === 'string' ? (byName.get(catalogueName(catalogue))?.springs ?? []) : [];
}

function entriesOf(data: unknown, axle: string, list: string): readonly Entry[] {
  const entries = valueAt(data, ['axles', axle, list]);
  if (!Array.isArray(entries)) return [];
  return entries.map((part: unknown, i) => ({ path: ['axles', axle, list, i], part }));
}

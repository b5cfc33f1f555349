/** Swept dimensions multiply: a family's alternatives are counted before they are written out. */
import { catalogueName, type LoadedCatalogues } from '../catalogue/loadCatalogues.ts';
import { tooManyOptions } from '../messages/rule.ts';
import { type PathComplaint, valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/nodeAt.ts';
import { PART_LISTS } from './partLists.ts';

/** Alternatives per part family of an axle. */
export const MOST_OPTIONS = 200_000;

export function optionCounts(
  data: unknown,
  axle: readonly PathKey[],
  catalogues: LoadedCatalogues,
): readonly PathComplaint[] {
  return Object.entries(PART_LISTS).flatMap(([list, { entry }]): readonly PathComplaint[] => {
    const path = [...axle, list];
    const entries = valueAt(data, path);
    if (!Array.isArray(entries)) return [];
    const count = entries.reduce((sum: number, item: unknown) => {
      const read = entry.safeParse(item);
      return sum + (read.success ? alternativesOf(read.data, catalogues) : 0);
    }, 0);
    return count > MOST_OPTIONS ? [{ path, at: 'key', complaint: tooManyOptions(count, MOST_OPTIONS) }] : [];
  });
}

/** The product of the number of values of every swept dimension. */
function alternativesOf(part: unknown, catalogues: LoadedCatalogues): number {
  if (typeof part !== 'object' || part === null) return 1;
  const catalogue = valueAt(part, ['catalogue']);
  if (typeof catalogue === 'string') return catalogues.byName.get(catalogueName(catalogue))?.springs.length ?? 0;
  return [...Object.values(part), ...Object.values(valueAt(part, ['coupler']) ?? {})].reduce<number>(
    (product, value) => (isSweep(value) ? product * value.length : product),
    1,
  );
}

function isSweep(value: unknown): value is readonly number[] {
  return Array.isArray(value) && value.every((item) => typeof item === 'number');
}

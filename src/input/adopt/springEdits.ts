/** Edits for the main spring of an axle: in the scenario, or in the row of the catalogue it came from. */
import type { AxleAdoption } from '../../domain/audit/adoption.ts';
import type { Dimension } from '../../domain/units.ts';
import { findUnitByKey, innerUnit } from '../../domain/units.ts';
import { product } from '../assemble/product.ts';
import { wantedRows } from '../assemble/springs.ts';
import { readHeader } from '../catalogue/columns.ts';
import { catalogueName, type LoadedCatalogue, type LoadedCatalogues } from '../catalogue/loadCatalogues.ts';
import type { AxleFields } from '../schema/axle.ts';
import { type CsvRow, cellEdit, cellText, csvRows } from './csvText.ts';
import { entryOf } from './partEdits.ts';
import { inUnit, likeWritten, numberText } from './quantityText.ts';
import type { TextEdit } from './textEdits.ts';
import { setField, writtenAt, type YamlText } from './yamlFields.ts';

/** Edits of the scenario itself, or a row of a catalogue with what changes in it. */
export type SpringEdits =
  | { readonly catalogue: null; readonly edits: readonly TextEdit[] }
  | { readonly catalogue: string; readonly row: RowChange };

export interface RowChange {
  /** Line of the row in the catalogue, from 1. */
  readonly line: number;
  readonly changed: readonly Change[];
}

const CHANGEABLE = ['free_length', 'rate', 'solid_height'] as const;
type Changeable = (typeof CHANGEABLE)[number];
const DIMENSIONS: Readonly<Record<string, Dimension>> = { rate: 'rate', coils: 'ratio' };
const dimensionOf = (field: string): Dimension => DIMENSIONS[field] ?? 'length';

export function springEdits(
  yaml: YamlText,
  axle: AxleFields,
  adoption: AxleAdoption,
  catalogues: LoadedCatalogues,
): SpringEdits {
  const changed = CHANGEABLE.flatMap((name) => {
    const value = adoption.changed[name];
    return value === undefined ? [] : [{ name, value }];
  });
  if (changed.length === 0) return { catalogue: null, edits: [] };
  const sizes = axle.springs.map((entry) => sizeOf(entry, catalogues));
  const index = entryOf(sizes, adoption.digits.spring);
  const local = adoption.digits.spring - sizes.slice(0, index).reduce((sum, size) => sum + size, 0);
  const entry = axle.springs[index];
  if (entry === undefined) throw new RangeError('a spring that no entry of the scenario holds');
  if (!('catalogue' in entry)) {
    return {
      catalogue: null,
      edits: gridEdits(yaml, ['axles', adoption.axle, 'springs', index], entry, local, changed),
    };
  }
  const catalogue = catalogues.byName.get(catalogueName(entry.catalogue)) as LoadedCatalogue;
  const line = wantedRows(entry, catalogue)[local]?.line ?? 0;
  return { catalogue: catalogueName(entry.catalogue), row: { line, changed } };
}

type Entry = AxleFields['springs'][number];
type Grid = Extract<Entry, { readonly name: string }>;
export type Change = { readonly name: Changeable; readonly value: number };

function sizeOf(entry: Entry, catalogues: LoadedCatalogues): number {
  if ('catalogue' in entry) {
    return wantedRows(entry, catalogues.byName.get(catalogueName(entry.catalogue)) as LoadedCatalogue).length;
  }
  return product(dimensionsOf(entry)).length;
}

/** The swept fields of a grid in the order of its product. */
function dimensionsOf(grid: Grid) {
  const none = [Number.NaN];
  return {
    free_length: grid.free_length,
    rate: grid.rate ?? none,
    bore: grid.bore,
    solid_height: grid.solid_height ?? none,
    wire: grid.wire ?? none,
    coils: grid.coils ?? none,
    coating: grid.coating,
  };
}

/** A measured spring of a grid stands alone: the others were not built. */
function gridEdits(
  yaml: YamlText,
  path: readonly (string | number)[],
  grid: Grid,
  local: number,
  changed: readonly Change[],
): TextEdit[] {
  const dimensions = dimensionsOf(grid);
  const neighbour = writtenAt(yaml, [...path, 'free_length']);
  const built = product(dimensions)[local] as Readonly<Record<string, number>>;
  return Object.entries(dimensions).flatMap(([field, values]) => {
    const change = changed.find(({ name }) => name === field);
    if (!change && values.length === 1) return [];
    const value = change?.value ?? (built[field] as number);
    const content = likeWritten(value, dimensionOf(field), writtenAt(yaml, [...path, field]) || neighbour);
    return [setField(yaml, path, field, content)];
  });
}

/** Edits of a catalogue for all rows that change in it; a column that isn't there is put in once, as the last one. */
export function catalogueEdits(text: string, changes: readonly RowChange[]): TextEdit[] {
  const rows = csvRows(text);
  const [header] = rows;
  if (!header) throw new RangeError('a catalogue without a header');
  const { columns } = readHeader(header.cells.map((_, k) => cellText(text, header, k)));
  const inPlace = changes.flatMap(({ line, changed }) =>
    changed.flatMap(({ name, value }) => {
      const column = columns.get(name);
      const row = rows.find((each) => each.line === line);
      return column && row ? [cellEdit(row, column.index, numberIn(value, column.unit?.key, name))] : [];
    }),
  );
  const missing = CHANGEABLE.filter(
    (name) => !columns.has(name) && changes.some((c) => changeOf(c, name) !== undefined),
  );
  const put = rows.map((row, k) => missing.map((name) => `,${newCell(row, k, name)}`).join(''));
  const inserts = rows.flatMap((row, k) =>
    missing.length > 0 ? [{ start: row.end, end: row.end, text: put[k] ?? '' }] : [],
  );
  return [...inPlace, ...inserts];

  function newCell(row: CsvRow, k: number, name: Changeable): string {
    if (k === 0) return `${name}_${innerUnit(dimensionOf(name)).key}`;
    const mine = changes.find(({ line, changed }) => line === row.line && changed.some((c) => c.name === name));
    const value = mine && changeOf(mine, name);
    return value === undefined ? '' : numberText(value);
  }
}

function changeOf({ changed }: RowChange, name: Changeable): number | undefined {
  return changed.find((change) => change.name === name)?.value;
}

function numberIn(value: number, key: string | undefined, name: Changeable): string {
  const unit = findUnitByKey(dimensionOf(name), key ?? '') ?? innerUnit(dimensionOf(name));
  return inUnit(value, { ...unit, symbol: '' });
}

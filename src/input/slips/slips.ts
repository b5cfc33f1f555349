/** What is sound by every rule and still looks like a slip of the pen: warnings, which never refuse a scenario. */
import type * as z from 'zod';
import { AXLE_NAMES, type InputWarning } from '../../model/scenario.ts';
import { fromInner, innerUnit } from '../../model/units.ts';
import { wantedRows } from '../assemble/springs.ts';
import { catalogueName, type LoadedCatalogue, type LoadedCatalogues } from '../catalogue/catalogue.ts';
import { type CatalogueSpring, type Column, type ColumnName, columnOfCell } from '../catalogue/row.ts';
import { type PlacedComplaint, type Problem, sortProblems } from '../problems/problems.ts';
import { plainNumber, quote } from '../problems/value.ts';
import { COMMON, type CommonBand } from '../schema/commonBands.ts';
import { type PathComplaint, valueAt, writtenIn } from '../schema/issues.ts';
import { COMMON_BANDS, COMMON_PRACTICE, DIMENSIONS } from '../schema/leaves.ts';
import type { BenchScenarioFields, ScenarioFields } from '../schema/scenario.ts';
import type { SourceDocument } from '../source/yaml.ts';
import type { FieldDimension } from '../values/quantity.ts';
import { type Held, isCommon, shareOf, unusual, unusualIn, valueInWords } from './judge.ts';
import { heldAgainstNeighbours, SOLID_SHARES } from './neighbours.ts';

type Fields = ScenarioFields | BenchScenarioFields;

/** Warnings that are said one by one. */
const MOST_WARNINGS = 200;

/** All warnings about a sound scenario and the rows it takes from its catalogues, sorted by file and place. */
export function warnAbout(
  schema: z.core.$ZodType,
  { data, place }: SourceDocument,
  fields: Fields,
  catalogues: LoadedCatalogues,
  name: string,
): readonly InputWarning[] {
  const held = [...listOwnBands(schema, data), ...heldAgainstNeighbours(fields)];
  const found = [...findUnusual(data, held), ...findChargedBodies(fields)];
  return sortWarnings([...placeAll(found, place, name), ...checkRowsUsed(fields, catalogues)]);
}

/** Every field that is given, held against its own band. */
function* listOwnBands(of: z.core.$ZodType, data: unknown): Generator<Held> {
  for (const { leaf, path } of writtenIn(of, data)) {
    const band = COMMON_BANDS.get(leaf);
    const kind = DIMENSIONS.get(leaf);
    if (band !== undefined && kind !== undefined) yield { path, ...kind, ...band };
  }
}

/** One complaint a field: what is unusual by itself is not also held against its neighbours, nor they against it. */
function findUnusual(data: unknown, all: Iterable<Held>): readonly PathComplaint[] {
  const found = new Map<string, PathComplaint>();
  for (const held of all) {
    const key = held.path.join('.');
    const isSaid = found.has(key) || (held.by !== undefined && found.has(held.by.join('.')));
    const complaint = isSaid ? null : unusualIn(valueAt(data, held.path), held);
    if (complaint !== null) found.set(key, complaint);
  }
  return [...found.values()];
}

/** Warnings about a sound file of measurements: each value against its own band. */
export function warnAboutMeasured(
  of: z.core.$ZodType,
  { data, place }: SourceDocument,
  name: string,
): readonly InputWarning[] {
  return sortWarnings(placeAll(findUnusual(data, listOwnBands(of, data)), place, name));
}

function placeAll(found: readonly PathComplaint[], place: SourceDocument['place'], file: string): readonly Problem[] {
  return found.map(({ path, at, complaint }) => ({ file, ...place(path, at), ...complaint }));
}

/** Gas given as a charge pressure, in a body that is not said to be a single tube. */
function findChargedBodies({ axles }: Fields): readonly PathComplaint[] {
  return AXLE_NAMES.flatMap((axle) =>
    (axles[axle]?.dampers ?? []).flatMap(({ gas, body }, i): PathComplaint[] => {
      if (gas === 'none' || !('charge' in gas) || body === 'single_tube') return [];
      return [{ path: ['axles', axle, 'dampers', i, 'gas'], at: 'value', complaint: chargeSuggestsSingleTube(body) }];
    }),
  );
}

function checkRowsUsed({ axles }: Fields, catalogues: LoadedCatalogues): readonly Problem[] {
  const entries = AXLE_NAMES.flatMap((axle) => (axles[axle]?.springs ?? []).filter((entry) => 'catalogue' in entry));
  return [...catalogues.byName].flatMap(([file, catalogue]) => {
    const rows = entries
      .filter((entry) => catalogueName(entry.catalogue) === file)
      .flatMap((entry) => wantedRows(entry, catalogue));
    return unusualRows(catalogue, [...new Set(rows)]).map((complaint) => ({ file, ...complaint }));
  });
}

function sortWarnings(found: readonly Problem[]): readonly InputWarning[] {
  return sortProblems(found)
    .slice(0, MOST_WARNINGS)
    .map(({ expected, ...rest }) => ({ ...rest, usual: expected }));
}

const UNDER_PRESSURE =
  'the piston of a single tube runs on the inside of the body’s wall, gas pressure behind it: such a body is never grooved or welded';
const chargeSuggestsSingleTube = (body: string) => ({
  found: `gas given as a charge pressure beside ${quote(`body: ${body}`)}`,
  expected: `${quote('body: single_tube')}: most dampers charged to a pressure are single tubes (${COMMON_PRACTICE})`,
  advice: `find out which it is and write ${quote('body')}: ${UNDER_PRESSURE}`,
});

// Rows of a catalogue outside their common bands: each cell by itself, beside its own row, and beside the rows around it.

type NumberName = Exclude<ColumnName, 'name' | 'ends' | 'material'>;

/** Where a spring keeps what a column holds. */
const VALUE_OF: Readonly<Record<NumberName, (spring: CatalogueSpring) => number | null>> = {
  free_length: ({ freeLength }) => freeLength,
  rate: ({ rate }) => rate,
  bore: ({ bore }) => bore,
  solid_height: ({ solidHeight }) => solidHeight,
  wire: ({ wire }) => wire,
  coils: ({ totalCoils }) => totalCoils,
  coating: ({ coating }) => coating,
  price: ({ price }) => price,
};

/** A cell, the band it lies outside of, and what gives that band. */
interface Cell {
  readonly spring: CatalogueSpring;
  readonly column: Column;
  readonly dimension: FieldDimension;
  readonly value: number;
  readonly usual: CommonBand;
  readonly beside: string;
}

/** @param used the rows that the scenario takes from the catalogue */
export function unusualRows(catalogue: LoadedCatalogue, used: readonly CatalogueSpring[]): readonly PlacedComplaint[] {
  const cells = [...catalogue.columns.values()].flatMap((column) => {
    const all = cellsOf(column, used);
    const inside = all.filter(({ value, usual }) => isCommon(value, usual)).map(({ spring }) => spring);
    const outside = all.filter(({ value, usual }) => !isCommon(value, usual));
    const beside = [...besideRows(column, catalogue.springs, inside), ...besideRow(column, inside)];
    return [...outside, ...new Map(beside.map((cell) => [cell.spring, cell])).values()];
  });
  const rowFrom = rowsOf(catalogue.file.text);
  return group(cells).map(([first, ...others]) => complaintOf(rowFrom, catalogue, first, others.length));
}

/** The cells of a column with the band of its own; none where it has no band. */
function cellsOf(column: Column, springs: readonly CatalogueSpring[]): readonly Cell[] {
  const { spec } = column;
  if (spec === 'text' || spec.usual === undefined) return [];
  const { usual, dimension } = spec;
  return springs.flatMap((spring) => {
    const value = VALUE_OF[column.name as NumberName](spring);
    return value === null ? [] : [{ spring, column, dimension, value, usual, beside: '' }];
  });
}

/** The solid height against the free length of the same row. */
function besideRow(column: Column, springs: readonly CatalogueSpring[]): readonly Cell[] {
  if (column.name !== 'solid_height') return [];
  return cellsOf(column, springs).flatMap((cell) => {
    const { freeLength } = cell.spring;
    const usual = shareOf(...SOLID_SHARES.spring, [freeLength]);
    const beside = `a free length of ${valueInWords(freeLength, 'length')}`;
    const isMeasure = isCommon(freeLength, COMMON.freeLength.usual);
    return isCommon(cell.value, usual) || !isMeasure ? [] : [{ ...cell, usual, beside }];
  });
}

/** What changes little from one row to the next in rate, or in length, and by which factor it may. */
const STEADY: Partial<Record<ColumnName, number>> = { solid_height: 1.2, wire: 1.12, coils: 1.3 };
/** Rows farther away than these factors are no neighbours. */
const NEAR = { rate: 1.5, freeLength: 1.25 } as const;

/** A cell beyond all its neighbours by more than the factor: with two of them at least, one of which may be the slip. */
function besideRows(
  column: Column,
  all: readonly CatalogueSpring[],
  springs: readonly CatalogueSpring[],
): readonly Cell[] {
  const factor = STEADY[column.name];
  if (factor === undefined) return [];
  const neighbours = neighboursIn(all.filter((spring) => VALUE_OF[column.name as NumberName](spring) !== null));
  return cellsOf(column, springs).flatMap((cell) => {
    const near = neighbours(cell.spring);
    const values = near.map((spring) => VALUE_OF[column.name as NumberName](spring) as number);
    const usual = shareOf(1 / factor, factor, values);
    if (near.length < 2 || isCommon(cell.value, usual)) return [];
    const lines = near.map(({ line }) => line).sort((a, b) => a - b);
    return [{ ...cell, usual, beside: `rows ${lines.join(', ')}` }];
  });
}

type Along = 'rate' | 'freeLength';

/** The next rows up and down in rate at the same length, and in length at the same rate, all of the same bore. */
function neighboursIn(springs: readonly CatalogueSpring[]): (spring: CatalogueSpring) => readonly CatalogueSpring[] {
  const key = (spring: CatalogueSpring, same: Along) => `${same} ${spring.bore.toFixed(1)} ${spring[same]?.toFixed(1)}`;
  const lists = new Map<string, CatalogueSpring[]>();
  const along = { rate: 'freeLength', freeLength: 'rate' } as const;
  for (const spring of springs) {
    if (spring.rate === null) continue;
    for (const same of ['rate', 'freeLength'] as const) {
      const list = lists.get(key(spring, same)) ?? [];
      list.push(spring);
      lists.set(key(spring, same), list);
    }
  }
  const places = new Map<string, Map<CatalogueSpring, number>>();
  for (const [name, list] of lists) {
    const by = along[name.startsWith('rate') ? 'rate' : 'freeLength'];
    list.sort((a, b) => (a[by] as number) - (b[by] as number));
    places.set(name, new Map(list.map((spring, i) => [spring, i])));
  }
  return (spring) =>
    (['rate', 'freeLength'] as const).flatMap((same) => {
      const name = key(spring, same);
      const at = places.get(name)?.get(spring);
      if (at === undefined) return [];
      const by = along[same];
      return [lists.get(name)?.[at - 1], lists.get(name)?.[at + 1]].filter(
        (other): other is CatalogueSpring =>
          other !== undefined && isNear(spring[by] as number, other[by] as number, by),
      );
    });
}

function isNear(one: number, other: number, by: Along): boolean {
  return Math.max(one, other) <= NEAR[by] * Math.min(one, other);
}

/** A column wrong from end to end is one warning, not one a row; what hangs on the rows around is said one by one. */
function group(cells: readonly Cell[]): readonly (readonly [Cell, ...Cell[]])[] {
  const groups = new Map<string, [Cell, ...Cell[]]>();
  for (const cell of cells) {
    const { column, value, usual, beside, spring } = cell;
    const key = `${column.name} ${value < usual.least} ${beside === '' ? '' : spring.line}`;
    const known = groups.get(key);
    if (known) known.push(cell);
    else groups.set(key, [cell]);
  }
  return [...groups.values()];
}

function complaintOf(
  rowFrom: (line: number) => string,
  { separator }: LoadedCatalogue,
  cell: Cell,
  more: number,
): PlacedComplaint {
  const { spring, column, dimension, value, usual, beside } = cell;
  const unit = column.unit ?? innerUnit(dimension);
  const amount = { number: Number(plainNumber(fromInner(value, unit))), unit };
  const at = columnOfCell(rowFrom(spring.line), column.index, separator);
  const complaint = unusual(`${column.header}, ${spring.name}`, amount, dimension, usual, beside, more);
  return { line: spring.line + at.line, column: at.column, ...complaint };
}

/** The text from the first sign of a line on. */
function rowsOf(text: string): (line: number) => string {
  const starts = [0];
  for (const { 0: end, index } of text.matchAll(/\r\n|\r|\n/g)) starts.push(index + end.length);
  return (line) => text.slice(starts[line - 1]);
}

/** The columns of a spring catalogue: the unit of a column stands in its name, like `rate_lbf_per_in`. */

import { type Dimension, findUnitByKey, UNITS, type Unit } from '../../model/units.ts';
import * as say from '../problems/catalogue.ts';
import { type Complaint, nearestWord, type Place } from '../problems/problems.ts';
import { COMMON, type CommonBand } from '../schema/commonBands.ts';
import type { Spec } from '../values/quantity.ts';

/** What a column of numbers holds, and what is usual of it. */
type NumberSpec = Spec & { readonly usual?: CommonBand };

/** What a column holds: a number of some dimension, or text. */
const COLUMNS = {
  name: 'text',
  free_length: { dimension: 'length', sign: 'positive', ...COMMON.freeLength },
  rate: { dimension: 'rate', sign: 'positive', ...COMMON.rate },
  bore: { dimension: 'length', sign: 'positive', ...COMMON.springBore },
  solid_height: { dimension: 'length', sign: 'positive', ...COMMON.solidHeight },
  wire: { dimension: 'length', sign: 'positive', ...COMMON.wire },
  coils: { dimension: 'ratio', sign: 'positive', most: 100, ...COMMON.coils },
  ends: 'text',
  coating: { dimension: 'length', sign: 'not_negative', most: 5, ...COMMON.coating },
  material: 'text',
  price: { dimension: 'money', sign: 'not_negative' },
} as const satisfies Readonly<Record<string, NumberSpec | 'text'>>;
export type ColumnName = keyof typeof COLUMNS;
const NAMES = Object.keys(COLUMNS) as readonly ColumnName[];

export interface Column {
  readonly name: ColumnName;
  /** As the header spells it. */
  readonly header: string;
  /** Position in a row, from 0. */
  readonly index: number;
  readonly spec: NumberSpec | 'text';
  readonly unit: Unit | null;
}

export interface Header {
  readonly columns: ReadonlyMap<ColumnName, Column>;
  readonly complaints: readonly { readonly index: number; readonly complaint: Complaint }[];
}

/** Reads the first row. Every unknown, repeated, unitless or missing column is complained about. */
export function readHeader(cells: readonly string[]): Header {
  const columns = new Map<ColumnName, Column>();
  const complaints: { index: number; complaint: Complaint }[] = [];
  cells.forEach((cell, index) => {
    const column = readColumn(cell.trim().toLowerCase(), index);
    if ('complaint' in column) complaints.push({ index, complaint: column.complaint });
    else if (columns.has(column.name)) {
      const other = columns.get(column.name)?.header ?? '';
      complaints.push({ index, complaint: say.repeatedColumn(column.header, other) });
    } else columns.set(column.name, column);
  });
  const named = new Set(cells.map((cell) => nameIn(cell.trim().toLowerCase())));
  for (const missing of missingColumns(named))
    complaints.push({ index: 0, complaint: say.missingColumn(spellings(missing)) });
  return { columns, complaints };
}

function readColumn(header: string, index: number): Column | { readonly complaint: Complaint } {
  const name = nameIn(header);
  if (name === null) {
    const known = NAMES.flatMap(spellings);
    return { complaint: say.unknownColumn(header, nearestWord(header, known), NAMES.map(mainSpelling)) };
  }
  const spec: NumberSpec | 'text' = COLUMNS[name];
  const key = header.slice(name.length + 1);
  if (spec === 'text' || !hasUnits(spec.dimension)) {
    return key === ''
      ? { name, header, index, spec, unit: null }
      : { complaint: say.columnWithWrongUnit(header, key, [name]) };
  }
  if (key === '') return { complaint: say.columnWithoutUnit(header, spellings(name)) };
  const unit = findUnitByKey(spec.dimension, key);
  return unit === null
    ? { complaint: say.columnWithWrongUnit(header, key, spellings(name)) }
    : { name, header, index, spec, unit };
}

/** A column that a catalogue lacks, under the first of its spellings. */
export function newColumn(name: ColumnName, index: number): Column {
  return readColumn(mainSpelling(name), index) as Column;
}

function nameIn(header: string): ColumnName | null {
  return NAMES.find((name) => header === name || header.startsWith(`${name}_`)) ?? null;
}

function missingColumns(named: ReadonlySet<ColumnName | null>): readonly ColumnName[] {
  const needed: ColumnName[] = ['free_length', 'bore'];
  // Without a rate column the rate must come from the geometry.
  if (!named.has('rate') && !(named.has('wire') && named.has('coils'))) needed.push('rate');
  return needed.filter((name) => !named.has(name));
}

/** The column with each unit it may carry. */
function spellings(name: ColumnName): readonly string[] {
  const spec: NumberSpec | 'text' = COLUMNS[name];
  if (spec === 'text' || !hasUnits(spec.dimension)) return [name];
  return UNITS[spec.dimension].map((unit) => `${name}_${unit.key}`);
}

function mainSpelling(name: ColumnName): string {
  return spellings(name)[0] ?? name;
}

function hasUnits(dimension: Dimension): boolean {
  return UNITS[dimension].some((unit) => unit.key !== '');
}

// Where a cell stands in the text of its row.

/**
 * Column (from 1) of the first character of a cell, and how many lines below the row's first line it stands, for
 * rows whose quoted cells hold line breaks. A row with fewer cells gives the start of its last one.
 */
export function columnOfCell(row: string, index: number): Place {
  let [cell, quoted, start] = [0, false, 0];
  for (let i = 0; i < row.length && cell < index; i++) {
    if (row[i] === '"') quoted = !quoted;
    if (row[i] !== ',' || quoted) continue;
    cell++;
    start = i + 1;
  }
  const before = row.slice(0, start).split(/\r\n|\r|\n/);
  return { line: before.length - 1, column: (before[before.length - 1]?.length ?? 0) + 1 };
}

/** The columns of a spring catalogue: the unit of a column stands in its name, like `rate_lbf_per_in`, or in its cells. */

import { type Dimension, findUnit, findUnitByKey, UNITS, type Unit } from '../../model/units.ts';
import * as say from '../problems/catalogue.ts';
import { type Complaint, nearestWord, type Place } from '../problems/problems.ts';
import { COMMON, type CommonBand } from '../schema/commonBands.ts';
import type { Spec } from '../values/quantity.ts';

/** What a column of numbers holds, and what is usual of it. */
export type NumberSpec = Spec & { readonly usual?: CommonBand };

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
  /** As the header spells it, in small letters. */
  readonly header: string;
  /** Position in a row, from 0. */
  readonly index: number;
  readonly spec: NumberSpec | 'text';
  /** Null: bare numbers, or a unit in each cell. */
  readonly unit: Unit | null;
}

/** A column of text that no number depends on, such as a shop or a part number. */
export interface NoteColumn {
  readonly header: string;
  readonly index: number;
}

export interface Header {
  readonly columns: ReadonlyMap<ColumnName, Column>;
  readonly notes: readonly NoteColumn[];
  readonly complaints: readonly { readonly index: number; readonly complaint: Complaint }[];
}

/** Reads the first row. Every doubtful, repeated or missing column, and every wrong unit, is complained about. */
export function readHeader(cells: readonly string[]): Header {
  const columns = new Map<ColumnName, Column>();
  const notes: NoteColumn[] = [];
  const complaints: { index: number; complaint: Complaint }[] = [];
  cells.forEach((cell, index) => {
    const written = cell.trim().replace(/\s+/g, ' ');
    const column = readColumn(written, index);
    if ('complaint' in column) complaints.push({ index, complaint: column.complaint });
    else if (!('name' in column)) {
      const isKnown = notes.some(({ header }) => header === column.header);
      if (isKnown) complaints.push({ index, complaint: say.repeatedColumn(column.header, column.header) });
      else notes.push(column);
    } else if (columns.has(column.name)) {
      const other = columns.get(column.name)?.header ?? '';
      complaints.push({ index, complaint: say.repeatedColumn(column.header, other) });
    } else columns.set(column.name, column);
  });
  const named = new Set(cells.map((cell) => nameIn(plainHeader(cell))?.name ?? null));
  const kept = notes.map(({ header }) => header);
  for (const missing of missingColumns(named))
    complaints.push({ index: 0, complaint: say.missingColumn(spellings(missing), kept) });
  return { columns, notes, complaints };
}

/** `Free length [mm]` and `free-length, mm` as `free length mm`. */
function plainHeader(written: string): string {
  return written
    .toLowerCase()
    .replace(/[\s_,;:()[\]-]+/g, ' ')
    .trim();
}

/** What somebody puts in front of a column that is text whatever it is called. */
const NOTE = /^note\b[\s:_-]*(?=\S)/i;

function readColumn(written: string, index: number): Column | NoteColumn | { readonly complaint: Complaint } {
  const header = written.toLowerCase();
  if (NOTE.test(written)) return { header: written.replace(NOTE, ''), index };
  const known = nameIn(plainHeader(written));
  if (known === null) {
    const nearest = nearestWord(header, [...NAMES, ...NAMES.flatMap(spellings)]);
    if (nearest !== null) return { complaint: say.doubtfulColumn(written, nearest, NAMES.map(mainSpelling)) };
    return { header: written === '' ? `column ${index + 1}` : written, index };
  }
  const { name, behind } = known;
  const spec: NumberSpec | 'text' = COLUMNS[name];
  if (behind === '') return { name, header, index, spec, unit: null };
  const unit = spec === 'text' || !hasUnits(spec.dimension) ? null : unitBehind(spec.dimension, behind);
  return unit === null
    ? { complaint: say.columnWithWrongUnit(written, behind, spellings(name)) }
    : { name, header, index, spec, unit };
}

/** `mm`, `n per mm`, `N/mm`, and `in mm`. */
function unitBehind(dimension: Dimension, behind: string): Unit | null {
  return [behind, behind.replace(/^in /, '')]
    .map((text) => findUnitByKey(dimension, text.replaceAll(' ', '_')) ?? findUnit(dimension, text))
    .reduce((found, unit) => found ?? unit, null);
}

/** A column that a catalogue lacks, under the first of its spellings. */
export function newColumn(name: ColumnName, index: number): Column {
  return readColumn(mainSpelling(name), index) as Column;
}

/** Other names by which people know a column. */
const ALSO: Partial<Readonly<Record<ColumnName, readonly string[]>>> = {
  rate: ['spring rate'],
  bore: ['inner diameter', 'inside diameter'],
  wire: ['wire diameter'],
  coils: ['total coils'],
};

/** The column a plain header names, and what stands behind its name. */
function nameIn(header: string): { readonly name: ColumnName; readonly behind: string } | null {
  const found = NAMES.flatMap((name) =>
    [...(ALSO[name] ?? []), name.replaceAll('_', ' ')]
      .filter((word) => header === word || header.startsWith(`${word} `))
      .map((word) => ({ name, behind: header.slice(word.length + 1) })),
  );
  return found[0] ?? null;
}

function missingColumns(named: ReadonlySet<ColumnName | null>): readonly ColumnName[] {
  const needed: ColumnName[] = ['free_length', 'bore'];
  // Without a rate column the rate must come from the geometry.
  if (!named.has('rate') && !(named.has('wire') && named.has('coils'))) needed.push('rate');
  return needed.filter((name) => !named.has(name));
}

/** The column with each unit it may carry. */
export function spellings(name: ColumnName): readonly string[] {
  const spec: NumberSpec | 'text' = COLUMNS[name];
  if (spec === 'text' || !hasUnits(spec.dimension)) return [name];
  return UNITS[spec.dimension].map((unit) => `${name}_${unit.key}`);
}

function mainSpelling(name: ColumnName): string {
  return spellings(name)[0] ?? name;
}

export function hasUnits(dimension: Dimension): boolean {
  return UNITS[dimension].some((unit) => unit.key !== '');
}

// What stands between the cells of a row, and where a cell stands in it.

const SEPARATORS = [',', ';', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number];

/** The sign that makes most known columns of the header, and most cells; the comma where none does. */
export function separatorOf(header: string): Separator {
  const cells = (separator: Separator) => {
    const split = header.replace(/"[^"]*"/g, (quoted) => quoted.replace(/[,;\t]/g, ' ')).split(separator);
    return [split.filter((cell) => nameIn(plainHeader(cell.replaceAll('"', ''))) !== null).length, split.length];
  };
  return SEPARATORS.reduce((best, next) => {
    const [[known = 0, all = 0], [knownNext = 0, allNext = 0]] = [cells(best), cells(next)];
    return knownNext > known || (knownNext === known && allNext > all) ? next : best;
  });
}

/**
 * Column (from 1) of the first character of a cell, and how many lines below the row's first line it stands, for
 * rows whose quoted cells hold line breaks. A row with fewer cells gives the start of its last one.
 */
export function columnOfCell(row: string, index: number, separator: Separator): Place {
  let [cell, quoted, start] = [0, false, 0];
  for (let i = 0; i < row.length && cell < index; i++) {
    if (row[i] === '"') quoted = !quoted;
    if (row[i] !== separator || quoted) continue;
    cell++;
    start = i + 1;
  }
  const before = row.slice(0, start).split(/\r\n|\r|\n/);
  return { line: before.length - 1, column: (before[before.length - 1]?.length ?? 0) + 1 };
}

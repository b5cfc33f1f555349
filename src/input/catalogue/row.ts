/** Header and rows of a spring catalogue: the columns, and the cells of one row to a spring in inner units. */

import type { Note } from '../../model/parts.ts';
import { MATERIAL_NAMES } from '../../model/spring/materials.ts';
import type { SpringGiven } from '../../model/spring/spring.ts';
import { type Dimension, findUnit, findUnitByKey, fromInner, toInner, UNITS, type Unit } from '../../model/units.ts';
import * as say from '../problems/file.ts';
import { type Complaint, nearestWord, type Place } from '../problems/problems.ts';
import { solidNotShorter } from '../problems/rule.ts';
import { badText, bareNumber, notOneOf, plainNumber, quantityInWords, wrongUnit } from '../problems/value.ts';
import { COMMON, type CommonBand } from '../schema/commonBands.ts';
import { END_NAMES } from '../schema/parts.ts';
import { clearly, type DecimalSign, readDigits, splitUnit, withPlainFractions } from '../values/digits.ts';
import { brokenLimit, type Spec, tidyUnit, wantedFor } from '../values/quantity.ts';

/** A catalogued spring; null where the catalogue is silent. Lengths mm, rate N/mm. */
export interface CatalogueSpring extends Omit<SpringGiven, 'estimate'> {
  readonly line: number;
  readonly material: string | null;
  /** What stands in columns of text. */
  readonly notes: readonly Note[];
}

export interface CellComplaint {
  readonly index: number;
  readonly complaint: Complaint;
}

/** A cell that other cells make wrong: a number without a unit, or a point in a catalogue of decimal commas. */
export interface CellDoubt {
  readonly column: Column;
  readonly complaint: () => Complaint;
  readonly about: 'unit' | 'point';
}

export interface ReadRow {
  /** Null where a cell of it can't be read. */
  readonly spring: CatalogueSpring | null;
  readonly complaints: readonly CellComplaint[];
  readonly doubts: readonly CellDoubt[];
  /** Columns with units in their cells, and the decimal signs of its numbers. */
  readonly withUnit: readonly ColumnName[];
  readonly signs: readonly DecimalSign[];
}

export function readRow(cells: readonly string[], { columns, notes: noted }: Header, line: number): ReadRow {
  const { number, needed, word, text, complain, besides } = rowReader(cells, columns);
  const [freeLength, bore, rate] = [needed('free_length'), needed('bore'), number('rate')];
  const [solidHeight, wire, totalCoils] = [number('solid_height'), number('wire'), number('coils')];
  const [coating, price] = [number('coating'), number('price')];
  const [ends, material] = [word('ends', END_NAMES), word('material', MATERIAL_NAMES)];
  if (rate === null && (wire === null || totalCoils === null)) complain('rate', say.rateMissing());
  if (solidHeight !== null && solidHeight >= freeLength) {
    complain('solid_height', solidNotShorter(solidHeight, freeLength));
  }
  const notes = noted.flatMap(({ header, index }) => {
    const note = cells[index]?.trim() ?? '';
    if (note.length > LONGEST_NOTE) besides.complaints.push({ index, complaint: badText(note) });
    return note === '' ? [] : [{ column: header, text: note }];
  });
  if (besides.complaints.length > 0 || besides.doubts.some(({ about }) => about === 'unit'))
    return { spring: null, ...besides };
  const name = text('name') || generateName(freeLength, rate, wire);
  const numbers = { freeLength, rate, bore, solidHeight, wire, totalCoils, ends, coating, material, price };
  return { spring: { line, name, ...numbers, notes }, ...besides };
}

const LONGEST_NOTE = 2000;

/** Readers of one row's cells by column; what they find besides they add to `besides`. */
function rowReader(cells: readonly string[], columns: ReadonlyMap<ColumnName, Column>) {
  const complaints: CellComplaint[] = [];
  const doubts: CellDoubt[] = [];
  const withUnit: ColumnName[] = [];
  const signs: DecimalSign[] = [];
  const text = (name: ColumnName): string => cells[columns.get(name)?.index ?? -1]?.trim() ?? '';
  const complain = (name: ColumnName, complaint: Complaint): void => {
    complaints.push({ index: columns.get(name)?.index ?? 0, complaint });
  };
  /** Null for an empty cell. A cell that is wrong gives NaN: it is not missing, so nothing else follows from it. */
  const number = (name: ColumnName): number | null => {
    const [column, cell] = [columns.get(name), text(name)];
    if (column === undefined || cell === '') return null;
    const read = readNumber(cell, column, column.spec as NumberSpec);
    if (read.hasUnit) withUnit.push(name);
    if (read.sign !== null) signs.push(read.sign);
    if (read.complaint !== null) complain(name, read.complaint);
    if (read.doubt !== null) doubts.push({ column, ...read.doubt });
    return read.value;
  };
  const needed = (name: ColumnName): number => {
    const value = number(name);
    if (value === null) complain(name, say.cellMissing(columns.get(name)?.header ?? name));
    return value ?? Number.NaN;
  };
  const word = <W extends string>(name: ColumnName, words: readonly W[]): W | null => {
    const found = words.find((candidate) => candidate === text(name)) ?? null;
    if (found === null && text(name) !== '') {
      complain(name, notOneOf(text(name), words, nearestWord(text(name), words)));
    }
    return found;
  };
  return { number, needed, word, text, complain, besides: { complaints, doubts, withUnit, signs } };
}

interface ReadNumber {
  readonly value: number;
  readonly hasUnit: boolean;
  readonly sign: DecimalSign | null;
  readonly complaint: Complaint | null;
  readonly doubt: Pick<CellDoubt, 'about' | 'complaint'> | null;
}

function readNumber(text: string, { unit, header }: Column, spec: NumberSpec): ReadNumber {
  const [written, unitText] = splitUnit(withPlainFractions(text));
  const read = readDigits(written);
  const own = unitText === '' ? null : findUnit(spec.dimension, tidyUnit(unitText));
  const sign = read?.sign ?? null;
  const tell = (value: number, complaint: Complaint | null, doubt: ReadNumber['doubt'] = null): ReadNumber => {
    return { value, hasUnit: own !== null, sign, complaint, doubt };
  };
  if (read === null || (unitText !== '' && !hasUnits(spec.dimension))) {
    return tell(Number.NaN, say.cellNotANumber(text, header, wantedFor(spec.dimension)));
  }
  if (unitText !== '' && own === null) return tell(Number.NaN, wrongUnit(text, unitText, wantedFor(spec.dimension)));
  const { value: number, asThousands } = read;
  const twoWays = () => {
    const tail = unitText === '' ? '' : ` ${unitText}`;
    return say.twoMeanings(text, clearly(plainNumber(number)), plainNumber(asThousands as number), tail);
  };
  if (asThousands !== null && written.includes(',')) return tell(Number.NaN, twoWays());
  if (own !== null && unit !== null && own !== unit) {
    const converted = plainNumber(fromInner(toInner(number, own), unit));
    return tell(Number.NaN, say.cellInOtherUnit(text, header, clearly(converted), written));
  }
  const used = own ?? unit;
  if (used === null && hasUnits(spec.dimension)) {
    return tell(Number.NaN, null, { about: 'unit', complaint: () => bareNumber(text, wantedFor(spec.dimension)) });
  }
  const value = used === null ? number : toInner(number, used);
  const limits = brokenLimit(value, spec);
  if (limits !== null) return tell(Number.NaN, say.cellOutside(text, limits, header));
  return tell(value, null, asThousands === null ? null : { about: 'point', complaint: twoWays });
}

/** A name for a row that has none, from what tells springs apart. */
function generateName(freeLength: number, rate: number | null, wire: number | null): string {
  const inWords = (value: number, unit: string) => quantityInWords(Math.round(value * 100) / 100, unit);
  const second = rate === null ? `wire ${quantityInWords(wire ?? 0, 'mm')}` : inWords(rate, 'N/mm');
  return `${inWords(freeLength, 'mm')} ${second}`;
}

// The columns: the unit of a column stands in its name, like `rate_lbf_per_in`, or in its cells.

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

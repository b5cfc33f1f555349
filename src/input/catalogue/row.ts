/** One row of a spring catalogue to a spring in inner units. */

import type { EndType } from '../../model/formula/coil.ts';
import type { Note } from '../../model/parts.ts';
import type { SpringGiven } from '../../model/spring/spring.ts';
import { findUnit, fromInner, toInner } from '../../model/units.ts';
import * as say from '../problems/catalogue.ts';
import { type Complaint, nearestWord } from '../problems/problems.ts';
import { solidNotShorter } from '../problems/rule.ts';
import { badText, bareNumber, notOneOf, plainNumber, quantityInWords, wrongUnit } from '../problems/value.ts';
import { END_NAMES } from '../schema/parts.ts';
import { MATERIAL_NAMES } from '../schema/springs.ts';
import { clearly, type DecimalSign, readDigits, splitUnit, withPlainFractions } from '../values/digits.ts';
import { brokenLimit, tidyUnit, wantedFor } from '../values/quantity.ts';
import { type Column, type ColumnName, type Header, hasUnits, type NumberSpec } from './columns.ts';

/** A catalogued spring; null where the catalogue is silent. Lengths mm, rate N/mm. */
export interface CatalogueSpring extends Omit<SpringGiven, 'ends' | 'endsStated' | 'coating' | 'estimate'> {
  readonly line: number;
  readonly ends: EndType | null;
  readonly coating: number | null;
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

/** One row of a spring catalogue to a spring in inner units. */

import type { EndType } from '../../model/formula/coil.ts';
import { toInner } from '../../model/units.ts';
import * as say from '../problems/catalogue.ts';
import { type Complaint, nearestWord } from '../problems/problems.ts';
import { solidNotShorter } from '../problems/rule.ts';
import { notOneOf, quantityInWords } from '../problems/value.ts';
import { END_NAMES } from '../schema/parts.ts';
import { MATERIAL_NAMES } from '../schema/springs.ts';
import { brokenLimit } from '../values/quantity.ts';
import type { Column, ColumnName } from './columns.ts';

/** A catalogued spring; null where the catalogue is silent. Lengths mm, rate N/mm. */
export interface CatalogueSpring {
  readonly line: number;
  readonly name: string;
  readonly freeLength: number;
  readonly rate: number | null;
  readonly bore: number;
  readonly solidHeight: number | null;
  readonly wire: number | null;
  readonly coils: number | null;
  readonly ends: EndType | null;
  readonly coating: number | null;
  readonly material: string | null;
  readonly price: number | null;
}

export interface CellComplaint {
  readonly index: number;
  readonly complaint: Complaint;
}

export type ReadRow = { readonly spring: CatalogueSpring } | { readonly complaints: readonly CellComplaint[] };

export function readRow(cells: readonly string[], columns: ReadonlyMap<ColumnName, Column>, line: number): ReadRow {
  const { number, needed, word, text, complain, complaints } = rowReader(cells, columns);
  const [freeLength, bore, rate] = [needed('free_length'), needed('bore'), number('rate')];
  const [solidHeight, wire, coils] = [number('solid_height'), number('wire'), number('coils')];
  const [coating, price] = [number('coating'), number('price')];
  const [ends, material] = [word('ends', END_NAMES), word('material', MATERIAL_NAMES)];
  if (rate === null && (wire === null || coils === null)) complain('rate', say.rateMissing());
  if (solidHeight !== null && solidHeight >= freeLength) {
    complain('solid_height', solidNotShorter(solidHeight, freeLength));
  }
  if (complaints.length > 0) return { complaints };
  const name = text('name') || generateName(freeLength, rate, wire);
  return { spring: { line, name, freeLength, rate, bore, solidHeight, wire, coils, ends, coating, material, price } };
}

/** Readers of one row's cells by column; what they can't read they add to `complaints`. */
function rowReader(cells: readonly string[], columns: ReadonlyMap<ColumnName, Column>) {
  const complaints: CellComplaint[] = [];
  const text = (name: ColumnName): string => cells[columns.get(name)?.index ?? -1]?.trim() ?? '';
  const complain = (name: ColumnName, complaint: Complaint): void => {
    complaints.push({ index: columns.get(name)?.index ?? 0, complaint });
  };
  /** Null for an empty cell. A cell that is wrong gives NaN: it is not missing, so nothing else follows from it. */
  const number = (name: ColumnName): number | null => {
    const column = columns.get(name);
    const read = column === undefined ? null : readNumber(text(name), column);
    if (typeof read === 'number' || read === null) return read;
    complain(name, read);
    return Number.NaN;
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
  return { number, needed, word, text, complain, complaints };
}

function readNumber(text: string, { spec, unit, header }: Column): number | null | Complaint {
  if (text === '') return null;
  if (spec === 'text' || !/^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(text))
    return say.cellNotANumber(text, header);
  const value = unit === null ? Number(text) : toInner(Number(text), unit);
  const limits = brokenLimit(value, spec);
  return limits === null ? value : say.cellOutside(text, limits, header);
}

/** A name for a row that has none, from what tells springs apart. */
function generateName(freeLength: number, rate: number | null, wire: number | null): string {
  const inWords = (value: number, unit: string) => quantityInWords(Math.round(value * 100) / 100, unit);
  const second = rate === null ? `wire ${quantityInWords(wire ?? 0, 'mm')}` : inWords(rate, 'N/mm');
  return `${inWords(freeLength, 'mm')} ${second}`;
}

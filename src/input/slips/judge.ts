/** Whether what was written lies in its common band, and if not, which slip would explain it. */

import { fromInner, innerUnit, toInner, UNITS, type Unit } from '../../model/units.ts';
import type { Complaint } from '../problems/problems.ts';
import { either, harmless, quantityInWords, quote } from '../problems/value.ts';
import type { CommonBand } from '../schema/commonBands.ts';
import type { PathComplaint } from '../schema/issues.ts';
import { COMMON_PRACTICE } from '../schema/leaves.ts';
import type { PathKey } from '../source/yaml.ts';
import { type Amount, amountIn, type FieldDimension } from '../values/quantity.ts';

/** Values held against a band: the field's own, or one that a neighbour gives. */
export interface Held {
  readonly path: readonly PathKey[];
  readonly dimension: FieldDimension;
  readonly usual: CommonBand;
  /** The neighbour in words: `a free length of 180 mm`. */
  readonly beside?: string;
  /** Where the neighbour stands: what is unusual itself is no measure of others. */
  readonly by?: readonly PathKey[];
}

/** Lengths equal but for the rounding of their units. */
const HAIR = 1e-9;

/** The first of a field's values that lies outside, or null; `data` is what the whole file holds at the path. */
export function unusualIn(data: unknown, { path, dimension, usual, beside = '' }: Held): PathComplaint | null {
  const amounts = itemsOf(data).flatMap(({ at, value }) => {
    const amount = amountIn(value, dimension);
    return amount === null || isCommon(innerOf(amount), usual) ? [] : [{ at, amount }];
  });
  const [first] = amounts;
  if (first === undefined) return null;
  const name = String(path.findLast((key) => typeof key === 'string'));
  const complaint = unusual(name, first.amount, dimension, usual, beside, amounts.length - 1);
  return { path: [...path, ...first.at], at: 'inside', complaint };
}

/** What to say of an amount outside its band; `more` values of the same field lie outside too. */
export function unusual(
  name: string,
  amount: Amount,
  dimension: FieldDimension,
  usual: CommonBand,
  beside: string,
  more: number,
): Complaint {
  const { unit } = amount;
  const end = (value: number) => inWords(fromInner(value, unit), unit, 3);
  const band = `${end(usual.least)} to ${end(usual.most)}`;
  return sayUnusual(name, inWords(amount.number, unit), more, band, beside, slipsOf(amount, dimension, usual));
}

export function isCommon(value: number, { least, most }: CommonBand): boolean {
  const slack = HAIR * Math.max(1, Math.abs(value));
  return value >= least - slack && value <= most + slack;
}

/** Where a band begins at 0, a unit that makes next to nothing of a value explains no slip. */
const LEAST_SAID = 0.01;

/** The slips that would make it usual: another unit meant, or a factor of ten. */
function slipsOf({ number, unit }: Amount, dimension: FieldDimension, usual: CommonBand): string[] {
  const tens = [number * 10, number / 10].filter((value) => isCommon(toInner(value, unit), usual));
  const found = new Set([innerOf({ number, unit }), ...tens.map((value) => toInner(value, unit))].map(rounded));
  const others = (UNITS[dimension] as readonly Unit[]).filter((other) => {
    const value = toInner(number, other);
    const isNew = !found.has(rounded(value));
    found.add(rounded(value));
    return isNew && isCommon(value, usual) && value >= LEAST_SAID * usual.most;
  });
  return [
    ...others.map((other) => otherUnit(other.symbol, unit.symbol, inWords(number, other))),
    ...tens.map((value) => factorOfTen(inWords(value, unit))),
  ];
}

function innerOf({ number, unit }: Amount): number {
  return toInner(number, unit);
}

function rounded(value: number): number {
  return Number(value.toPrecision(9));
}

function inWords(value: number, unit: Unit, digits = 10): string {
  return quantityInWords(Number(value.toPrecision(digits)), unit.symbol);
}

/** One value, those of a list, or the two ends of a range. */
function itemsOf(data: unknown): readonly { readonly at: readonly PathKey[]; readonly value: unknown }[] {
  if (Array.isArray(data)) return data.map((value: unknown, i) => ({ at: [i], value }));
  if (typeof data !== 'object' || data === null) return [{ at: [], value: data }];
  return ['from', 'to'].map((end) => ({ at: [end], value: (data as Record<string, unknown>)[end] }));
}

/** The band of a share of another value, like a solid height of 0.2 to 0.75 of the free length. */
export function shareOf(least: number, most: number, others: readonly number[]): CommonBand {
  return { least: least * Math.min(...others), most: most * Math.max(...others) };
}

export function valueInWords(value: number, dimension: FieldDimension): string {
  return inWords(value, innerUnit(dimension), 4);
}

// Sentences about values that are not usual: most of them are slips of the pen.

/** `beside`: the neighbour that makes it unusual; empty where the field's own band does. */
function sayUnusual(name: string, written: string, more: number, band: string, beside: string, slips: string[]) {
  const others = more === 0 ? '' : `, and ${more} more of its values`;
  return {
    found: `${quote(name)} of ${quote(written)}${others}`,
    expected: `${band}${beside === '' ? '' : ` beside ${harmless(beside)}`} (${COMMON_PRACTICE})`,
    advice: slips.length === 0 ? CHECK : `${either(slips)}? ${AS_IT_IS}`,
  };
}

const AS_IT_IS = 'A figure that is right may stay';
const CHECK = `check the figure. ${AS_IT_IS}`;
const factorOfTen = (meant: string) => `a factor of ten, ${quote(meant)}`;

/** `inches meant as mm`: the number is one of the first unit and was given the second. */
const otherUnit = (meant: string, written: string, value: string) =>
  `${UNIT_WORDS[meant] ?? meant} meant as ${UNIT_WORDS[written] ?? written}, ${quote(value)}`;

const UNIT_WORDS: Readonly<Record<string, string>> = { in: 'inches', ft: 'feet' };

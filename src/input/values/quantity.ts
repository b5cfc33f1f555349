/** One value as people write it (`178 mm`, `7in`, `350 lbf/in`) to a number in inner units. */

import { type Dimension, findUnit, innerUnit, toInner, UNITS, type Unit } from '../../model/units.ts';
import type { Complaint } from '../problems/problems.ts';
import type { Rewritten, Wanted } from '../problems/value.ts';
import * as say from '../problems/value.ts';
import { readDigits } from './digits.ts';

export type Sign = 'positive' | 'not_negative' | 'any';

/** What a field accepts: a dimension, a sign, and limits in inner units where they are tighter. */
export interface Spec {
  readonly dimension: FieldDimension;
  readonly sign: Sign;
  readonly least?: number;
  readonly most?: number;
  readonly whole?: boolean;
}

export type Read<T> = { readonly value: T } | { readonly complaint: Complaint };

/** Written where nobody knows a value. */
export const UNKNOWN = 'unknown';

/** A number, and what follows it. */
export const NUMBER = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+(?![a-z]))?)\s*(.*)$/isu;
const WITH_COMMA = /^([+-]?\d[\d.]*),(\d[\d,.]*)\s*([^\d,.].*)?$/su;
const FRACTION = /^(?:(\d+)\s+)?(\d+)\/(\d+)\s*(.*)$/su;

/** A value with its unit, or a bare number where the dimension has no unit. Shares come out as fractions of 1. */
export function readQuantity(value: unknown, spec: Spec): Read<number> {
  const read = unitsOf(spec.dimension).length === 0 ? readBare(value, spec) : readWithUnit(value, spec);
  if ('complaint' in read) return read;
  const limits = brokenLimit(read.value, spec);
  if (limits !== null) return { complaint: say.outsideRange(value, limits, wantedFor(spec.dimension)) };
  return { value: spec.dimension === 'share' ? read.value / 100 : read.value };
}

function readBare(value: unknown, { dimension, most }: Spec): Read<number> {
  const wanted = wantedFor(dimension);
  if (value === undefined || value === null) return { complaint: say.missing(wanted) };
  if (typeof value === 'number') {
    return Number.isFinite(value) ? { value } : { complaint: say.notFinite(value, wanted) };
  }
  if (typeof value !== 'string') return { complaint: say.notAQuantity(value, wanted) };
  if (value.trim() === UNKNOWN)
    return { complaint: say.neededValue(say.wantedInWords(wanted), 'measure it: no usual value can stand for it') };
  const comma = rewriteComma(value);
  if (comma !== null) return { complaint: say.decimalComma(value, comma, wanted) };
  const [, number, unit] = NUMBER.exec(value.trim()) ?? [];
  if (number === undefined) return { complaint: say.notAQuantity(value, wanted) };
  const isPercent = unit === '%' && dimension === 'ratio';
  if (isPercent && isShareOfOne(dimension, most)) return { value: Number(number) / 100 };
  const bare = isPercent ? say.plainNumber(Number(number) / 100) : number;
  return { complaint: say.unitNotWanted(value, bare, wanted) };
}

/** A number that can't be more than 1: nobody means forty by `40 %`. */
export function isShareOfOne(dimension: FieldDimension, most: number | undefined): boolean {
  return dimension === 'ratio' && most === 1;
}

function readWithUnit(value: unknown, { dimension }: Spec): Read<number> {
  const wanted = wantedFor(dimension);
  if (value === undefined || value === null) return { complaint: say.missing(wanted) };
  if (typeof value === 'number') {
    return { complaint: Number.isFinite(value) ? say.bareNumber(value, wanted) : say.notFinite(value, wanted) };
  }
  if (typeof value !== 'string') return { complaint: say.notAQuantity(value, wanted) };
  if (value.trim() === UNKNOWN)
    return { complaint: say.neededValue(say.wantedInWords(wanted), 'measure it: no usual value can stand for it') };
  return readText(value.trim(), dimension);
}

function readText(text: string, dimension: FieldDimension): Read<number> {
  const wanted = wantedFor(dimension);
  const comma = rewriteComma(text);
  if (comma !== null) return { complaint: say.decimalComma(text, comma, wanted) };
  const fraction = rewriteFraction(text);
  if (fraction !== null) return { complaint: say.fraction(text, fraction, wanted) };
  if (/^[+-]?\.?(?:nan|inf(?:inity)?)\b/i.test(text)) return { complaint: say.notFinite(text, wanted) };
  const match = NUMBER.exec(text);
  if (match === null) return { complaint: say.notAQuantity(text, wanted) };
  const [, number = '', written = ''] = match;
  if (written === '') return { complaint: say.bareNumber(text, wanted) };
  const unit = findUnit(dimension, tidyUnit(written));
  if (unit === null) return { complaint: say.wrongUnit(text, written, wanted) };
  const inner = toInner(Number(number), unit);
  return Number.isFinite(inner) ? { value: inner } : { complaint: say.notFinite(text, wanted) };
}

/** A number and its unit as they were written. */
export interface Amount {
  readonly number: number;
  readonly unit: Unit;
}

/** What was written where it reads as a number of the dimension, or null. */
export function amountIn(value: unknown, dimension: FieldDimension): Amount | null {
  if (typeof value === 'number') return { number: value, unit: innerUnit(dimension) };
  const [, number = '', written = ''] = NUMBER.exec(String(value).trim()) ?? [];
  const unit = findUnit(dimension, tidyUnit(written));
  return number === '' || unit === null ? null : { number: Number(number), unit };
}

/** `N / mm` and `N  s/m` as the table spells them. */
export function tidyUnit(written: string): string {
  return written
    .trim()
    .replace(/\s*\/\s*/g, '/')
    .replace(/\s+/g, ' ');
}

/** `17,5 mm` as `17.5` and `mm`, with what it is if the comma stands between thousands; null without a comma. */
function rewriteComma(text: string): Rewritten | null {
  const match = WITH_COMMA.exec(text.trim());
  if (match === null) return null;
  const [, whole = '', rest = '', unit = ''] = match;
  const read = readDigits(`${whole},${rest}`);
  if (read !== null) {
    const thousands = read.asThousands === null ? null : say.plainNumber(read.asThousands);
    return { decimal: say.plainNumber(read.value), thousands, unit };
  }
  // Marks in disorder: only the last sign can be the decimal one.
  return { decimal: `${whole.replace(/\./g, '')}.${rest.replace(/[,.]/g, '')}`, thousands: null, unit };
}

/** `1 1/2 in` as `1.5 in`, or null. */
function rewriteFraction(text: string): string | null {
  const match = FRACTION.exec(text);
  if (match === null || Number(match[3]) === 0) return null;
  const [, whole = '0', over = '0', under = '1', unit = ''] = match;
  return `${say.plainNumber(Number(whole) + Number(over) / Number(under))} ${unit}`.trim();
}

/** The limit a value breaks, in words, or null. */
export function brokenLimit(value: number, { dimension, sign, least, most, whole }: Spec): string | null {
  const unit = innerUnit(dimension).symbol;
  const highest = most ?? DIMENSIONS[dimension].most;
  const smallest = least === undefined ? DIMENSIONS[dimension].least : 0;
  const lowest = least ?? (sign === 'positive' ? smallest : -highest);
  if (sign === 'positive' && !(value > 0)) return 'above 0';
  if (sign === 'not_negative' && !(value >= 0)) return 'of 0 or more';
  if (!(value <= highest)) return `of at most ${say.quantityInWords(highest, unit)}`;
  if (!(value >= lowest)) return `of at least ${say.quantityInWords(lowest, unit)}`;
  if (value !== 0 && Math.abs(value) < smallest) return `of 0 or at least ${say.quantityInWords(smallest, unit)}`;
  return whole === true && !Number.isInteger(value) ? 'without decimals' : null;
}

// What each dimension is called in sentences, and how small and large a value can be before it must be a slip.

/** Noun, and the least plausible size of what is not 0, and the largest, in inner units (a share: in per cent). */
const DIMENSIONS = {
  length: { noun: 'a length', least: 0.01, most: 10_000 },
  area: { noun: 'an area', least: 0.01, most: 1_000_000 },
  volume: { noun: 'a volume', least: 1, most: 1e9 },
  force: { noun: 'a force', least: 0.01, most: 1_000_000 },
  mass: { noun: 'a mass', least: 0.01, most: 50_000 },
  rate: { noun: 'a rate', least: 0.1, most: 10_000 },
  stress: { noun: 'a pressure or stress', least: 0.001, most: 1_000_000 },
  frequency: { noun: 'a frequency', least: 0.01, most: 100 },
  temperature: { noun: 'a temperature', least: 0, most: 300 },
  velocity: { noun: 'a velocity', least: 0.0001, most: 50 },
  share: { noun: 'a percentage', least: 0.001, most: 100 },
  ratio: { noun: 'a number', least: 0.001, most: 1_000 },
  count: { noun: 'a number', least: 1, most: 100_000 },
  money: { noun: 'a price', least: 0.01, most: 1e9 },
} as const satisfies Partial<
  Record<Dimension, { readonly noun: string; readonly least: number; readonly most: number }>
>;

/** Dimensions a scenario uses; ratio, count and money are bare numbers. */
export type FieldDimension = keyof typeof DIMENSIONS;

/** Unit symbols as they are written; none for bare numbers. */
function unitsOf(dimension: FieldDimension): readonly string[] {
  return UNITS[dimension].map((unit) => unit.symbol).filter((symbol) => symbol !== '');
}

export function wantedFor(dimension: FieldDimension): Wanted {
  return { noun: DIMENSIONS[dimension].noun, units: unitsOf(dimension) };
}

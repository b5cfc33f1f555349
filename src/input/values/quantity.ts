/** One value as people write it (`178 mm`, `7in`, `350 lbf/in`) to a number in inner units. */
import { findUnit, innerUnit, toInner, type Unit } from '../../domain/units.ts';
import * as say from '../messages/value.ts';
import { plainNumber, quantityInWords } from '../messages/words.ts';
import type { Complaint } from '../problems.ts';
import { type FieldDimension, largest, unitsOf, wantedFor } from './dimensions.ts';

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

function readBare(value: unknown, { dimension }: Spec): Read<number> {
  const wanted = wantedFor(dimension);
  if (value === undefined || value === null) return { complaint: say.missing(wanted) };
  if (typeof value === 'number') {
    return Number.isFinite(value) ? { value } : { complaint: say.notFinite(value, wanted) };
  }
  if (typeof value !== 'string') return { complaint: say.notAQuantity(value, wanted) };
  const comma = rewriteComma(value);
  if (comma !== null) return { complaint: say.decimalComma(value, comma, wanted) };
  const number = NUMBER.exec(value.trim())?.[1];
  return {
    complaint: number === undefined ? say.notAQuantity(value, wanted) : say.unitNotWanted(value, number, wanted),
  };
}

function readWithUnit(value: unknown, { dimension }: Spec): Read<number> {
  const wanted = wantedFor(dimension);
  if (value === undefined || value === null) return { complaint: say.missing(wanted) };
  if (typeof value === 'number') {
    return { complaint: Number.isFinite(value) ? say.bareNumber(value, wanted) : say.notFinite(value, wanted) };
  }
  if (typeof value !== 'string') return { complaint: say.notAQuantity(value, wanted) };
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
function tidyUnit(written: string): string {
  return written
    .trim()
    .replace(/\s*\/\s*/g, '/')
    .replace(/\s+/g, ' ');
}

/** `17,5 mm` as `17.5 mm`, or null when there is no comma in the number. */
function rewriteComma(text: string): string | null {
  const match = WITH_COMMA.exec(text.trim());
  if (match === null) return null;
  const [, whole = '', rest = '', unit = ''] = match;
  // `1,234,567` and `1.234,5` hold thousands: only the last sign can be the decimal one.
  const digits = `${whole.replace(/\./g, '')}.${rest.replace(/[,.]/g, '')}`;
  return `${digits} ${unit}`.trim();
}

/** `1 1/2 in` as `1.5 in`, or null. */
function rewriteFraction(text: string): string | null {
  const match = FRACTION.exec(text);
  if (match === null || Number(match[3]) === 0) return null;
  const [, whole = '0', over = '0', under = '1', unit = ''] = match;
  return `${plainNumber(Number(whole) + Number(over) / Number(under))} ${unit}`.trim();
}

/** The limit a value breaks, in words, or null. */
export function brokenLimit(value: number, { dimension, sign, least, most, whole }: Spec): string | null {
  const unit = innerUnit(dimension).symbol;
  const highest = most ?? largest(dimension);
  const lowest = least ?? -highest;
  if (sign === 'positive' && !(value > 0)) return 'above 0';
  if (sign === 'not_negative' && !(value >= 0)) return 'of 0 or more';
  if (!(value <= highest)) return `of at most ${quantityInWords(highest, unit)}`;
  if (!(value >= lowest)) return `of at least ${quantityInWords(lowest, unit)}`;
  return whole === true && !Number.isInteger(value) ? 'without decimals' : null;
}

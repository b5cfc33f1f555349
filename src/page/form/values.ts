/** What stands in a field and what is typed into it: units put behind bare numbers, fractions written out, commas asked about. */
import { readDigits } from '../../input/values/digits.ts';
import { UNKNOWN } from '../../input/values/quantity.ts';
import type { Dimension } from '../../model/units.ts';
import { imperialUnit, innerUnit } from '../../model/units.ts';

export type World = 'metric' | 'imperial';

/** The unit a bare number is taken in; empty where a dimension has none. */
export function unitOf(dimension: Dimension, world: World): string {
  const unit = world === 'imperial' ? (imperialUnit(dimension) ?? innerUnit(dimension)) : innerUnit(dimension);
  return unit.symbol;
}

/** What stands there, as it is shown. */
export function shownText(value: unknown): string {
  return value === undefined || value === null || typeof value === 'object' ? '' : String(value);
}

/** A number in any spelling, and what stands behind it. */
const AMOUNT = /^([+-]?\d[\d.,/ ]*?)\s*([^\d.,/ ].*)?$/s;

/**
 * What was typed, once its reader is done with it: a fraction as its decimals, a bare number with the unit that the page
 * is set to. Anything else stays as it is.
 */
export function settled(typed: string, dimension: Dimension, world: World): string {
  const text = typed.trim();
  const [, number = '', behind = ''] = AMOUNT.exec(text) ?? [];
  const unit = unitOf(dimension, world);
  const read = readDigits(number);
  if (read === null || number.includes(',') || unit === '') return text;
  if (number.includes('/')) return `${Number(read.value.toFixed(6))} ${behind || unit}`;
  return behind === '' ? `${number} ${unit}` : text;
}

/** What a number with a comma may mean: one meaning, or two where the comma may stand between thousands. */
export function meantBy(typed: string): readonly string[] {
  const [, number = '', behind = ''] = AMOUNT.exec(typed.trim()) ?? [];
  const read = number.includes(',') ? readDigits(number) : null;
  if (read === null) return [];
  const meant = [read.value, ...(read.asThousands === null ? [] : [read.asThousands])];
  return meant.map((value) => `${value} ${behind}`.trim());
}

export const isUnknown = (value: unknown): boolean => value === UNKNOWN;

/**
 * A quantity: one record that the report, CSV, JSON, terminal and working all read. Symbols are those of the
 * formulas, so an expression such as `m_s * g_n` can be printed, filled with numbers, and checked.
 */

import type { CornerState } from '../corner/state.ts';
import type { HeightWindow } from '../corner/window.ts';
import type { Scenario } from '../scenario.ts';
import { type Dimension, innerUnit } from '../units.ts';

/** A judged corner with its height window: what every corner quantity is read from. */
export interface Working {
  readonly state: CornerState;
  readonly window: HeightWindow | null;
}

/** Both judged corners of a combination: what pair quantities are read from. */
export interface PairWorking {
  readonly scenario: Scenario;
  readonly front: Working;
  readonly rear: Working;
}

export type Group =
  | 'given'
  | 'geometry'
  | 'fit'
  | 'standing'
  | 'rates'
  | 'full bump'
  | 'contacts'
  | 'height window'
  | 'bench'
  | 'load states'
  | 'load cases'
  | 'spring'
  | 'pair';

export interface Quantity<T> {
  /** Stem of the CSV header and JSON key. */
  readonly id: string;
  /** As it stands in formulas; unique, a plain identifier. */
  readonly symbol: string;
  readonly label: string;
  readonly dimension: Dimension;
  readonly group: Group;
  /** Which way is better, where one is. */
  readonly better: 'more' | 'less' | null;
  /** In terms of other symbols; null where the value is given or read off a curve (then `source` says which). */
  readonly expression: (from: T) => string | null;
  readonly source: (from: T) => string;
  /** The value in inner units; null where it does not exist. */
  readonly read: (from: T) => number | null;
  /** What stands in place of a value that exists but is not known; null where there is none to tell of. */
  readonly unknown: string | null;
}

export type CornerQuantity = Quantity<Working>;

/** `bump_travel_mm`: the key of a quantity in CSV and JSON, its unit included. */
export function keyOf(quantity: { readonly id: string; readonly dimension: Dimension }): string {
  const unit = innerUnit(quantity.dimension).key;
  return unit === '' ? quantity.id : `${quantity.id}_${unit}`;
}

/** Thirteen digits say far more than anyone can measure, and leave out the noise of rounding. */
const DIGITS = 13;

/** Values of all quantities by key. Numbers that are not finite do not exist for the reader. */
export function valuesOf<T>(quantities: readonly Quantity<T>[], from: T): Record<string, number | null> {
  const values: Record<string, number | null> = {};
  for (const quantity of quantities) {
    const value = quantity.read(from);
    const exists = value !== null && Number.isFinite(value);
    values[keyOf(quantity)] = exists ? Number(value.toPrecision(DIGITS)) : null;
  }
  return values;
}

type Row<T> = readonly [
  id: string,
  symbol: string,
  label: string,
  dimension: Dimension,
  read: (from: T) => number | null,
  expression?: string | ((from: T) => string | null) | undefined,
  extra?: {
    readonly better?: 'more' | 'less';
    readonly source?: string | ((from: T) => string);
    readonly unknown?: string;
  },
];

/** Turns table rows into quantities of one group. */
export function quantities<T>(group: Group, source: string, rows: readonly Row<T>[]): Quantity<T>[] {
  const saying = (text: string | ((from: T) => string)) => (typeof text === 'function' ? text : () => text);
  return rows.map(([id, symbol, label, dimension, read, expression, extra]) => ({
    id,
    symbol,
    label,
    dimension,
    group,
    better: extra?.better ?? null,
    expression: typeof expression === 'function' ? expression : () => expression ?? null,
    source: saying(extra?.source ?? source),
    read,
    unknown: extra?.unknown ?? null,
  }));
}

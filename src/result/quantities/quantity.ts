import type { Working } from '../../model/corner/window.ts';
import type { Scenario } from '../../model/scenario.ts';
import { type Dimension, innerUnit, type UNITS } from '../../model/units.ts';

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

export interface Quantity<T, Id extends string = string, D extends Dimension = Dimension> {
  /** Stem of the CSV header and JSON key. */
  readonly id: Id;
  /** As it stands in formulas; unique, a plain identifier. */
  readonly symbol: string;
  readonly label: string;
  readonly dimension: D;
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

interface Named {
  readonly id: string;
  readonly dimension: Dimension;
}

/** `bump_travel_mm`: the key of a quantity in CSV and JSON, its unit included. */
export type KeyOf<Q> = Q extends Named ? Keyed<Q['id'], (typeof UNITS)[Q['dimension']][0]['key']> : never;
type Keyed<Id extends string, Unit extends string> = Unit extends '' ? Id : `${Id}_${Unit}`;

export function keyOf<Q extends Named>({ id, dimension }: Q): KeyOf<Q> {
  const unit = innerUnit(dimension).key;
  return (unit === '' ? id : `${id}_${unit}`) as KeyOf<Q>;
}

/** Numbers by key; null: does not exist for what it was read from, absent: is not asked of it. */
export type Values<Key extends string> = { readonly [K in Key as IfMany<K, never, K>]?: number | null } & {
  readonly [K in Key as IfMany<K, K, never>]: number | null;
};
/** Of a key such as `load_${number}_height_mm` there may be any number. */
type IfMany<Key extends string, Yes, No> = Record<never, never> extends Record<Key, 1> ? Yes : No;

/** Thirteen digits say far more than anyone can measure, and leave out the noise of rounding. */
const DIGITS = 13;

/** Values of all quantities by key. Numbers that are not finite do not exist for the reader. */
export function valuesOf<T, Q extends Quantity<T>>(quantities: readonly Q[], from: T): Values<KeyOf<Q>> {
  const values: Record<string, number | null> = {};
  for (const quantity of quantities) {
    const value = quantity.read(from);
    const exists = value !== null && Number.isFinite(value);
    values[keyOf(quantity)] = exists ? Number(value.toPrecision(DIGITS)) : null;
  }
  return values as Values<KeyOf<Q>>;
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

/** A row as a quantity whose id and dimension the compiler knows. */
type QuantityOf<T, R> = R extends readonly [
  infer Id extends string,
  string,
  string,
  infer D extends Dimension,
  ...unknown[],
]
  ? Quantity<T, Id, D>
  : never;

/** Turns table rows into quantities of one group, for a corner or for a pair. */
export function quantities<const R extends readonly Row<Working>[]>(group: Group, source: string, rows: R) {
  return made<Working>(group, source, rows) as QuantityOf<Working, R[number]>[];
}

export function pairRows<const R extends readonly Row<PairWorking>[]>(group: Group, source: string, rows: R) {
  return made<PairWorking>(group, source, rows) as QuantityOf<PairWorking, R[number]>[];
}

function made<T>(group: Group, source: string, rows: readonly Row<T>[]): Quantity<T>[] {
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

// One line of a working: a quantity with its formula in symbols and in numbers.

export interface WorkingLine {
  readonly symbol: string;
  readonly label: string;
  /** In symbols; null where the value is given or read off a curve (then `source` says which). */
  readonly expression: string | null;
  /** The same with numbers put in. */
  readonly filled: string | null;
  /** Inner units of `dimension`; null: not known, and `source` says why. */
  readonly value: number | null;
  readonly dimension: Dimension;
  readonly source: string;
  readonly group: string;
}

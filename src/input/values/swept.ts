/** A dimension to be swept: one value, a list of values, or a range `{ from, to, step }`. */

import type { SideName } from '../../model/scenario.ts';
import { innerUnit } from '../../model/units.ts';
import { type Complaint, nearestWord } from '../problems/problems.ts';
import * as say from '../problems/value.ts';
import { readQuantity, type Spec } from './quantity.ts';

export const MOST_VALUES = 10_000;
/** `to` belongs to the range when it lies within this share of a step. */
const STEP_SLACK = 1e-9;
const RANGE_KEYS = ['from', 'to', 'step'];
const STEP = { sign: 'any', least: Number.NEGATIVE_INFINITY } as const;

export interface ValueComplaint {
  /** Where inside the value: a list index, a range key, or nothing. */
  readonly path: readonly (string | number)[];
  readonly complaint: Complaint;
  /** The complaint is about the name of the field, not about its value. */
  readonly atKey?: boolean;
}

export type ReadValues =
  | { readonly values: readonly number[]; readonly complaints?: undefined }
  | { readonly values?: undefined; readonly complaints: readonly ValueComplaint[] };

/** The values in inner units, in the order written; a range gives `from + i * step`. */
export function readSwept(value: unknown, spec: Spec): ReadValues {
  if (Array.isArray(value)) return readList(value, spec);
  if (typeof value === 'object' && value !== null) return readRange(value as Record<string, unknown>, spec);
  const one = readQuantity(value, spec);
  return 'value' in one ? { values: [one.value] } : fail(one.complaint);
}

function readList(list: readonly unknown[], spec: Spec): ReadValues {
  if (list.length === 0) return fail(say.emptyList());
  if (list.length > MOST_VALUES) return fail(say.rangeTooLong(list.length, MOST_VALUES));
  const complaints: ValueComplaint[] = [];
  const values = new Set<number>();
  const unit = innerUnit(spec.dimension).symbol;
  list.forEach((item, index) => {
    const read = readQuantity(item, spec);
    if ('complaint' in read) complaints.push({ path: [index], complaint: read.complaint });
    else if (values.has(read.value)) complaints.push({ path: [index], complaint: say.repeatedValue(read.value, unit) });
    else values.add(read.value);
  });
  return complaints.length > 0 ? { complaints } : { values: [...values] };
}

function readRange(range: Record<string, unknown>, spec: Spec): ReadValues {
  const complaints: ValueComplaint[] = Object.keys(range)
    .filter((key) => !RANGE_KEYS.includes(key))
    .map((key) => ({
      path: [key],
      complaint: say.unknownKey(key, nearestWord(key, RANGE_KEYS), RANGE_KEYS),
      atKey: true,
    }));
  if (RANGE_KEYS.some((key) => !Object.hasOwn(range, key))) complaints.push({ path: [], complaint: say.notARange() });
  const numbers = RANGE_KEYS.map((key) => {
    if (!Object.hasOwn(range, key)) return Number.NaN;
    // A step may be smaller than the least allowed value; its own sign is judged below.
    const read = readQuantity(range[key], key === 'step' ? { ...STEP, dimension: spec.dimension } : spec);
    if ('value' in read) return read.value;
    complaints.push({ path: [key], complaint: read.complaint });
    return Number.NaN;
  });
  if (complaints.length > 0) return { complaints };
  const [from = 0, to = 0, step = 0] = numbers;
  return spread(from, to, step, range.step, spec);
}

function spread(from: number, to: number, step: number, written: unknown, spec: Spec): ReadValues {
  const unit = innerUnit(spec.dimension).symbol;
  if (!(step > 0)) return fail(say.stepNotPositive(written), ['step']);
  if (to < from) return fail(say.rangeReversed(from, to, unit));
  const count = Math.floor((to - from) / step + STEP_SLACK) + 1;
  if (count > MOST_VALUES) return fail(say.rangeTooLong(count, MOST_VALUES));
  return { values: Array.from({ length: count }, (_, i) => from + i * step) };
}

function fail(complaint: Complaint, path: readonly (string | number)[] = []): ReadValues {
  return { complaints: [{ path, complaint }] };
}

// The load on the wheels of an axle: one for both, or left and right.

export type WheelLoad = number | Readonly<Record<SideName, number>>;

/** Left and right, or null where one load stands for both. */
export function sideLoads(load: WheelLoad): Readonly<Record<SideName, number>> | null {
  return typeof load === 'number' ? null : load;
}

/** The load the sweep judges: the mean of both sides. */
export function meanLoad(load: WheelLoad): number {
  return typeof load === 'number' ? load : (load.left + load.right) / 2;
}

export function leastLoad(load: WheelLoad): number {
  return typeof load === 'number' ? load : Math.min(load.left, load.right);
}

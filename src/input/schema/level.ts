/**
 * How much of a car a scenario tells, and what each level can do without. At the `bench` parts are judged among
 * themselves; a `car` has both axles, their motion and loads, and wishes.
 */

import type * as z from 'zod';
import { UNKNOWN } from '../values/quantity.ts';
import type { Assumable } from './assumedValues.ts';
import { orUnknown, withDefault } from './leaves.ts';

/** Fields that a level may lack: how each schema is made milder. */
export interface Level {
  /** What only says what passes what: on the bench it may be left out, and nothing sure is said by it. */
  readonly measured: <T extends z.ZodType<readonly number[], unknown>>(
    schema: T,
  ) => z.ZodType<readonly number[], unknown>;
  /** What has a usual value: `unknown` takes it, and on the bench leaving it out does. */
  readonly usual: <T extends z.ZodType>(schema: T, unknown: Assumable) => z.ZodType<z.output<T>, unknown>;
  /** What only says more: on the bench it may be `unknown`, as good as left out. */
  readonly known: Level['measured'];
  /** What the bench takes as `value` where it is left out. */
  readonly assumed: <T extends z.ZodType>(schema: T, value: string) => z.ZodType<z.output<T>, unknown>;
  readonly isBench: boolean;
}

/** A field that may be `unknown` and then reads as a value that nobody measured: nothing is judged by it. */
const notMeasured = <T extends z.ZodType<readonly number[], unknown>>(schema: T) =>
  orUnknown<z.ZodType<readonly number[], unknown>>(schema, null, [Number.NaN]);

const given = <T extends z.ZodType>(schema: T) => schema as unknown as z.ZodType<z.output<T>, unknown>;

export const CAR: Level = {
  measured: given,
  usual: (schema, unknown) => orUnknown(schema, unknown),
  known: given,
  assumed: given,
  isBench: false,
};

export const BENCH: Level = {
  measured: (schema) => withDefault(notMeasured(schema), UNKNOWN),
  usual: (schema, unknown) => withDefault(orUnknown(schema, unknown), UNKNOWN),
  known: notMeasured,
  assumed: (schema, value) => withDefault(given(schema), value),
  isBench: true,
};

/**
 * The result as `results.json` and the page hold it: every key in snake_case. Inside the program part families and
 * what the bench starts from keep the names of the model; here they go from one to the other. Results of an earlier
 * version become today's as they are read.
 */
import { camelKey, mapKeys, snakeKey } from '../domain/keys.ts';
import { cornerQuantities } from '../domain/quantities/corner.ts';
import { pairQuantities } from '../domain/quantities/pair.ts';
import { keyOf } from '../domain/quantities/quantity.ts';
import { RESULT_VERSION, type Result } from '../domain/result.ts';
import { FAMILIES } from '../domain/scenario.ts';

export type Written = Readonly<Record<string, unknown>>;

/** Versions that can be read. */
export const READABLE: readonly unknown[] = [1, RESULT_VERSION];

/** Their values are part families. */
const NAMING_FAMILIES: ReadonlySet<string> = new Set(['family', 'swapped', 'shared']);
const FAMILY_OF: ReadonlyMap<string, string> = new Map(FAMILIES.map((family) => [snakeKey(family), family]));

export function writtenOf(result: object): Written {
  return mapKeys(result, snakeKey, NAMING_FAMILIES) as Written;
}

/** @param written of a readable version */
export function resultFrom(written: Written): Result {
  const { live, ...rest } = written.version === RESULT_VERSION ? written : upgraded(written);
  const result = mapKeys(rest, (key) => FAMILY_OF.get(key) ?? key, NAMING_FAMILIES) as object;
  return { ...result, ...(live === undefined ? {} : { live: mapKeys(live, camelKey) }) } as Result;
}

/**
 * Version 1 had some keys in camelCase and no sizes of parts. What it did not tell stays untold: quantities are null.
 * Its bench is left out, since today's model would work out other numbers than those of the page.
 */
function upgraded({ schema, version, live, ...rest }: Written): Written {
  return {
    schema,
    version: RESULT_VERSION,
    upgraded_from: version,
    ...(withAllQuantities(writtenOf(rest)) as Written),
  };
}

const CORNER = untold(cornerQuantities([]));
const PAIR = untold(pairQuantities({ loadCases: [] }));

function untold(quantities: readonly Parameters<typeof keyOf>[0][]): Readonly<Record<string, null>> {
  return Object.fromEntries(quantities.map((quantity) => [keyOf(quantity), null]));
}

/** Corners are told by their parts, pairs by their criteria. */
function withAllQuantities(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(withAllQuantities);
  if (data === null || typeof data !== 'object') return data;
  const record: Written = Object.fromEntries(
    Object.entries(data).map(([key, value]) => [key, withAllQuantities(value)]),
  );
  if (!('values' in record)) return record;
  if ('parts' in record) return { ...record, values: completed(record.values, CORNER) };
  return 'criteria' in record ? { ...record, values: completed(record.values, PAIR) } : record;
}

/** What was told comes first, in its order. */
function completed(told: unknown, all: Readonly<Record<string, null>>): object {
  return { ...Object(told), ...all, ...Object(told) };
}

/** Which defaults a scenario takes: no default is silent. */

import * as z from 'zod';
import type { Assumption } from '../../model/scenario.ts';
import { UNKNOWN } from '../values/quantity.ts';
import { assumedBeside, assumedInWords } from './assumedValues.ts';
import { alternatives, defaultOf, fits, isMapping, unknownOf } from './issues.ts';
import { ABSENCES, COMMON_PRACTICE, DEFAULT_SOURCES } from './leaves.ts';

interface Taken {
  /** Path with list positions, e.g. `axles.front.sleeves[2].inset`. */
  readonly exact: string;
  /** The same with list positions left open: `axles.front.sleeves[].inset`. */
  readonly open: string;
  readonly value: string;
  readonly source: string;
}

/** Every default taken, in the order of the schema; the same default in several entries of a list is one line. */
export function takenDefaults(schema: z.core.$ZodType, data: unknown): readonly Assumption[] {
  const groups = new Map<string, Taken[]>();
  for (const taken of walk(schema, data, '', '')) {
    const key = `${taken.open}\n${taken.value}`;
    const group = groups.get(key);
    if (group) group.push(taken);
    else groups.set(key, [taken]);
  }
  return [...groups.values()].flatMap(([first, ...others]) => {
    if (first === undefined) return [];
    if (others.length === 0) return [{ field: first.exact, value: first.value, source: first.source }];
    return [{ field: first.open, value: `${first.value} (${others.length + 1} times)`, source: first.source }];
  });
}

const ASSUMED = ', assumed: ';

/** Of all that was taken, the usual values that stand for what nobody knows. */
export function assumedOf(assumptions: readonly Assumption[]): readonly Assumption[] {
  return assumptions.filter(({ value }) => value.includes(ASSUMED));
}

function* walk(schema: z.core.$ZodType, data: unknown, exact: string, open: string): Generator<Taken> {
  const given = data === undefined ? defaultOf(schema) : data;
  for (const option of alternatives(schema)) {
    if (option instanceof z.ZodArray && Array.isArray(given)) {
      for (const [i, item] of given.entries()) yield* walk(option.element, item, `${exact}[${i + 1}]`, `${open}[]`);
    } else if (option instanceof z.ZodObject && isMapping(given) && fits(option, given)) {
      yield* walkFields(option, given, exact, open);
    }
  }
}

function* walkFields(
  schema: z.ZodObject,
  data: Record<string, unknown>,
  exact: string,
  open: string,
): Generator<Taken> {
  for (const [key, field] of Object.entries(schema.shape)) {
    const [at, openAt] = [exact, open].map((path) => (path === '' ? key : `${path}.${key}`)) as [string, string];
    const isGiven = Object.hasOwn(data, key);
    const isUnknown = (isGiven ? data[key] : defaultOf(field)) === UNKNOWN;
    const taken = (isUnknown ? takenFor(field, data, exact) : null) ?? (isGiven ? null : takenHere(field));
    if (taken !== null) yield { exact: at, open: openAt, ...taken };
    if (Object.hasOwn(data, key) || isMapping(defaultOf(field))) yield* walk(field, data[key], at, openAt);
  }
}

/** The usual value taken for what nobody knows, and how far off it may be; null where the word means something else. */
function takenFor(
  field: z.core.$ZodType,
  data: Record<string, unknown>,
  at: string,
): Pick<Taken, 'value' | 'source'> | null {
  const unknown = unknownOf(field);
  if (unknown === undefined) return null;
  if (unknown === null)
    return { value: 'not measured: nothing sure is said by it', source: 'left out of the scenario' };
  const taken = assumedBeside(unknown, data, at);
  const words = assumedInWords(taken).replace(', ', ASSUMED);
  return { value: words, source: taken.source ?? COMMON_PRACTICE };
}

/** What a missing field stands for; a default made of fields is listed field by field instead. */
function takenHere(field: z.core.$ZodType): Pick<Taken, 'value' | 'source'> | null {
  const absence = ABSENCES.get(field);
  if (absence !== undefined) return { value: `not given: ${absence.meaning}`, source: 'left out of the scenario' };
  const value = defaultOf(field);
  if (value === undefined || isMapping(value)) return null;
  return { value: inWords(value), source: DEFAULT_SOURCES.get(field as z.ZodType)?.source ?? '' };
}

function inWords(value: unknown): string {
  if (Array.isArray(value)) return value.length === 0 ? 'none' : value.map(inWords).join(', ');
  if (isMapping(value)) return Object.values(value).map(inWords).join(', ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return value === '' ? 'empty' : String(value);
}

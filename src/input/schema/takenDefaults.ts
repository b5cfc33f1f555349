/** Which defaults a scenario takes: no default is silent. */

import { z } from 'zod';
import type { Assumption } from '../../model/scenario.ts';
import { UNKNOWN } from '../values/quantity.ts';
import { alternatives, defaultOf, fits, isMapping, unknownOf } from './issues.ts';
import { ABSENCES, COMMON_PRACTICE, DEFAULT_SOURCES, type Unknown } from './leaves.ts';

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
    const taken = (isUnknown ? takenFor(field) : null) ?? (isGiven ? null : takenHere(field));
    if (taken !== null) yield { exact: at, open: openAt, ...taken };
    if (Object.hasOwn(data, key) || isMapping(defaultOf(field))) yield* walk(field, data[key], at, openAt);
  }
}

/** The usual value taken for what nobody knows, and how far off it may be; null where the word means something else. */
function takenFor(field: z.core.$ZodType): Pick<Taken, 'value' | 'source'> | null {
  const unknown = unknownOf(field);
  if (unknown === undefined) return null;
  if (unknown.take === null)
    return { value: 'not measured: nothing sure is said by it', source: 'left out of the scenario' };
  return { value: `${inWords(unknown.take)}, assumed: ${givenInWords(unknown)} either way`, source: COMMON_PRACTICE };
}

function givenInWords({ take, give }: Unknown): string {
  if (isMapping(take)) return `${(100 * give).toFixed(0)} %`;
  const unit = typeof take === 'string' ? (/[^\d\s.]+$/.exec(take)?.[0] ?? '') : '';
  return `${give} ${unit}`.trim();
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

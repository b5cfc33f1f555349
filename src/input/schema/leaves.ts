/**
 * The leaves a scenario's schema is made of. Each one is a zod schema that reads what people write into inner units
 * and carries its description, so that the schema is the one table of fields: errors, the JSON Schema, the list of
 * assumptions and the field reference are all read from it.
 */

import * as z from 'zod';
import { type Complaint, nearestWord } from '../problems/problems.ts';
import { badName, badText, notOneOf, notTwoValues, unknownKey, wantedInWords } from '../problems/value.ts';
import { isShareOfOne, readQuantity, type Sign, type Spec, UNKNOWN, wantedFor } from '../values/quantity.ts';
import { readSwept } from '../values/swept.ts';
import type { Assumable } from './assumedValues.ts';
import type { CommonBand } from './commonBands.ts';

/** What an issue carries on its way from a schema to a problem. */
export interface IssueParams {
  readonly complaint: Complaint;
  readonly atKey?: boolean;
  /** A value of another kind was wanted: something else than text for a word, a mapping for a single quantity. */
  readonly misfit?: boolean;
}

type Context = z.core.$RefinementCtx;

/** Adds a complaint about the value at `path` below the value being checked. */
export function complain(ctx: Context, path: readonly PropertyKey[], complaint: Complaint, atKey = false): void {
  raise(ctx, path, { complaint, atKey });
}

function raise(ctx: Context, path: readonly PropertyKey[], params: IssueParams): void {
  ctx.addIssue({ code: 'custom', path: [...path], message: params.complaint.found, params: { ...params } });
}

export const COMMON_PRACTICE = 'common practice, no source';

/** What is noted of a field that may be left out: the source of its default, or what its absence means. */
export const DEFAULT_SOURCES = z.registry<{ source: string }>();
export const ABSENCES = z.registry<{ meaning: string }>();

/** The dimension of a leaf that is a number; read from the leaf or from what it was described from. */
export const DIMENSIONS = z.registry<{ dimension: Spec['dimension'] }>();

/** The band a leaf's values usually stay within; read from the leaf itself. */
export const COMMON_BANDS = z.registry<{ usual: CommonBand }>();

/** Limits of a field, and what is usual between them. */
type Limits = Partial<Spec> & { readonly usual?: CommonBand };

/** A field with a default, written as the user would write it. */
export function withDefault<T extends z.ZodType>(schema: T, value: z.input<T>, source: string = COMMON_PRACTICE) {
  // The default is input like any other and goes through the same reading. TypeScript cannot choose between the
  // overloads for a schema it does not know yet.
  const filled = schema.prefault(value as never);
  DEFAULT_SOURCES.add(filled, { source });
  return filled;
}

/** What is taken for a value that nobody knows; null: nothing is judged by it. */
export type Unknown = Assumable | null;

/** Of a field that may be `unknown`: what is then taken. */
export const UNKNOWNS = z.registry<{ unknown: Unknown }>();

/** A field that may be `unknown`. @param nothing what it then reads as, where there is no usual value */
export function orUnknown<T extends z.ZodType>(schema: T, unknown: Unknown, nothing?: z.output<T>) {
  const taken = (unknown === null ? nothing : schema.parse(unknown.take)) as z.output<T>;
  const word = z
    .unknown()
    .transform((value, ctx): z.output<T> => {
      if (value !== UNKNOWN) raise(ctx, [], { complaint: notOneOf(value, [UNKNOWN], null), misfit: true });
      return taken;
    })
    .meta({ const: UNKNOWN });
  const either = z.union([schema, word]).describe(z.globalRegistry.get(schema)?.description ?? '');
  UNKNOWNS.add(either, { unknown });
  return either as unknown as z.ZodType<z.output<T>, unknown>;
}

/** A field that may be left out, and what the program then assumes. */
export function optional<T extends z.ZodType>(schema: T, meaning?: string) {
  const loose = schema.optional();
  if (meaning !== undefined) ABSENCES.add(loose, { meaning });
  return loose;
}

/** A mapping with exactly these fields. */
export function fields<S extends z.core.$ZodLooseShape>(shape: S) {
  // The message of an unknown key carries the known ones; the key itself stands in the issue.
  const known = Object.keys(shape);
  const error = (issue: { code?: string | undefined }) =>
    issue.code === 'unrecognized_keys' ? known.join(' ') : undefined;
  return z.strictObject(shape, { error });
}

export function complainUnknownKey(key: string, known: readonly string[]): Complaint {
  return unknownKey(key, nearestWord(key, known), known);
}

/** One value with its unit, or a bare number; the result is in inner units. */
export function one(dimension: Spec['dimension'], sign: Sign, text: string, { usual, ...limits }: Limits = {}) {
  return withCommon(quantitySchema({ ...limits, dimension, sign }).describe(text), usual);
}

/** One value, a list or a range; the result is all values in inner units. */
export function swept(dimension: Spec['dimension'], sign: Sign, text: string, { usual, ...limits }: Limits = {}) {
  return withCommon(sweptSchema({ ...limits, dimension, sign }).describe(text), usual);
}

/** Two values `[from, to]` with their units. */
export function span(dimension: Spec['dimension'], sign: Sign, text: string, { usual }: Limits = {}) {
  const spec: Spec = { dimension, sign };
  const schema = z.unknown().transform((value, ctx): readonly [number, number] => {
    const pair = Array.isArray(value) && value.length === 2 ? value : null;
    if (pair === null) {
      complain(ctx, [], notTwoValues(value, wantedFor(dimension)));
      return [Number.NaN, Number.NaN];
    }
    const ends = pair.map((item: unknown, index) => {
      const read = readQuantity(item, spec);
      if ('value' in read) return read.value;
      complain(ctx, [index], read.complaint);
      return Number.NaN;
    });
    return [ends[0] ?? Number.NaN, ends[1] ?? Number.NaN];
  });
  const described = schema.meta({
    type: 'array',
    items: { $ref: referenceTo(spec) },
    minItems: 2,
    maxItems: 2,
    description: text,
  });
  return withCommon(withDimension(described, spec), usual);
}

const STARTS_LIKE_A_NUMBER = /^\s*[+-]?[\d.]/;

/** One of a few words. */
export function choice<const W extends readonly string[]>(words: W, text: string) {
  const schema = z.unknown().transform((value, ctx): W[number] => {
    const found = words.find((word) => word === value);
    // A mapping may have a field `toString` that is none.
    const text = typeof value === 'object' ? '' : String(value);
    const complaint = notOneOf(value, words, nearestWord(text, words));
    const isWord = typeof value === 'string' && !STARTS_LIKE_A_NUMBER.test(value);
    if (found === undefined) raise(ctx, [], { complaint, misfit: !isWord });
    return found ?? (words[0] as W[number]);
  });
  return schema.meta({ type: 'string', enum: [...words], description: text });
}

export function yesNo(text: string) {
  return z.boolean().describe(text);
}

/** A short name on one line. */
export function shortName(text: string) {
  return checkedText(text, /^[^\p{Cc}\p{Cf}\p{Zl}\p{Zp}]{1,80}$/u, badName).meta({ minLength: 1, maxLength: 80 });
}

export function longText(text: string) {
  return checkedText(text, /^[^\0]{0,2000}$/su, badText).meta({ maxLength: 2000 });
}

/** Text that matches a pattern; `complaint` says so when it does not. */
export function checkedText(text: string, pattern: RegExp, complaint: (value: unknown) => Complaint) {
  const schema = z.unknown().transform((value, ctx): string => {
    if (typeof value === 'string' && pattern.test(value) && value.trim() === value) return value;
    complain(ctx, [], complaint(value));
    return '';
  });
  return schema.meta({ type: 'string', description: text });
}

const quantities = new Map<string, ReturnType<typeof makeQuantity>>();
const sweeps = new Map<string, ReturnType<typeof makeSwept>>();

/** What the JSON Schema says of every kind of quantity, by the id that others name it with. */
export function quantityDefinitions(): Readonly<Record<string, object>> {
  return Object.fromEntries(
    [...quantities].map(([key, schema]) => {
      const { id, ...definition } = schema.meta() ?? {};
      return [key, definition];
    }),
  );
}

// A shared instance per kind becomes one shared definition in the JSON Schema.
function quantitySchema(spec: Spec): ReturnType<typeof makeQuantity> {
  const id = idOf(spec);
  const known = quantities.get(id) ?? makeQuantity(spec, id);
  quantities.set(id, known);
  return known;
}

function sweptSchema(spec: Spec): ReturnType<typeof makeSwept> {
  const id = `${idOf(spec)}_swept`;
  const known = sweeps.get(id) ?? makeSwept(spec, id);
  sweeps.set(id, known);
  return known;
}

function makeQuantity(spec: Spec, id: string) {
  const schema = z.unknown().transform((value, ctx): number => {
    const read = readQuantity(value, spec);
    if ('value' in read) return read.value;
    raise(ctx, [], { complaint: read.complaint, misfit: isMapping(value) });
    return Number.NaN;
  });
  return withDimension(schema.meta({ id, description: kindInWords(spec), ...jsonType(spec) }), spec);
}

function makeSwept(spec: Spec, id: string) {
  const schema = z.unknown().transform((value, ctx): readonly number[] => {
    const read = readSwept(value, spec);
    if (read.complaints === undefined) return read.values;
    for (const { path, complaint, atKey } of read.complaints) complain(ctx, path, complaint, atKey);
    return [];
  });
  const item = { $ref: referenceTo(spec) };
  const step = { $ref: referenceTo({ dimension: spec.dimension, sign: 'any' }) };
  const range = {
    type: 'object',
    properties: {
      from: { ...item, description: 'first value' },
      to: { ...item, description: 'last value, where the steps come to it' },
      step: { ...step, description: 'from one value to the next' },
    },
    required: ['from', 'to', 'step'],
    additionalProperties: false,
  };
  const anyOf = [item, { type: 'array', items: item, minItems: 1 }, range];
  const described = schema.meta({
    id,
    description: `${kindInWords(spec)}; one value, a list, or a range {from, to, step}`,
    anyOf,
  });
  return withDimension(described, spec);
}

function withDimension<T extends z.ZodType>(schema: T, { dimension }: Spec): T {
  DIMENSIONS.add(schema, { dimension });
  return schema;
}

function withCommon<T extends z.ZodType>(schema: T, usual: CommonBand | undefined): T {
  if (usual !== undefined) COMMON_BANDS.add(schema, { usual });
  return schema;
}

function isMapping(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Where the JSON Schema defines this kind of quantity. */
function referenceTo(spec: Spec): string {
  quantitySchema(spec);
  return `#/$defs/${idOf(spec)}`;
}

function idOf({ dimension, sign, least, most, whole }: Spec): string {
  const limits = `${least === undefined ? '' : `_from_${least}`}${most === undefined ? '' : `_to_${most}`}`;
  return `${dimension}_${sign}${limits}${whole === true ? '_whole' : ''}`;
}

function kindInWords({ dimension, sign, least, most }: Spec): string {
  const signs = { positive: ', above 0', not_negative: ', 0 or more', any: '' };
  const from = least === undefined ? '' : `, at least ${least}`;
  const to = most === undefined ? '' : `, at most ${most}`;
  const percent = isShareOfOne(dimension, most) ? ', or a percentage like `40 %`' : '';
  return `${wantedInWords(wantedFor(dimension))}${signs[sign]}${from}${to}${percent}`;
}

const PERCENT = String.raw`^\s*[+-]?(\d+\.?\d*|\.\d+)\s*%\s*$`;

function jsonType({ dimension, sign, least, most, whole }: Spec) {
  if (wantedFor(dimension).units.length === 0) {
    const minimum = least ?? (sign === 'not_negative' ? 0 : undefined);
    const number = {
      type: whole === true ? 'integer' : 'number',
      ...(sign === 'positive' ? { exclusiveMinimum: 0 } : {}),
      ...(minimum === undefined ? {} : { minimum }),
      ...(most === undefined ? {} : { maximum: most }),
    };
    return isShareOfOne(dimension, most) ? { anyOf: [number, { type: 'string', pattern: PERCENT }] } : number;
  }
  return { type: 'string', pattern: String.raw`^\s*[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*\S` };
}

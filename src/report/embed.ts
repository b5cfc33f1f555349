/**
 * The result inside the page: written into it when it is drawn, found in it again when it is opened later. It stands
 * packed (see `packing/pack.ts`) in a script element that no browser runs, with a digest of its JSON beside it. What
 * the page's bench starts from stands unpacked in an element of its own, for the bench to read, and only there.
 */

import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { camelKey, mapKeys, snakeKey } from '../model/keys.ts';
import { FAMILIES } from '../model/scenario.ts';
import { cornerQuantities } from '../result/quantities/corner.ts';
import { pairQuantities } from '../result/quantities/pair.ts';
import { keyOf } from '../result/quantities/quantity.ts';
import { RESULT_SCHEMA, RESULT_VERSION, type Result } from '../result/result.ts';
import { type RootShape, shapeFault, soundnessFault } from '../result/shape.ts';
import { elementIn, LIVE_ELEMENT, RESULT_ELEMENT } from './packing/element.ts';
import { NewerPacking, NotPacked } from './packing/faults.ts';
import { jsonFaultAt } from './packing/jsonFault.ts';
import { pack, unpack } from './packing/pack.ts';
import { PACKED_VERSION } from './packing/unpack.ts';
import { jsonInScript, mapStrings, visibleInPage } from './text/escape.ts';

/** Line and column in the page, both from 1. */
export interface PagePlace {
  readonly line: number;
  readonly column: number;
}

/** Why a page's result can't be had. */
export type EmbedFault =
  | { readonly kind: 'no result' }
  | { readonly kind: 'cut off' | 'no JSON'; readonly place: PagePlace }
  | { readonly kind: 'damaged'; readonly place: PagePlace; readonly where: string; readonly what: string }
  | {
      readonly kind: 'newer';
      readonly place: PagePlace;
      readonly what: string;
      readonly version: number;
      /** The latest that can be read. */
      readonly known: number;
    }
  | { readonly kind: 'input changed'; readonly place: PagePlace; readonly path: string }
  | { readonly kind: 'result changed'; readonly place: PagePlace };

export type Embedded =
  | { readonly ok: true; readonly result: Result }
  | { readonly ok: false; readonly fault: EmbedFault };

/** More records and lists within each other than any result holds; what was made up to exhaust the machine goes deeper. */
const MOST_DEPTH = 200;
/** Says that the bench's part of the result stands in its own element. */
const BESIDE = { live: 'beside' } as const;

/** What stands between the tags of the page's script element; packed while other things are drawn. */
export async function embeddedJson(result: Result): Promise<string> {
  const { live, ...rest } = writtenOf(result);
  if (!isBeside(live)) return embedded({}, JSON.stringify(writtenOf(result)));
  const json = JSON.stringify(rest);
  // Read back, what stands beside comes last.
  return embedded(BESIDE, json, `${json.slice(0, -1)},"live":${JSON.stringify(live)}}`);
}

async function embedded(beside: Partial<typeof BESIDE>, json: string, whole = json): Promise<string> {
  return jsonInScript({ sha256: digestOf(whole), ...beside, ...(await pack(json)) });
}

/** What stands in the bench's own element; null where there is nothing to start from. */
export function liveJson({ live }: Result): string | null {
  return live ? jsonInScript(mapStrings(mapKeys(live, snakeKey), visibleInPage)) : null;
}

/** The bench shows its texts as the page does, with hidden signs made visible: only without any it is the very record. */
function isBeside(live: unknown): boolean {
  return live !== undefined && JSON.stringify(mapStrings(live, visibleInPage)) === JSON.stringify(live);
}

/** Finds, reads and checks the result that a page carries. */
export function embeddedIn(page: string): Embedded {
  const element = elementIn(page, RESULT_ELEMENT);
  if (element === null) return { ok: false, fault: { kind: 'no result' } };
  const { from, end } = element;
  if (end < 0) return { ok: false, fault: { kind: 'cut off', place: placeIn(page, page.length) } };
  const text = page.slice(from, end);
  const data = parseJson(text);
  if (data === undefined) {
    const place = placeIn(page, from + (jsonFaultAt(text) ?? 0));
    return { ok: false, fault: { kind: 'no JSON', place } };
  }
  return checkAndRead(data, placeIn(page, from), page);
}

/** The part of the result that stands in the bench's element; undefined where it can't be read. */
function besideIn(page: string): unknown {
  const element = elementIn(page, LIVE_ELEMENT);
  return element === null || element.end < 0 ? undefined : parseJson(page.slice(element.from, element.end));
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function checkAndRead(data: unknown, place: PagePlace, page: string): Embedded {
  try {
    const { sha256, live } = (data ?? {}) as { readonly sha256?: unknown; readonly live?: unknown };
    const unpacked = unpack(data);
    const value = live === BESIDE.live ? { ...(unpacked as object), live: besideIn(page) } : unpacked;
    if (isDeeper(value, MOST_DEPTH)) throw new NotPacked('the result', `records more than ${MOST_DEPTH} deep`);
    const fault = faultOf(value, sha256, place);
    return fault === null ? soundResult(currentOf(value as Written), place) : { ok: false, fault };
  } catch (error) {
    if (error instanceof NewerPacking) {
      return {
        ok: false,
        fault: { kind: 'newer', place, what: 'packing', version: error.version, known: PACKED_VERSION },
      };
    }
    if (!(error instanceof NotPacked)) throw error;
    return { ok: false, fault: { kind: 'damaged', place, where: error.where, what: error.message } };
  }
}

/** Newer before all else: what it holds may be right for the program that wrote it. */
function faultOf(value: unknown, sha256: unknown, place: PagePlace): EmbedFault | null {
  const { schema, version, inputs } = (value ?? {}) as Partial<Record<keyof Result, unknown>>;
  if (schema === RESULT_SCHEMA && typeof version === 'number' && version > RESULT_VERSION) {
    return { kind: 'newer', place, what: 'result', version, known: RESULT_VERSION };
  }
  if (schema !== RESULT_SCHEMA || !READABLE.includes(version) || !Array.isArray(inputs)) {
    return { kind: 'damaged', place, where: 'the result', what: `not ${RESULT_SCHEMA} ${RESULT_VERSION}` };
  }
  const changed = inputs.find((input) => !isSound(input));
  if (changed !== undefined) return { kind: 'input changed', place, path: String(changed?.path) };
  return digestOf(JSON.stringify(value)) === sha256 ? null : { kind: 'result changed', place };
}

/** The result, where it has the shape of one and does not contradict itself: whoever can write can make a digest too. */
export function soundResult(written: Written, place: PagePlace): Embedded {
  const shape = shapeFault(written, resultShape());
  const result = shape === null ? resultFrom(written) : null;
  const fault = shape ?? soundnessFault(result as Result);
  if (fault === null) return { ok: true, result: result as Result };
  return { ok: false, fault: { kind: 'damaged', place, ...fault } };
}

let shapeRead: RootShape | null = null;

/** Of the type `Result`, made by the build; `dist` lies two folders up, from the sources and from the compiled files. */
function resultShape(): RootShape {
  const file = new URL('../../dist/results.schema.json', import.meta.url);
  shapeRead ??= JSON.parse(readFileSync(file, 'utf8')) as RootShape;
  return shapeRead;
}

function isDeeper(data: unknown, most: number): boolean {
  if (typeof data !== 'object' || data === null) return false;
  return most === 0 || Object.values(data).some((value) => isDeeper(value, most - 1));
}

/** An input's text is what its digest and its count of bytes say. */
function isSound(input: Partial<Result['inputs'][number]> | null): boolean {
  if (typeof input?.text !== 'string' || typeof input.path !== 'string') return false;
  const bytes = Buffer.from(input.text, 'utf8');
  return bytes.length === input.bytes && createHash('sha256').update(bytes).digest('hex') === input.sha256;
}

function digestOf(json: string): string {
  return createHash('sha256').update(json).digest('hex');
}

function placeIn(page: string, offset: number): PagePlace {
  const before = page.slice(0, offset);
  const line = before.split('\n').length;
  return { line, column: offset - before.lastIndexOf('\n') };
}

// The whole result as JSON, for other programs; `results.schema.json`, made by the build, describes it.

/** Keys stand in the order in which the result is built, which is fixed: the same result gives the same bytes. */
export function resultsJson(result: Result): string {
  return `${JSON.stringify(writtenOf(result), null, 2)}\n`;
}

// The result as `results.json` and the page hold it: every key in snake_case. Inside the program part families and
// what the bench starts from keep the names of the model; here they go from one to the other. Results of an earlier
// version become today's as they are read.

export type Written = Readonly<Record<string, unknown>>;

/** Versions that can be read. */
export const READABLE: readonly unknown[] = [1, RESULT_VERSION];

/** Their values are part families. */
const NAMING_FAMILIES: ReadonlySet<string> = new Set(['family', 'swapped', 'shared']);
const FAMILY_OF: ReadonlyMap<string, string> = new Map(FAMILIES.map((family) => [snakeKey(family), family]));

export function writtenOf(result: object): Written {
  const written = writings.get(result) ?? (mapKeys(result, snakeKey, NAMING_FAMILIES) as Written);
  writings.set(result, written);
  return written;
}

/** Results written before: page and `results.json` hold the same. */
const writings = new WeakMap<object, Written>();

/** @param written of a readable version */
export function resultFrom(written: Written): Result {
  const { live, ...rest } = currentOf(written);
  const result = mapKeys(rest, (key) => FAMILY_OF.get(key) ?? key, NAMING_FAMILIES) as object;
  return { ...result, ...(live === undefined ? {} : { live: mapKeys(live, camelKey) }) } as Result;
}

function currentOf(written: Written): Written {
  return written.version === RESULT_VERSION ? written : upgrade(written);
}

/**
 * Version 1 had some keys in camelCase and no sizes of parts. Quantities that it did not have are null.
 * Its bench is left out, since today's model would work out other numbers than those of the page.
 */
function upgrade({ schema, version, live, ...rest }: Written): Written {
  return {
    schema,
    version: RESULT_VERSION,
    upgraded_from: version,
    ...(withAllQuantities(writtenOf(rest)) as Written),
  };
}

const CORNER = nullsFor(cornerQuantities([]));
const PAIR = nullsFor(pairQuantities({ loadCases: [] }));

function nullsFor(quantities: readonly Parameters<typeof keyOf>[0][]): Readonly<Record<string, null>> {
  return Object.fromEntries(quantities.map((quantity) => [keyOf(quantity), null]));
}

/** Corners have parts, pairs have criteria. */
function withAllQuantities(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(withAllQuantities);
  if (data === null || typeof data !== 'object') return data;
  const record: Written = Object.fromEntries(
    Object.entries(data).map(([key, value]) => [key, withAllQuantities(value)]),
  );
  if (!('values' in record)) return record;
  if ('parts' in record) return { ...record, values: fillQuantities(record.values, CORNER) };
  return 'criteria' in record ? { ...record, values: fillQuantities(record.values, PAIR) } : record;
}

/** What is known comes first, in its order. */
function fillQuantities(known: unknown, all: Readonly<Record<string, null>>): object {
  return { ...Object(known), ...all, ...Object(known) };
}

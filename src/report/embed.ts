/**
 * The result inside the page: written into it when it is drawn, found in it again when it is opened later. It stands
 * packed (see `packing/format.ts`) in a script element that no browser runs, with a digest of its JSON beside it. What
 * the page's bench starts from stands unpacked in an element of its own, for the bench to read, and only there.
 */
import { createHash } from 'node:crypto';
import { mapKeys, snakeKey } from '../domain/keys.ts';
import { RESULT_SCHEMA, RESULT_VERSION, type Result } from '../domain/result.ts';
import { jsonInScript, mapStrings, visibleInPage } from './escape.ts';
import { jsonFaultAt } from './packing/jsonFault.ts';
import { pack } from './packing/pack.ts';
import { NewerPacking, NotPacked, unpack } from './packing/unpack.ts';
import { READABLE, resultFrom, type Written, writtenOf } from './written.ts';

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
  | { readonly kind: 'newer'; readonly place: PagePlace; readonly what: string; readonly version: number }
  | { readonly kind: 'input changed'; readonly place: PagePlace; readonly path: string }
  | { readonly kind: 'result changed'; readonly place: PagePlace };

export type Embedded =
  | { readonly ok: true; readonly result: Result }
  | { readonly ok: false; readonly fault: EmbedFault };

const startOf = (id: string) => `<script type="application/json" id="${id}">`;
const START = startOf('springsift-result');
const LIVE_START = startOf('springsift-live');
const END = '</script>';
/** Says that the bench's part of the result stands in its own element. */
const BESIDE = { live: 'beside' } as const;

/** What stands between the tags of the page's script element. */
export function embeddedJson(result: Result): string {
  const written = writtenOf(result);
  const { live, ...rest } = written;
  if (!isBeside(live)) return jsonInScript({ sha256: digestOf(written), ...pack(written) });
  // Read back, what stands beside comes last.
  return jsonInScript({ sha256: digestOf({ ...rest, live }), ...BESIDE, ...pack(rest) });
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
  const start = page.indexOf(START);
  if (start < 0) return { ok: false, fault: { kind: 'no result' } };
  const from = start + START.length;
  const end = page.indexOf(END, from);
  if (end < 0) return { ok: false, fault: { kind: 'cut off', place: placeIn(page, page.length) } };
  const text = page.slice(from, end);
  const data = parsed(text);
  if (data === undefined) {
    const place = placeIn(page, from + (jsonFaultAt(text) ?? 0));
    return { ok: false, fault: { kind: 'no JSON', place } };
  }
  return checked(data, placeIn(page, from), page);
}

/** The part of the result that stands in the bench's element; undefined where it can't be read. */
function besideIn(page: string): unknown {
  const start = page.indexOf(LIVE_START);
  const end = page.indexOf(END, start);
  return start < 0 || end < 0 ? undefined : parsed(page.slice(start + LIVE_START.length, end));
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function checked(data: unknown, place: PagePlace, page: string): Embedded {
  try {
    const { sha256, live } = (data ?? {}) as { readonly sha256?: unknown; readonly live?: unknown };
    const unpacked = unpack(data);
    const value = live === BESIDE.live ? { ...(unpacked as object), live: besideIn(page) } : unpacked;
    const fault = faultOf(value, sha256, place);
    return fault === null ? { ok: true, result: resultFrom(value as Written) } : { ok: false, fault };
  } catch (error) {
    if (error instanceof NewerPacking) {
      return { ok: false, fault: { kind: 'newer', place, what: 'packing', version: error.version } };
    }
    if (!(error instanceof NotPacked)) throw error;
    return { ok: false, fault: { kind: 'damaged', place, where: error.where, what: error.message } };
  }
}

/** Newer before all else: what it holds may be right for the program that wrote it. */
function faultOf(value: unknown, sha256: unknown, place: PagePlace): EmbedFault | null {
  const { schema, version, inputs } = (value ?? {}) as Partial<Record<keyof Result, unknown>>;
  if (schema === RESULT_SCHEMA && typeof version === 'number' && version > RESULT_VERSION) {
    return { kind: 'newer', place, what: 'result', version };
  }
  if (schema !== RESULT_SCHEMA || !READABLE.includes(version) || !Array.isArray(inputs)) {
    return { kind: 'damaged', place, where: 'the result', what: `not ${RESULT_SCHEMA} ${RESULT_VERSION}` };
  }
  const changed = inputs.find((input) => !isSound(input));
  if (changed !== undefined) return { kind: 'input changed', place, path: String(changed?.path) };
  return digestOf(value) === sha256 ? null : { kind: 'result changed', place };
}

/** An input's text is what its digest and its count of bytes say. */
function isSound(input: Partial<Result['inputs'][number]> | null): boolean {
  if (typeof input?.text !== 'string' || typeof input.path !== 'string') return false;
  const bytes = Buffer.from(input.text, 'utf8');
  return bytes.length === input.bytes && createHash('sha256').update(bytes).digest('hex') === input.sha256;
}

function digestOf(value: unknown): string {
  return createHash('sha256').update(JSON.stringify(value)).digest('hex');
}

function placeIn(page: string, offset: number): PagePlace {
  const before = page.slice(0, offset);
  const line = before.split('\n').length;
  return { line, column: offset - before.lastIndexOf('\n') };
}

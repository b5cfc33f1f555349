/**
 * The result inside the page: written into it when it is drawn, found in it again when it is opened later. It stands
 * packed (see `packing/format.ts`) in a script element that no browser runs, with a digest of its JSON beside it.
 */
import { createHash } from 'node:crypto';
import { RESULT_SCHEMA, RESULT_VERSION, type Result } from '../domain/result.ts';
import { jsonInScript } from './escape.ts';
import { jsonFaultAt } from './packing/jsonFault.ts';
import { pack } from './packing/pack.ts';
import { NewerPacking, NotPacked, unpack } from './packing/unpack.ts';

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

const START = '<script type="application/json" id="springsift-result">';
const END = '</script>';

/** What stands between the tags of the page's script element. */
export function embeddedJson(result: Result): string {
  return jsonInScript({ sha256: digestOf(result), ...pack(result) });
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
  return checked(data, placeIn(page, from));
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function checked(data: unknown, place: PagePlace): Embedded {
  try {
    const value = unpack(data);
    const fault = faultOf(value, (data as { readonly sha256?: unknown }).sha256, place);
    return fault === null ? { ok: true, result: value as unknown as Result } : { ok: false, fault };
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
  if (schema !== RESULT_SCHEMA || version !== RESULT_VERSION || !Array.isArray(inputs)) {
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

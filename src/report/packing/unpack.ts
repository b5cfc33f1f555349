/**
 * Reads what was packed, with limits, wherever it is unfolded: under Node by its own library, in a page by a package.
 *
 *   { "schema": "springsift-packed", "version": 2, "brotli": "…" }
 */

import { NewerPacking, NotPacked } from './faults.ts';
import { jsonFaultAt } from './jsonFault.ts';
import { recordAt, textAt, unpackVersion1 } from './version1.ts';

export const PACKED_SCHEMA = 'springsift-packed';
export const PACKED_VERSION = 2;

/** Limits that no result comes near, and that what was made up to exhaust the machine does not pass. */
export interface Limits {
  /** Bytes of JSON. */
  readonly bytes: number;
  /** Signs that begin a value: `[`, `{` and `,`. */
  readonly values: number;
}

export const MOST: Limits = { bytes: 256_000_000, values: 10_000_000 };
const STARTS: ReadonlySet<number> = new Set([...'[{,'].map((sign) => sign.charCodeAt(0)));

/**
 * The bytes of a base64 text of Brotli; stops as soon as there are more than `bytes` of them.
 * @throws NotPacked
 */
export type Unfold = (base64: string, bytes: number) => Uint8Array;

export function tooLarge(bytes: number): NotPacked {
  return new NotPacked('brotli', `it unfolds to more than ${bytes / 1e6} MB, the most that is read`);
}

/** @throws NotPacked, NewerPacking */
export function unpackBy(unfold: Unfold, packed: unknown, most: Limits = MOST): unknown {
  const { schema, version, ...rest } = recordAt(packed, 'the whole');
  if (schema !== PACKED_SCHEMA) throw new NotPacked('schema', `not ${PACKED_SCHEMA}`);
  if (typeof version === 'number' && version > PACKED_VERSION) throw new NewerPacking(version);
  if (version === 1) return unpackVersion1(rest);
  if (version !== PACKED_VERSION) throw new NotPacked('version', `not ${PACKED_VERSION}`);
  return parseJson(unfold(textAt(rest.brotli, 'brotli'), most.bytes), most);
}

function parseJson(bytes: Uint8Array, { values }: Limits): unknown {
  let found = 0;
  for (const byte of bytes) if (STARTS.has(byte)) found++;
  if (found > values) {
    throw new NotPacked('brotli', `it unfolds to more than ${values / 1e6} million values, the most that is read`);
  }
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  try {
    return JSON.parse(text);
  } catch {
    throw new NotPacked('brotli', `what it unfolds to stops being JSON at sign ${(jsonFaultAt(text) ?? 0) + 1}`);
  }
}

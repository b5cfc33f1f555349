/**
 * Plain data in little room: its JSON, compressed by Brotli (RFC 7932), in base64. A result repeats the same records and
 * sentences far apart; Brotli looks back over all of them, gzip over 32 kB only.
 *
 *   { "schema": "springsift-packed", "version": 2, "brotli": "…" }
 */

import { brotliCompressSync, brotliDecompressSync, constants } from 'node:zlib';
import { NewerPacking, NotPacked } from './faults.ts';
import { jsonFaultAt } from './jsonFault.ts';
import { recordAt, textAt, unpackVersion1 } from './version1.ts';

const PACKED_SCHEMA = 'springsift-packed';
export const PACKED_VERSION = 2;

/** Limits that no result comes near, and that what was made up to exhaust the machine does not pass. */
interface Limits {
  /** Bytes of JSON. */
  readonly bytes: number;
  /** Signs that begin a value: `[`, `{` and `,`. */
  readonly values: number;
}

const MOST: Limits = { bytes: 256_000_000, values: 10_000_000 };
const STARTS: ReadonlySet<number> = new Set(Buffer.from('[{,'));

const SETTINGS = {
  [constants.BROTLI_PARAM_MODE]: constants.BROTLI_MODE_TEXT,
  [constants.BROTLI_PARAM_QUALITY]: 9,
  [constants.BROTLI_PARAM_LGWIN]: 22,
};

export interface Packed {
  readonly schema: typeof PACKED_SCHEMA;
  readonly version: typeof PACKED_VERSION;
  readonly brotli: string;
}

export function pack(data: unknown): Packed {
  const brotli = brotliCompressSync(JSON.stringify(data), { params: SETTINGS }).toString('base64');
  return { schema: PACKED_SCHEMA, version: PACKED_VERSION, brotli };
}

/**
 * Gives back what `pack` packed, and what was packed as version 1.
 * @throws NotPacked, NewerPacking
 */
export function unpack(packed: unknown, most: Limits = MOST): unknown {
  const { schema, version, ...rest } = recordAt(packed, 'the whole');
  if (schema !== PACKED_SCHEMA) throw new NotPacked('schema', `not ${PACKED_SCHEMA}`);
  if (typeof version === 'number' && version > PACKED_VERSION) throw new NewerPacking(version);
  if (version === 1) return unpackVersion1(rest);
  if (version !== PACKED_VERSION) throw new NotPacked('version', `not ${PACKED_VERSION}`);
  return parseJson(unfold(textAt(rest.brotli, 'brotli'), most), most);
}

function unfold(base64: string, { bytes }: Limits): Buffer {
  const folded = Buffer.from(base64, 'base64');
  if (folded.toString('base64') !== base64) throw new NotPacked('brotli', 'not base64');
  try {
    return brotliDecompressSync(folded, { maxOutputLength: bytes });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ERR_BUFFER_TOO_LARGE') {
      throw new NotPacked('brotli', 'it does not unfold');
    }
    throw new NotPacked('brotli', `it unfolds to more than ${bytes / 1e6} MB, the most that is read`);
  }
}

function parseJson(bytes: Buffer, { values }: Limits): unknown {
  let found = 0;
  for (const byte of bytes) if (STARTS.has(byte)) found++;
  if (found > values) {
    throw new NotPacked('brotli', `it unfolds to more than ${values / 1e6} million values, the most that is read`);
  }
  const text = bytes.toString('utf8');
  try {
    return JSON.parse(text);
  } catch {
    throw new NotPacked('brotli', `what it unfolds to stops being JSON at sign ${(jsonFaultAt(text) ?? 0) + 1}`);
  }
}

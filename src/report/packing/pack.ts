/**
 * Plain data in little room: its JSON, compressed by Brotli (RFC 7932), in base64. A result repeats the same records and
 * sentences far apart; Brotli looks back over all of them, gzip over 32 kB only. `unpack.ts` says what it looks like.
 */

import { promisify } from 'node:util';
import { brotliCompress, brotliDecompressSync, constants } from 'node:zlib';
import { NotPacked } from './faults.ts';
import { type Limits, MOST, PACKED_SCHEMA, PACKED_VERSION, tooLarge, unpackBy } from './unpack.ts';

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

const compress = promisify(brotliCompress);

/** Packs JSON, on a thread that Node keeps for this. */
export async function pack(json: string): Promise<Packed> {
  const brotli = (await compress(json, { params: SETTINGS })).toString('base64');
  return { schema: PACKED_SCHEMA, version: PACKED_VERSION, brotli };
}

/**
 * Gives back what `pack` packed, and what was packed as version 1.
 * @throws NotPacked, NewerPacking
 */
export function unpack(packed: unknown, most: Limits = MOST): unknown {
  return unpackBy(unfold, packed, most);
}

function unfold(base64: string, bytes: number): Uint8Array {
  const folded = Buffer.from(base64, 'base64');
  if (folded.toString('base64') !== base64) throw new NotPacked('brotli', 'not base64');
  try {
    return brotliDecompressSync(folded, { maxOutputLength: bytes });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE') throw tooLarge(bytes);
    throw new NotPacked('brotli', 'it does not unfold');
  }
}

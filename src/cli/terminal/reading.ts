/** Reads a report that was written earlier, and the result it carries. */

import { readFile, stat } from 'node:fs/promises';
import { reopen } from '../../pipeline.ts';
import type { Result } from '../../result/result.ts';
import { badInput } from './exit.ts';
import { toolVersion } from './places.ts';
import * as say from './reopenMessages.ts';

/** More than any report, forced ones included. */
const MOST_BYTES = 256_000_000;

/** @throws KnownError with the place of what is wrong */
export async function resultIn(path: string): Promise<Result> {
  const found = await reopen(await pageAt(path));
  if (!found.ok) throw badInput(say.noResult(path, found.fault, toolVersion()));
  return found.result;
}

async function pageAt(path: string): Promise<string> {
  const refuse = (found: string) => badInput(say.noReport(path, found));
  try {
    const { size } = await stat(path);
    if (size > MOST_BYTES) throw refuse(`a file of ${(size / 1e6).toFixed(0)} MB`);
    return new TextDecoder('utf-8', { fatal: true }).decode(await readFile(path));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') throw refuse('bytes that are not UTF-8 text');
    if (typeof code !== 'string') throw error;
    throw refuse(code === 'ENOENT' ? 'no such file' : `a file that cannot be read (${code})`);
  }
}

/** Reads a report that was written earlier, and the result it carries. */

import { regularBytes } from '../../input/source/disk.ts';
import { FileTooLarge, NotRegular } from '../../input/source/files.ts';
import { reopen } from '../../pipeline.ts';
import type { Result } from '../../result/result.ts';
import { badInput } from './exit.ts';
import { settleBeside } from './files.ts';
import * as say from './reopenMessages.ts';
import { toolVersion } from './version.ts';

/** More than any report, forced ones included. */
const MOST_BYTES = 256_000_000;

/** @throws KnownError with the place of what is wrong */
export async function resultIn(path: string): Promise<Result> {
  await settleBeside(path);
  const found = await reopen(await pageAt(path));
  if (!found.ok) throw badInput(say.noResult(path, found.fault, toolVersion()));
  return found.result;
}

async function pageAt(path: string): Promise<string> {
  const refuse = (found: string) => badInput(say.noReport(path, found));
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(await regularBytes(path, MOST_BYTES));
  } catch (error) {
    if (error instanceof NotRegular) throw refuse(error.message);
    if (error instanceof FileTooLarge) throw refuse(`a file of ${(error.bytes / 1e6).toFixed(0)} MB`);
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') throw refuse('bytes that are not UTF-8 text');
    if (typeof code !== 'string') throw error;
    throw refuse(code === 'ENOENT' ? 'no such file' : `a file that cannot be read (${code})`);
  }
}

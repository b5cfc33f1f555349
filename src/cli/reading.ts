/** Reads a report that was written earlier, and the result it carries. */
import { readFile, stat } from 'node:fs/promises';
import type { Result } from '../domain/result.ts';
import { reopen } from '../pipeline.ts';
import { badInput } from './exit.ts';
import * as say from './reopenMessages.ts';
import { toolVersion } from './version.ts';

/** More than any report, forced ones included. */
const MOST_BYTES = 256_000_000;

/** @throws KnownError with the place of what is wrong */
export async function resultIn(path: string): Promise<Result> {
  const found = await reopen(await pageAt(path));
  if (!found.ok) throw badInput(say.noResult(path, found.fault, toolVersion()));
  return found.result;
}

async function pageAt(path: string): Promise<string> {
  const bytes = await bytesAt(path);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw badInput(say.noReport(path, 'bytes that are not UTF-8 text'));
  }
}

async function bytesAt(path: string): Promise<Uint8Array> {
  try {
    const { size } = await stat(path);
    if (size > MOST_BYTES) throw badInput(say.noReport(path, `a file of ${(size / 1e6).toFixed(0)} MB`));
    return await readFile(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (typeof code !== 'string') throw error;
    throw badInput(say.noReport(path, code === 'ENOENT' ? 'no such file' : `a file that cannot be read (${code})`));
  }
}

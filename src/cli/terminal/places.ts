/** Where things go when nobody says. */

import { readFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { failure } from './exit.ts';
import * as say from './messages.ts';

/** A scenario's own name, or its folder's where the file is called `scenario`. */
export function nameOf(path: string): string {
  const stem = basename(path).replace(/\.ya?ml$/i, '');
  return stem === 'scenario' ? basename(dirname(resolve(path))) : stem;
}

export function defaultFolder(path: string): string {
  return join('out', nameOf(path));
}

/** What can be written from a report: the page, tables, record, order list, and the scenario with its catalogues. */
export const TAKES = ['page', 'csv', 'json', 'markdown', 'inputs'] as const;
export type Take = (typeof TAKES)[number];

// The tool's version, from its own package.json.

export function toolVersion(): string {
  const text = readFileSync(new URL('../../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}

// A page that is too large to be mailed or opened on a phone is warned of, and a huge one is not written unasked.

export const LARGE_BYTES = 2_000_000;
export const HUGE_BYTES = 8_000_000;

/**
 * Checks the pages among the files before they are written.
 * @throws KnownError when one is huge and `force` is not given
 */
export function guardSize(
  files: Readonly<Record<string, string>>,
  force: boolean,
  warn: (text: string) => void = (text) => process.stderr.write(`${text}\n`),
): void {
  for (const [name, text] of Object.entries(files)) {
    if (!name.endsWith('.html')) continue;
    const bytes = Buffer.byteLength(text);
    if (bytes > HUGE_BYTES && !force) throw failure(say.hugePage(name, bytes, HUGE_BYTES));
    if (bytes > LARGE_BYTES) warn(say.largePage(name, bytes));
  }
}

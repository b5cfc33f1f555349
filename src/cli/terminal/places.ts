/** Where things go when nobody says. */

import { basename, delimiter, dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { failure, remark } from './exit.ts';
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

export const PACKAGE = fileURLToPath(new URL('../../../', import.meta.url));

/** A scenario to start from: the first of those that come with the tool. */
export const STARTER = join(PACKAGE, 'scenarios', 'hill-hatch');

// What starts this program from where its user stands, as it was started: without a link, by Node or npx.

interface Started {
  /** What Node was given to run: the program itself, or a link to it. */
  readonly script: string;
  /** What else it was given. */
  readonly flags: readonly string[];
  readonly cwd: string;
  readonly env: NodeJS.ProcessEnv;
}

export function ownCommand(
  { script, flags, cwd, env }: Started = {
    script: process.argv[1] ?? '',
    flags: process.execArgv,
    cwd: process.cwd(),
    env: process.env,
  },
): string {
  if (basename(script) === 'springsift') {
    if (env.npm_command === 'exec') return 'npx springsift';
    if (env.PATH?.split(delimiter).includes(dirname(script))) return 'springsift';
  }
  const near = relative(cwd, script);
  const isNear = !near.startsWith('..') && !isAbsolute(near);
  if (isNear && near.endsWith('.ts')) return `npx tsx ${say.forShell(near)}`;
  return ['node', ...flags, isNear ? near : script].map(say.forShell).join(' ');
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
  warn: (text: string) => void = remark,
): void {
  for (const [name, text] of Object.entries(files)) {
    if (!name.endsWith('.html')) continue;
    const bytes = Buffer.byteLength(text);
    if (bytes > HUGE_BYTES && !force) throw failure(say.hugePage(name, bytes, HUGE_BYTES));
    if (bytes > LARGE_BYTES) warn(say.largePage(name, bytes));
  }
}

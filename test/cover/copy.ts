/**
 * The program as it is measured in processes of its own: bundled with source maps into a folder of its own, so that
 * `dist` stays what is shipped. Beside it lies what it looks for in the package it belongs to.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CACHE = join(ROOT, 'node_modules', '.cache', 'springsift');

/** Names the copy for the tests, which run in processes of their own. */
export const VARIABLE = 'SPRINGSIFT_MEASURED';

export interface MeasuredCopy {
  /** The bundled program. */
  readonly dist: string;
  /** Where processes and pages leave what they ran. */
  readonly raw: string;
  /** The page's scripts as written. */
  readonly scripts: string;
}

/** The copy of this test run; null when nothing is measured. */
export function measuredCopy(): MeasuredCopy | null {
  const home = process.env[VARIABLE];
  return home ? { dist: join(home, 'dist'), raw: join(home, 'raw'), scripts: join(home, 'scripts') } : null;
}

/** Made anew, and gone when this process ends. Error: the bundler found something, which it has printed. */
export function makeCopy(): void {
  mkdirSync(CACHE, { recursive: true });
  const home = mkdtempSync(join(CACHE, 'measured-'));
  process.once('exit', () => rmSync(home, { recursive: true, force: true }));
  for (const name of ['package.json', 'scenarios']) cpSync(join(ROOT, name), join(home, name), { recursive: true });
  for (const name of ['raw', 'scripts']) mkdirSync(join(home, name));
  const build = [join(ROOT, '.ci', 'build.mjs'), join(home, 'dist'), '--sourcemap'];
  if (spawnSync(process.execPath, build, { stdio: 'inherit' }).status !== 0) {
    throw new Error('The program could not be bundled for measuring.');
  }
  process.env[VARIABLE] = home;
}

/**
 * The program as it is measured in processes of its own: bundled with source maps into a folder of its own, so that
 * `dist` stays what is shipped. Beside it lies what it looks for in the package it belongs to.
 */
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CACHE = join(ROOT, 'node_modules', '.cache', 'springsift');

/** Names the copy for the tests, which run in processes of their own. */
export const VARIABLE = 'SPRINGSIFT_MEASURED';

/** Set in the threads of tests that are not measured. */
export const UNMEASURED = 'SPRINGSIFT_UNMEASURED';

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
  return home ? copyIn(home) : null;
}

function copyIn(home: string): MeasuredCopy {
  return { dist: join(home, 'dist'), raw: join(home, 'raw'), scripts: join(home, 'scripts') };
}

interface Bundler {
  readonly bundleProgram: (folder: string, options: { readonly sourcemap: boolean }) => Promise<unknown>;
}

/** What the build bundled, which is bundled anew. */
const CODE = new Set(['cli', 'parts', 'pipeline', 'sweep']);

/** Made anew, and gone when this process ends; what is no code is that of `dist`. @throws what the bundler found */
export async function makeCopy(): Promise<MeasuredCopy> {
  mkdirSync(CACHE, { recursive: true });
  const home = mkdtempSync(join(CACHE, 'measured-'));
  process.once('exit', () => rmSync(home, { recursive: true, force: true }));
  for (const name of ['package.json', 'scenarios']) cpSync(join(ROOT, name), join(home, name), { recursive: true });
  for (const name of ['raw', 'scripts']) mkdirSync(join(home, name));
  const dist = join(ROOT, 'dist');
  const filter = (path: string) => !CODE.has(relative(dist, path));
  cpSync(dist, join(home, 'dist'), { recursive: true, filter });
  const { bundleProgram } = (await import(new URL('../../.ci/bundle.mjs', import.meta.url).href)) as Bundler;
  await bundleProgram(join(home, 'dist'), { sourcemap: true });
  process.env[VARIABLE] = home;
  return copyIn(home);
}

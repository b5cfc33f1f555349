/**
 * Other versions of Node than the one that runs the tests, from the registry: each comes as one program in the package
 * `node-<system>-<processor>` of the package `node`. Kept in the cache of the project, so that they are fetched once.
 */
import { execFile } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

const CACHE = fileURLToPath(new URL('../../node_modules/.cache/springsift/', import.meta.url));

/** The program of a major version; null where it can't be had. */
export async function nodeOf(major: number): Promise<string | null> {
  if (Number.parseInt(process.versions.node, 10) === major) return process.execPath;
  const windows = process.platform === 'win32';
  const name = `node-${windows ? 'win' : process.platform}-${process.arch}`;
  const home = join(CACHE, `node-${major}`);
  const program = join(home, 'node_modules', name, 'bin', windows ? 'node.exe' : 'node');
  if (!existsSync(program)) await install(`${name}@${major}`, home).catch(() => undefined);
  return existsSync(program) ? program : null;
}

async function install(what: string, home: string): Promise<void> {
  mkdirSync(home, { recursive: true });
  const quick = ['--prefer-offline', '--no-audit', '--no-fund', '--fetch-retries=0'];
  // Its scripts, which it needs none of, are not run.
  await promisify(execFile)(
    'npm',
    ['install', '--prefix', home, '--no-package-lock', '--ignore-scripts', ...quick, what],
    { timeout: 240_000 },
  );
}

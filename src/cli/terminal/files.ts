/**
 * The only writer of files. A set of files is written whole or not at all: each goes to a temporary name beside its
 * place, and only when all are on disk are they renamed into place.
 */

import { randomBytes } from 'node:crypto';
import { lstat, mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { failure } from './exit.ts';
import { uninterrupted } from './interrupt.ts';
import * as say from './messages.ts';

/**
 * Makes sure, before any work, that the folder can take the files.
 * @throws KnownError when a file stands in the way (and `force` is not given) or the folder can't be written
 */
export async function prepareFolder(folder: string, names: readonly string[], force: boolean): Promise<void> {
  for (const place of new Set(['.', ...names.map((name) => dirname(name))])) {
    await orSay(folder, () => makeFolder(resolve(folder, place)));
  }
  const standing = await existing(folder, names);
  refuseFolders(folder, standing);
  if (standing.length > 0 && !force) throw failure(say.filesInTheWay(folder, namesOf(standing)));
  await removeLeftovers(folder);
  const probe = join(folder, temporaryName('probe'));
  await orSay(folder, async () => (await open(probe, 'wx')).close());
  await rm(probe, { force: true });
}

/** Like `mkdir -p`. Node's own never ends where a folder that is there can hold none, as in some virtual file systems. */
async function makeFolder(path: string): Promise<void> {
  if (await isFolder(path)) return;
  const above = dirname(path);
  if (above !== path) await makeFolder(above);
  try {
    await mkdir(path);
  } catch (error) {
    // Two runs may make the same folder at once.
    if (!(await isFolder(path))) throw error;
  }
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => null))?.isDirectory() ?? false;
}

/** Writes a set of files and prints which, behind a summary. */
export async function writeAndSay(
  folder: string,
  files: Readonly<Record<string, string>>,
  summary = '',
): Promise<void> {
  process.stdout.write(`${summary}${say.wrote(await writeFiles(folder, files))}\n`);
}

/** Writes all files of a set into a folder, whole or not at all. Returns their paths. */
export async function writeFiles(folder: string, files: Readonly<Record<string, string>>): Promise<string[]> {
  const jobs = Object.entries(files).map(([name, text]) => {
    return {
      text,
      target: resolve(folder, name),
      temporary: resolve(folder, dirname(name), temporaryName(basename(name))),
    };
  });
  return uninterrupted(async () => {
    try {
      for (const job of jobs) await orSay(folder, () => writeDurably(job.temporary, job.text));
      // A folder in a file's place would stop the renaming half way.
      refuseFolders(folder, await existing(folder, Object.keys(files)));
      for (const job of jobs) await orSay(folder, () => rename(job.temporary, job.target));
    } finally {
      await Promise.all(jobs.map((job) => rm(job.temporary, { force: true })));
    }
    return jobs.map((job) => job.target);
  });
}

interface Standing {
  readonly name: string;
  readonly isFolder: boolean;
}

/** What stands at these names; a link counts as itself, wherever it leads: it is replaced, never followed. */
async function existing(folder: string, names: readonly string[]): Promise<Standing[]> {
  const found = await Promise.all(names.map((name) => lstat(join(folder, name)).catch(() => null)));
  return names.flatMap((name, k) => (found[k] ? [{ name, isFolder: found[k].isDirectory() }] : []));
}

function refuseFolders(folder: string, standing: readonly Standing[]): void {
  const folders = standing.filter(({ isFolder }) => isFolder);
  if (folders.length > 0) throw failure(say.foldersInTheWay(folder, namesOf(folders)));
}

function namesOf(standing: readonly Standing[]): string[] {
  return standing.map(({ name }) => name);
}

/** A temporary file this old has no writer any more, ms. */
const LEFT_OVER = 3_600_000;

/** Takes away what runs that were killed left behind; a run that is writing at this moment is left alone. */
async function removeLeftovers(folder: string): Promise<void> {
  const names = (await readdir(folder).catch(() => [])).filter((name) => TEMPORARY.test(name));
  for (const path of names.map((name) => join(folder, name))) {
    const found = await lstat(path).catch(() => null);
    if (found?.isFile() && Date.now() - found.mtimeMs > LEFT_OVER) await rm(path, { force: true });
  }
}

async function writeDurably(path: string, text: string): Promise<void> {
  const file = await open(path, 'wx');
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}

const TEMPORARY = /^\..+\.[0-9a-f]{12}\.part$/;

function temporaryName(name: string): string {
  return `.${name}.${randomBytes(6).toString('hex')}.part`;
}

async function orSay<T>(folder: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw failure(say.cannotWrite(folder, (error as NodeJS.ErrnoException).code ?? String(error)));
  }
}

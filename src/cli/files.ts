/**
 * The only writer of files. A set of files is written whole or not at all: each goes to a temporary name beside its
 * place, and only when all are on disk are they renamed into place.
 */
import { randomBytes } from 'node:crypto';
import { access, mkdir, open, rename, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { failure } from './exit.ts';
import * as say from './messages.ts';

/**
 * Makes sure, before any work, that the folder can take the files.
 * @throws KnownError when a file stands in the way (and `force` is not given) or the folder can't be written
 */
export async function prepareFolder(folder: string, names: readonly string[], force: boolean): Promise<void> {
  await orSay(folder, () => mkdir(folder, { recursive: true }));
  const standing = await existing(folder, names);
  if (standing.length > 0 && !force) throw failure(say.filesInTheWay(folder, standing));
  const probe = join(folder, temporaryName('probe'));
  await orSay(folder, async () => (await open(probe, 'wx')).close());
  await rm(probe, { force: true });
}

/** Writes all files of a set into a folder, whole or not at all. Returns their paths. */
export async function writeFiles(folder: string, files: Readonly<Record<string, string>>): Promise<string[]> {
  const jobs = Object.entries(files).map(([name, text]) => {
    return { text, target: resolve(folder, name), temporary: resolve(folder, temporaryName(name)) };
  });
  try {
    for (const job of jobs) await orSay(folder, () => writeDurably(job.temporary, job.text));
    for (const job of jobs) await orSay(folder, () => rename(job.temporary, job.target));
  } finally {
    await Promise.all(jobs.map((job) => rm(job.temporary, { force: true })));
  }
  return jobs.map((job) => job.target);
}

async function existing(folder: string, names: readonly string[]): Promise<string[]> {
  const found = await Promise.all(
    names.map((name) =>
      access(join(folder, name)).then(
        () => true,
        () => false,
      ),
    ),
  );
  return names.filter((_, k) => found[k]);
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

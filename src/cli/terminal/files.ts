/** The only writer of files. A set of files is written whole or not at all: see `journal.ts`. */

import { dirname, join, resolve } from 'node:path';
import { failure, KnownError } from './exit.ts';
import { uninterrupted } from './interrupt.ts';
import { isTrace, placesOf, putInPlace, refuseLinks, settle, standingAt } from './journal.ts';
import { claim, type Disk, HOST, type Host, hold, refuseClaimed } from './lock.ts';
import * as say from './messages.ts';
import { tell } from './printing.ts';

/**
 * Makes sure, before any work, that the folder can take the files, and with `keep` that no other run without `force`
 * begins to work on the same.
 * @throws KnownError when a file stands in the way (and `force` is not given) or the folder can't be written
 */
export async function prepareFolder(
  folder: string,
  names: readonly string[],
  force: boolean,
  keep = false,
  host: Host = HOST,
): Promise<void> {
  const { disk } = host;
  await orSay(folder, () => makeFolder(resolve(folder), disk));
  await orSay(folder, () =>
    hold(folder, host, async (run) => {
      await settleOrSay(folder, disk);
      if (!force) await refuseClaimed(folder, names, host);
      await refuseStanding(folder, names, force, disk);
      for (const place of placesOf(names)) await makeFolder(resolve(folder, place), disk);
      if (keep && !force) await claim(folder, names, run, host);
    }),
  );
}

/** Like `mkdir -p`. Node's own never ends where a folder that is there can hold none, as in some virtual file systems. */
async function makeFolder(path: string, disk: Disk): Promise<void> {
  if (await isFolder(path, disk)) return;
  const above = dirname(path);
  if (above !== path) await makeFolder(above, disk);
  try {
    await disk.mkdir(path);
  } catch (error) {
    // Two runs may make the same folder at once.
    if (!(await isFolder(path, disk))) throw error;
  }
}

async function isFolder(path: string, disk: Disk): Promise<boolean> {
  return (await disk.stat(path).catch(() => null))?.isDirectory() ?? false;
}

/** Writes a set of files and prints which. */
export async function writeAndSay(
  folder: string,
  files: Readonly<Record<string, string>>,
  force: boolean,
  text: (paths: readonly string[]) => string = say.wrote,
  guard: Guard = NO_GUARD,
): Promise<void> {
  await uninterrupted(async () => tell(text(await writeFiles(folder, files, force, HOST, guard))));
}

/** What else must be so right before files are replaced; it throws where it is not. */
type Guard = () => Promise<void>;
const NO_GUARD: Guard = async () => undefined;

/** Writes all files of a set into a folder, whole or not at all; without `force` only where none stands. Returns their paths. */
export async function writeFiles(
  folder: string,
  files: Readonly<Record<string, string>>,
  force = true,
  host: Host = HOST,
  guard: Guard = NO_GUARD,
): Promise<string[]> {
  const { disk } = host;
  const names = Object.keys(files);
  const checkAgain = async () => {
    await refuseStanding(folder, names, force, disk);
    await guard();
  };
  await uninterrupted(() =>
    orSay(folder, () =>
      hold(folder, host, async (run) => {
        await settleOrSay(folder, disk);
        await checkAgain();
        await putInPlace(folder, files, run, disk, checkAgain);
      }),
    ),
  );
  return names.map((name) => resolve(folder, name));
}

/** Before a file is read: what a run that was ended left in its folder is put right, if it can be. */
export async function settleBeside(path: string): Promise<void> {
  // A set with inputs has them in a folder of their own.
  const inner = /^(.*?)[\\/]inputs[\\/]/.exec(resolve(path))?.[1];
  for (const folder of [dirname(resolve(path)), ...(inner === undefined ? [] : [inner])]) {
    const names = await HOST.disk.readdir(folder).catch(() => []);
    if (names.some(isTrace)) await hold(folder, HOST, () => settle(folder, HOST.disk)).catch(() => undefined);
  }
}

async function settleOrSay(folder: string, disk: Disk): Promise<void> {
  try {
    await settle(folder, disk);
  } catch (error) {
    throw error instanceof KnownError ? error : failure(say.cannotFinish(folder, say.codeOf(error)));
  }
}

/**
 * What stands at these names; a link counts as itself, wherever it leads: it is replaced, never followed.
 * @throws KnownError when a folder does, a link in a folder's place, or, without `force`, anything
 */
async function refuseStanding(folder: string, names: readonly string[], force: boolean, disk: Disk): Promise<void> {
  await refuseLinks(folder, names, disk);
  const found = await Promise.all(names.map((name) => standingAt(join(folder, name), disk)));
  const standing = names.filter((_, k) => found[k]);
  const folders = names.filter((_, k) => found[k]?.isDirectory());
  if (folders.length > 0) throw failure(say.foldersInTheWay(folder, folders));
  if (standing.length > 0 && !force) throw failure(say.filesInTheWay(folder, standing));
}

async function orSay<T>(folder: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof KnownError ? error : failure(say.cannotWrite(folder, say.codeOf(error)));
  }
}

/** The only writer of files. A set of files is written whole or not at all: see `journal.ts`. */

import { dirname, isAbsolute, join, resolve } from 'node:path';
import { failure, KnownError, tell } from './exit.ts';
import { uninterrupted } from './interrupt.ts';
import { claim, type Disk, HOST, type Host, hold, isEnded, refuseClaimed } from './lock.ts';
import * as say from './messages.ts';

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

// How a set of files comes to its places whole or not at all, whatever happens meanwhile. A list of their names is
// written, then the files themselves beside their places, all brought to the disk; then the list becomes the journal, in
// one step: from there on the set counts. Then the files are renamed into place, and the journal goes. Whoever comes
// next finishes what has a journal, and clears away what has none.
// *
// .springsift.<run>.list       the list, not yet the journal
// .springsift.<run>.journal    the journal
// .springsift.<run>.<k>.part   the k-th file, beside its place; there only while list or journal is

const LIST = /^\.springsift\.([0-9a-f]{12})\.(?:list|journal)$/;
/** What was written before there were lists. */
const OLD_PART = /^\..+\.[0-9a-f]{12}\.part$/;
/** More than any list of names has. */
const MOST_BYTES = 1_000_000;

const partAt = (folder: string, name: string, k: number, run: string) =>
  join(folder, dirname(name), `.springsift.${run}.${k}.part`);

/** Whether a name is of a run that writes, or wrote and was ended. */
export function isTrace(name: string): boolean {
  return LIST.test(name) || /^\.springsift\..*\.lock$/.test(name);
}

/**
 * Puts files into place; only the holder of a folder's lock may.
 * @throws KnownError that says truly whether anything was changed
 */
export async function putInPlace(
  folder: string,
  files: Readonly<Record<string, string>>,
  run: string,
  disk: Disk,
  checkAgain: () => Promise<void>,
): Promise<void> {
  const names = Object.keys(files);
  const list = join(folder, `.springsift.${run}.list`);
  const journal = join(folder, `.springsift.${run}.journal`);
  try {
    await writeDurably(list, JSON.stringify(names), disk);
    for (const [k, name] of names.entries()) await writeDurably(partAt(folder, name, k, run), files[name] ?? '', disk);
    await checkAgain();
    await syncFolders(folder, names, disk);
    await disk.rename(list, journal);
  } catch (error) {
    await clearRun(folder, list, names, run, disk);
    throw error;
  }
  try {
    await placeParts(folder, names.slice(0, 1), run, disk);
  } catch (error) {
    // Nothing was changed yet, so nothing has to be.
    await disk.rename(journal, list).catch(() => notAllInPlace(folder, error));
    await clearRun(folder, list, names, run, disk);
    throw error;
  }
  await placeParts(folder, names, run, disk).catch((error) => notAllInPlace(folder, error));
  await clear(journal, disk);
}

function notAllInPlace(folder: string, error: unknown): never {
  throw failure(say.notAllInPlace(folder, say.codeOf(error)));
}

/** Renames the parts that are still there. */
async function placeParts(folder: string, names: readonly string[], run: string, disk: Disk): Promise<void> {
  for (const [k, name] of names.entries()) {
    const part = partAt(folder, name, k, run);
    if ((await standingAt(part, disk)) !== null) await disk.rename(part, resolve(folder, name));
  }
  await syncFolders(folder, names, disk);
}

/**
 * Finishes the sets of runs that were ended between journal and last rename, and clears away what other runs left; only
 * the holder of the lock may.
 */
export async function settle(folder: string, disk: Disk): Promise<void> {
  const names = await disk.readdir(folder);
  for (const name of names) {
    const run = LIST.exec(name)?.[1];
    if (run === undefined) continue;
    const path = join(folder, name);
    // What is no list was to become one: nothing else was written yet.
    const files = (await readList(path, disk)) ?? [];
    if (name.endsWith('.list')) await clearRun(folder, path, files, run, disk);
    else {
      await refuseLinks(folder, files, disk);
      await placeParts(folder, files, run, disk);
      await disk.unlink(path);
    }
  }
  for (const name of names) {
    if (OLD_PART.test(name) || (await isEnded(folder, name, disk))) await clear(join(folder, name), disk);
  }
}

/** The names in a list that this user wrote; null where it is none. */
async function readList(path: string, disk: Disk): Promise<string[] | null> {
  const found = await standingAt(path, disk);
  const own = process.getuid?.();
  const isOwn = own === undefined || found?.uid === own || found?.uid === 0;
  if (!found?.isFile() || !isOwn || found.size > MOST_BYTES) return null;
  const text = await disk.readFile(path, 'utf8');
  try {
    const names: unknown = JSON.parse(text);
    const isList = Array.isArray(names) && names.every((name) => typeof name === 'string' && isInside(name));
    return isList ? names : null;
  } catch {
    return null;
  }
}

function isInside(name: string): boolean {
  return !isAbsolute(name) && !name.split(/[\\/]/).includes('..');
}

/**
 * Makes sure that no link stands where a folder of the files belongs: what is written would come to lie elsewhere.
 * @throws KnownError when one does
 */
export async function refuseLinks(folder: string, names: readonly string[], disk: Disk): Promise<void> {
  for (const place of placesOf(names)) {
    for (let path = place; path !== '.'; path = dirname(path)) {
      const found = await standingAt(join(folder, path), disk);
      if (found?.isSymbolicLink()) throw failure(say.linkInTheWay(folder, path));
    }
  }
}

/** Folders in which files lie, relative to theirs. */
export function placesOf(names: readonly string[]): string[] {
  return [...new Set(['.', ...names.map((name) => dirname(name))])];
}

/** What stands at a path, a link as itself; null where nothing does. */
export async function standingAt(path: string, disk: Disk) {
  return disk.lstat(path).catch((error) => {
    if (['ENOENT', 'ENOTDIR'].includes(say.codeOf(error))) return null;
    throw error;
  });
}

/** Takes away all that a run wrote; its list last and only then, so that what is left can be found by the next run. */
async function clearRun(folder: string, list: string, names: readonly string[], run: string, disk: Disk) {
  let isClear = true;
  for (const [k, name] of names.entries()) isClear = (await clear(partAt(folder, name, k, run), disk)) && isClear;
  if (isClear) await clear(list, disk);
}

/** Whether a file is gone; what can't be taken away now is by the next run. */
async function clear(path: string, disk: Disk): Promise<boolean> {
  try {
    await disk.unlink(path);
    return true;
  } catch (error) {
    return say.codeOf(error) === 'ENOENT';
  }
}

async function writeDurably(path: string, text: string, disk: Disk): Promise<void> {
  const file = await disk.open(path, 'wx');
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Brings the names in the folders to the disk, where the system can. */
async function syncFolders(folder: string, names: readonly string[], disk: Disk): Promise<void> {
  for (const place of placesOf(names)) {
    const opened = await disk.open(join(folder, place), 'r').catch(() => null);
    await opened?.sync().catch(() => undefined);
    await opened?.close();
  }
}

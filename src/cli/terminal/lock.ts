/**
 * Who writes into a folder. A run that does stands there as an empty file, whose name tells who it is; it goes on once it
 * sees no other that is alive, and else gives way and tries again. No name is used twice, so anyone may take away that
 * of a run that has ended.
 *
 *   .springsift.<run>.<machine>-<process>-<its start>.lock           writes at this moment
 *   .springsift.<run>.<machine>-<process>-<its start>-<files>.claim  works on what is to be written there
 */

import { createHash, randomBytes } from 'node:crypto';
import { readFileSync, unlinkSync } from 'node:fs';
import * as fs from 'node:fs/promises';
import { hostname } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { failure } from './exit.ts';
import * as say from './messages.ts';

/** What is done to the disk; a test has one that fails. */
export type Disk = Pick<typeof fs, 'lstat' | 'mkdir' | 'open' | 'readdir' | 'readFile' | 'rename' | 'stat' | 'unlink'>;

/** By what means files are written, and by whom. */
export interface Host {
  readonly disk: Disk;
  readonly who: string;
}

const digest = (text: string) => createHash('sha256').update(text).digest('hex').slice(0, 8);
const MACHINE = digest(hostname());

export const HOST: Host = { disk: fs, who: processName(process.pid, startOf(process.pid)) };

export function processName(pid: number, start: string): string {
  return `${MACHINE}-${pid}-${start}`;
}

/** When a process started, in ticks since the machine did; 0 where the system does not tell. */
function startOf(pid: number): string {
  try {
    const [state, ...fields] = readFileSync(`/proc/${pid}/stat`, 'latin1')
      .replace(/^.*\) /s, '')
      .split(' ');
    return state === 'Z' || state === 'X' ? 'ended' : (fields[18] ?? '0');
  } catch {
    return '0';
  }
}

const MARK = /^\.springsift\.[0-9a-f]{12}\.(([0-9a-f]{8})-(\d+)-(\d+))(?:-([0-9a-f]{8}))?\.(lock|claim)$/;
/** What another machine marked is taken for alive for so long, ms: its processes can't be seen. */
const UNSEEN = 86_400_000;

/** Marks of this process that count still. */
const held = new Set<string>();

/** Whether a name in a folder marks a run that has ended. */
export async function isEnded(folder: string, name: string, disk: Disk): Promise<boolean> {
  const [, who, machine, pid, start] = MARK.exec(name) ?? [];
  if (who === undefined) return false;
  if (who === HOST.who) return !held.has(name);
  if (machine !== MACHINE) {
    const found = await disk.lstat(join(folder, name)).catch(() => null);
    return found !== null && Date.now() - found.mtimeMs > UNSEEN;
  }
  try {
    process.kill(Number(pid), 0);
  } catch (error) {
    // Anything else is a process of somebody else.
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return true;
  }
  // The number may have gone to another process meanwhile.
  const now = startOf(Number(pid));
  return now !== '0' && start !== '0' && now !== start;
}

/** Names that mark runs that are alive. */
async function marksIn(folder: string, kind: 'lock' | 'claim', disk: Disk): Promise<string[]> {
  const names = (await disk.readdir(folder)).filter((name) => MARK.exec(name)?.[6] === kind);
  const ended = await Promise.all(names.map((name) => isEnded(folder, name, disk)));
  return names.filter((_, k) => !ended[k]);
}

const pidIn = (mark: string) => MARK.exec(mark)?.[3] ?? '';

/** How long others are waited for, ms. */
const PATIENCE = 30_000;

/** Runs work as the only one that writes into a folder; `run` is a name that nobody else has. */
export async function hold<T>(folder: string, { disk, who }: Host, work: (run: string) => Promise<T>): Promise<T> {
  for (const start = Date.now(); ; await setTimeout(5 + 40 * Math.random())) {
    const run = randomBytes(6).toString('hex');
    const mine = `.springsift.${run}.${who}.lock`;
    await mark(folder, mine, disk);
    try {
      const [other] = (await marksIn(folder, 'lock', disk)).filter((name) => name !== mine);
      if (other === undefined) return await work(run);
      if (Date.now() - start > PATIENCE) throw failure(say.folderBusy(folder, pidIn(other)));
    } finally {
      held.delete(mine);
      await disk.unlink(join(folder, mine)).catch(() => undefined);
    }
  }
}

async function mark(folder: string, name: string, disk: Disk): Promise<void> {
  await (await disk.open(join(folder, name), 'wx')).close();
  held.add(name);
}

const filesKey = (names: readonly string[]) => digest(names.toSorted().join('/'));

/**
 * Makes sure that no other run works on these files of a folder.
 * @throws KnownError when one does
 */
export async function refuseClaimed(folder: string, names: readonly string[], { disk, who }: Host): Promise<void> {
  const others = (await marksIn(folder, 'claim', disk)).filter((name) => {
    const [, owner, , , , key] = MARK.exec(name) ?? [];
    return owner !== who && key === filesKey(names);
  });
  if (others[0] !== undefined) throw failure(say.folderClaimed(folder, pidIn(others[0])));
}

/** Keeps other runs from these files as long as this process lives. */
export async function claim(folder: string, names: readonly string[], run: string, { disk, who }: Host): Promise<void> {
  const name = `.springsift.${run}.${who}-${filesKey(names)}.claim`;
  await mark(folder, name, disk);
  const path = resolve(folder, name);
  process.once('exit', () => {
    try {
      unlinkSync(path);
    } catch {
      // The next run takes it away.
    }
  });
}

/** A disk that fails at a numbered step, or a process that ends there: all but looking is counted. */
import type { FileHandle } from 'node:fs/promises';
import * as fs from 'node:fs/promises';
import { type Disk, HOST, type Host, processName } from '../../src/cli/terminal/lock.ts';

/**
 * What happens at the step: it is not done; nor is any after it that takes room; nor anything after it; or it is the last
 * that is done.
 */
export type Fault = 'fails' | 'finds the disk full' | 'dies before' | 'dies after';

export interface Failing {
  readonly host: Host;
  /** What the steps so far were. */
  readonly steps: readonly string[];
}

export function failingHand(at: number, fault: Fault): Failing {
  const steps: string[] = [];
  let isDead = false;
  const broken = (code: string) => Object.assign(new Error(code), { code });
  const look = <T>(work: () => Promise<T>) => (isDead ? Promise.reject(broken('DEAD')) : work());
  /** `half` is what of the step is done where the process dies before its end. */
  const act = async <T>(
    name: string,
    work: () => Promise<T>,
    half = async (): Promise<unknown> => null,
  ): Promise<T> => {
    if (isDead) throw broken('DEAD');
    const step = steps.push(name);
    if (fault === 'finds the disk full' && step >= at && name !== 'unlink') throw broken('ENOSPC');
    if (step !== at || fault === 'finds the disk full') return work();
    if (fault === 'fails') throw broken('EIO');
    isDead = true;
    if (fault === 'dies before') {
      await half();
      throw broken('DEAD');
    }
    await work();
    throw broken('DEAD');
  };
  const disk: Disk = {
    ...fs,
    lstat: ((...given: Parameters<typeof fs.lstat>) => look(() => fs.lstat(...given))) as typeof fs.lstat,
    stat: ((...given: Parameters<typeof fs.stat>) => look(() => fs.stat(...given))) as typeof fs.stat,
    readdir: ((folder: string) => look(() => fs.readdir(folder))) as typeof fs.readdir,
    readFile: ((...given: Parameters<typeof fs.readFile>) => look(() => fs.readFile(...given))) as typeof fs.readFile,
    mkdir: ((path: string) => act('mkdir', () => fs.mkdir(path))) as typeof fs.mkdir,
    rename: (from, to) => act('rename', () => fs.rename(from, to)),
    unlink: (path) => act('unlink', () => fs.unlink(path)),
    async open(path, flags) {
      const opened: FileHandle[] = [];
      const open = async () => opened.push(await fs.open(path, flags));
      await act('open', open).catch(async (error) => {
        await opened[0]?.close();
        throw error;
      });
      const file = opened[0] as FileHandle;
      const counted: Pick<FileHandle, 'writeFile' | 'sync' | 'close'> = {
        writeFile: (text) =>
          act(
            'write',
            () => file.writeFile(text),
            () => file.writeFile(String(text).slice(0, String(text).length / 2)),
          ),
        // The machine goes on, so nothing has to be on the disk.
        sync: () => act('fsync', async () => undefined),
        close: () => file.close(),
      };
      return counted as FileHandle;
    },
  };
  // A process that there never is, so that what it leaves is of a run that has ended.
  return { host: { disk, who: fault.startsWith('dies') ? processName(999_999_999, '0') : HOST.who }, steps };
}

/** What is no file, or is too large, is refused before any of it is read. */

import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, open, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { formatProblem, readScenario } from '../../../src/input/readScenario.ts';
import { diskFiles, regularBytes } from '../../../src/input/source/disk.ts';
import { FileTooLarge, NotRegular } from '../../../src/input/source/files.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-regular-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** A device, a pipe that nobody writes to, and a socket, where the system has them. */
async function withStrange(work: (paths: readonly (readonly [string, string])[]) => Promise<void>): Promise<void> {
  const [pipe, socket] = [join(folder, 'pipe'), join(folder, 'socket')];
  execFileSync('mkfifo', [pipe]);
  const server = createServer().listen(socket);
  try {
    await work([
      ['/dev/zero', 'a device'],
      [pipe, 'a pipe'],
      [socket, 'a socket'],
    ]);
  } finally {
    server.close();
  }
}

test('a device, a pipe and a socket are refused at once, with what to do', async () => {
  if (!existsSync('/dev/zero')) return;
  await withStrange(async (paths) => {
    for (const [path, kind] of paths) {
      await expect(regularBytes(path, 1000)).rejects.toBeInstanceOf(NotRegular);
      const read = await readScenario(path, diskFiles);
      if (read.ok) throw new Error('read');
      expect(read.problems.map(formatProblem)).toEqual([
        `${path}:1:1: found ${kind}, not a file\n  expected: a scenario file (YAML)\n  advice: name a file on the disk; save there first what a pipe or another program gives`,
      ]);
    }
  });
});

test('a folder, and a catalogue that is none, are told as problems', async () => {
  await expect(regularBytes(folder, 1000)).rejects.toMatchObject({ code: 'EISDIR' });
  const read = await readScenario(folder, diskFiles);
  expect(read.ok ? [] : read.problems.map(({ found }) => found)).toEqual(['a file that cannot be read (EISDIR)']);
});

test('as many bytes as are taken are read, one more is refused', async () => {
  const path = join(folder, 'bytes');
  const bytes = Buffer.from('0123456789'.repeat(300_000));
  await writeFile(path, bytes);
  expect((await regularBytes(path, bytes.length)).equals(bytes)).toBe(true);
  await expect(regularBytes(path, bytes.length - 1)).rejects.toMatchObject({ bytes: bytes.length });
  await writeFile(path, '');
  expect(await regularBytes(path, 10)).toHaveLength(0);
});

test('a large file is refused by its size, one that tells none by what comes', async () => {
  const path = join(folder, 'large');
  const file = await open(path, 'w');
  // Without content it takes no room on the disk.
  await file.truncate(5e10);
  await file.close();
  await expect(regularBytes(path, 1000)).rejects.toMatchObject({ bytes: 5e10 });
  const unsized = '/proc/self/maps';
  if (existsSync(unsized)) await expect(regularBytes(unsized, 1000)).rejects.toBeInstanceOf(FileTooLarge);
});

/** Files are written whole or not at all, and nothing that stands there is lost. */

import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { KnownError } from '../../../src/cli/terminal/exit.ts';
import { prepareFolder, writeFiles } from '../../../src/cli/terminal/files.ts';
import { HOST, isEnded, processName } from '../../../src/cli/terminal/lock.ts';

let root = '';
beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'springsift-files-'));
});
afterAll(() => rm(root, { recursive: true, force: true }));

async function folder(name: string): Promise<string> {
  const path = join(root, name);
  await mkdir(path);
  return path;
}

const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (error: unknown) => (error instanceof KnownError ? error.message : String(error)),
  );

test('a set is written with nothing left beside it', async () => {
  const path = await folder('plain');
  await prepareFolder(path, ['a.txt', 'b.txt'], false);
  await writeFiles(path, { 'a.txt': 'one', 'b.txt': 'two' });
  expect((await readdir(path)).sort()).toEqual(['a.txt', 'b.txt']);
  expect(await readFile(join(path, 'b.txt'), 'utf8')).toBe('two');
});

test('a missing folder is made, with those above it', async () => {
  const path = join(root, 'missing', 'deep');
  await prepareFolder(path, ['a.txt'], false);
  expect(await readdir(path)).toEqual([]);
});

test('a folder that can hold no other is refused, not tried for ever', async () => {
  const virtual = ['/proc/1/fd/x', '/proc/1/fd/x/deep', '/sys/x'];
  for (const path of virtual.filter(() => existsSync('/proc/1/fd'))) {
    expect(await refusal(prepareFolder(path, ['a.txt'], false))).toContain(`Cannot write to ${path}`);
  }
});

test('two runs may make the same folders at once', async () => {
  const path = join(root, 'at', 'the', 'same', 'time');
  await Promise.all(Array.from({ length: 8 }, () => prepareFolder(path, ['a.txt'], false)));
  expect(await readdir(path)).toEqual([]);
});

test('files that stand there are left alone without force', async () => {
  const path = await folder('standing');
  await writeFile(join(path, 'a.txt'), 'mine');
  expect(await refusal(prepareFolder(path, ['a.txt', 'b.txt'], false))).toContain('already holds a.txt');
  await prepareFolder(path, ['a.txt', 'b.txt'], true);
  expect(await readFile(join(path, 'a.txt'), 'utf8')).toBe('mine');
});

test('a path that leads through a file is refused', async () => {
  const path = await folder('blocked');
  await writeFile(join(path, 'file'), '');
  expect(await refusal(prepareFolder(join(path, 'file', 'out'), ['a.txt'], false))).toContain('Cannot write to');
});

test('a folder in the place of a file is refused before anything is replaced, with force too', async () => {
  const path = await folder('folders');
  await writeFile(join(path, 'a.txt'), 'old');
  await mkdir(join(path, 'b.txt'));
  expect(await refusal(prepareFolder(path, ['a.txt', 'b.txt'], true))).toContain(
    'a folder stands where a file belongs',
  );
  expect(await refusal(writeFiles(path, { 'a.txt': 'new', 'b.txt': 'new' }))).toContain('a folder stands');
  expect(await readFile(join(path, 'a.txt'), 'utf8')).toBe('old');
  expect((await readdir(path)).sort()).toEqual(['a.txt', 'b.txt']);
});

test('a link in the output folder is replaced, never followed, and counts as standing even if it leads nowhere', async () => {
  const path = await folder('links');
  const elsewhere = join(root, 'elsewhere.txt');
  await writeFile(elsewhere, 'untouched');
  await symlink(elsewhere, join(path, 'a.txt'));
  await symlink(join(root, 'nowhere'), join(path, 'b.txt'));
  expect(await refusal(prepareFolder(path, ['a.txt', 'b.txt'], false))).toContain('a.txt, b.txt');
  await prepareFolder(path, ['a.txt', 'b.txt'], true);
  await writeFiles(path, { 'a.txt': 'one', 'b.txt': 'two' });
  expect(await readFile(elsewhere, 'utf8')).toBe('untouched');
  expect(await readdir(root)).not.toContain('nowhere');
  expect(await readFile(join(path, 'b.txt'), 'utf8')).toBe('two');
});

// Who writes holds the folder's lock meanwhile, so what lies there is nobody's, however young it is.
test('what killed runs left behind hinders nobody and is taken away by the next', async () => {
  const path = await folder('leftovers');
  const dead = processName(999_999_999, '1');
  const left = ['.report.html.0123456789ab.part', `.springsift.0123456789ab.${dead}.lock`];
  for (const name of [...left, '.mine.part']) await writeFile(join(path, name), '');
  await prepareFolder(path, ['report.html'], false);
  expect(await readdir(path)).toEqual(['.mine.part']);
});

test('what a process of another machine marked counts for a day', async () => {
  const path = await folder('machines');
  const name = '.springsift.0123456789ab.00000000-1-1.lock';
  await writeFile(join(path, name), '');
  expect(await isEnded(path, name, HOST.disk)).toBe(false);
  const longAgo = new Date(Date.now() - 2 * 86_400_000);
  await utimes(join(path, name), longAgo, longAgo);
  expect(await isEnded(path, name, HOST.disk)).toBe(true);
});

test('a process is known by its start too, since its number may go to another', async () => {
  const isOver = (who: string) => isEnded(root, `.springsift.0123456789ab.${who}.lock`, HOST.disk);
  expect(await isOver(processName(process.ppid, '0'))).toBe(false);
  // Where the system tells when a process started.
  expect(await isOver(processName(process.ppid, '1'))).toBe(!HOST.who.endsWith('-0'));
  // Of its own a process knows.
  expect(await isOver(HOST.who)).toBe(true);
});

test('without force a file that came meanwhile is left alone', async () => {
  const path = await folder('meanwhile');
  await prepareFolder(path, ['a.txt', 'b.txt'], false);
  await writeFile(join(path, 'b.txt'), 'mine');
  expect(await refusal(writeFiles(path, { 'a.txt': 'new', 'b.txt': 'new' }, false))).toContain('already holds b.txt');
  expect(await readdir(path)).toEqual(['b.txt']);
  expect(await readFile(join(path, 'b.txt'), 'utf8')).toBe('mine');
});

test('of two runs that prepare for the same files at once one is refused; with force, or for other files, none is', async () => {
  const path = await folder('claimed');
  // Two processes that are alive: this one and the one that started it.
  const other = { ...HOST, who: processName(process.ppid, '0') };
  const said = await Promise.all([
    refusal(prepareFolder(path, ['a.txt', 'b.txt'], false, true)),
    refusal(prepareFolder(path, ['a.txt', 'b.txt'], false, true, other)),
  ]);
  expect(said.filter((text) => text === 'nothing')).toHaveLength(1);
  expect(said.find((text) => text !== 'nothing')).toMatch(/Process \d+ is at work on the same files of .*--force/);
  const third = { ...HOST, who: processName(1, '0') };
  expect(await refusal(prepareFolder(path, ['a.txt', 'b.txt'], true, true, third))).toBe('nothing');
  expect(await refusal(prepareFolder(path, ['c.txt'], false, false, third))).toBe('nothing');
});

test('two writers into one folder leave whole files of one or the other', async () => {
  const path = await folder('race');
  const set = (text: string) => ({ 'a.txt': text.repeat(200_000), 'b.txt': text.repeat(200_000) });
  await Promise.all([writeFiles(path, set('x')), writeFiles(path, set('y'))]);
  for (const name of ['a.txt', 'b.txt'])
    expect(await readFile(join(path, name), 'utf8')).toMatch(/^(?:x{200000}|y{200000})$/);
  expect((await readdir(path)).sort()).toEqual(['a.txt', 'b.txt']);
});

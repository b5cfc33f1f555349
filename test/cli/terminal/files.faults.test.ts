/** A set of files is the old one or the new one, whole, whatever ends the run that writes it, and nothing is left beside it. */

import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { prepareFolder, settleBeside, writeFiles } from '../../../src/cli/terminal/files.ts';
import { type Fault, failingHand } from '../../setup/failingDisk.ts';

const SLOW = { timeout: 240_000 };
let root = '';
beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'springsift-faults-'));
});
afterAll(() => rm(root, { recursive: true, force: true }));

const NAMES = ['report.html', 'results.json', 'inputs/scenario.yaml', 'inputs/lists/springs.csv'];
const setOf = (word: string) => Object.fromEntries(NAMES.map((name) => [name, `${word} ${name}`]));
const [OLD, NEW] = [setOf('old'), setOf('new')];
const KEPT = { 'mine.txt': 'kept' };

let count = 0;
/** A folder with the old set, or with none, and a file of somebody else. */
async function folderWith(files: Readonly<Record<string, string>>): Promise<string> {
  const folder = join(root, String(count++));
  for (const [name, text] of Object.entries({ ...files, ...KEPT })) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), text);
  }
  return folder;
}

/** All files of a folder, hidden ones too. */
async function filesIn(folder: string): Promise<Record<string, string>> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = found.filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name));
  const texts = await Promise.all(paths.map((path) => readFile(path, 'utf8')));
  return Object.fromEntries(paths.map((path, k) => [path.slice(folder.length + 1), texts[k] ?? '']));
}

/** The set of a folder that holds it whole and nothing beside it. */
async function wholeSet(folder: string): Promise<string> {
  const files = await filesIn(folder);
  const is = (set: object) => {
    const wanted = { ...set, ...KEPT };
    return JSON.stringify(Object.entries(files).sort()) === JSON.stringify(Object.entries(wanted).sort());
  };
  return is(OLD) ? 'old' : is(NEW) ? 'new' : is({}) ? 'none' : JSON.stringify(files);
}

/** Prepares and writes as a command does, and what it says: `written`, or a sentence. */
async function run(folder: string, at: number, fault: Fault): Promise<{ said: string; steps: readonly string[] }> {
  const { host, steps } = failingHand(at, fault);
  try {
    await prepareFolder(folder, NAMES, true, false, host);
    await writeFiles(folder, NEW, true, host);
    return { said: 'written', steps };
  } catch (error) {
    return { said: (error as Error).message, steps };
  }
}

/** What a next run does: one writes something else there, one only reads. */
const NEXT = {
  writes: (folder: string) => prepareFolder(folder, ['other.txt'], false),
  reads: (folder: string) => settleBeside(join(folder, 'inputs', 'lists', 'springs.csv')),
} as const;

describe.each(['fails', 'finds the disk full', 'dies before', 'dies after'] as const)('a step that %s', (fault) => {
  test.each(['old', 'none'] as const)('leaves one set whole to the next run, with %s before', SLOW, async (before) => {
    const seen = new Set<string>();
    const hit = new Set<string>();
    for (let at = 1; ; at++) {
      const folder = await folderWith(before === 'old' ? OLD : {});
      const { said, steps } = await run(folder, at, fault);
      const there = await filesIn(folder);
      const message = `step ${at} of ${steps.join(' ')}: ${said}`;
      // What a run that goes on says is true at once.
      const isUnchanged = said.includes('Nothing was changed') && !fault.startsWith('dies');
      for (const name of isUnchanged && before === 'old' ? NAMES : []) expect(there[name], message).toBe(OLD[name]);
      for (const name of said === 'written' ? NAMES : []) expect(there[name], message).toBe(NEW[name]);
      await (at % 2 === (before === 'old' ? 0 : 1) ? NEXT.writes : NEXT.reads)(folder);
      const set = await wholeSet(folder);
      expect([before, 'new'], message).toContain(set);
      if (said === 'written') expect(set).toBe('new');
      if (isUnchanged) expect(set, message).toBe(before);
      seen.add(set);
      if (steps.length < at) break;
      hit.add(steps[at - 1] ?? '');
    }
    expect([...seen].sort()).toEqual([before, 'new'].sort());
    const made = before === 'old' ? [] : ['mkdir'];
    expect([...hit].sort()).toEqual(['fsync', 'open', 'rename', 'unlink', 'write', ...made].sort());
  });
});

test('a run that ends while it finishes another is finished in turn', SLOW, async () => {
  const total = (await run(await folderWith(OLD), 1e9, 'fails')).steps.length;
  let ended = 0;
  for (let first = 1; first <= total; first += 2) {
    for (let second = 1 + (first % 3); second <= 14; second += 3) {
      const folder = await folderWith(OLD);
      await run(folder, first, 'dies after');
      const { host, steps } = failingHand(second, 'dies before');
      await prepareFolder(folder, NAMES, true, false, host).catch(() => ended++);
      if (steps.length < second) break;
      await NEXT.writes(folder);
      expect(['old', 'new'], `${first}, ${second}`).toContain(await wholeSet(folder));
    }
  }
  expect(ended).toBeGreaterThan(total);
});

test('what cannot be put into place is told truly, and put there by the next run', async () => {
  const folder = await folderWith(OLD);
  const { steps } = await run(await folderWith(OLD), 1e9, 'fails');
  const renames = steps.flatMap((step, k) => (step === 'rename' ? [k + 1] : []));
  expect(renames).toHaveLength(1 + NAMES.length);
  const { said } = await run(folder, renames[2] ?? 0, 'fails');
  expect(said).toContain('not all could be put into place: the disk does not work properly');
  expect(said).not.toContain('Nothing was changed');
  const mixed = await filesIn(folder);
  expect([mixed['report.html'], mixed['results.json']]).toEqual([NEW['report.html'], OLD['results.json']]);
  await NEXT.reads(folder);
  expect(await wholeSet(folder)).toBe('new');
});

test('a journal that leads out of the folder, or is none, moves nothing', async () => {
  const folder = await folderWith(OLD);
  const part = '.springsift.0123456789ab.0.part';
  const texts = [
    JSON.stringify(['../victim.txt']),
    JSON.stringify([join(root, 'victim.txt')]),
    JSON.stringify({ 0: 'mine.txt' }),
    '{',
  ];
  for (const text of texts) {
    await writeFile(join(folder, part), 'evil');
    await writeFile(join(root, part), 'evil');
    await writeFile(join(folder, '.springsift.0123456789ab.journal'), text);
    await NEXT.writes(folder);
    expect(await readdir(root), text).not.toContain('victim.txt');
  }
  await rm(join(folder, part));
  await rm(join(root, part));
  expect(await wholeSet(folder)).toBe('old');
});

test('a journal is not followed through a link that stands where a folder was', async () => {
  const folder = await folderWith({});
  await mkdir(join(root, 'elsewhere'));
  await symlink(join(root, 'elsewhere'), join(folder, 'inputs'));
  await writeFile(join(folder, 'inputs', '.springsift.0123456789ab.0.part'), 'evil');
  await writeFile(join(folder, '.springsift.0123456789ab.journal'), JSON.stringify(['inputs/victim.txt']));
  await expect(NEXT.writes(folder)).rejects.toThrow(/a link stands where a folder belongs: inputs/);
  expect(await readdir(join(root, 'elsewhere'))).not.toContain('victim.txt');
});

test('a link in the place of a folder for the files is refused, with force too, and nothing is written through it', async () => {
  const folder = await folderWith({});
  const elsewhere = join(root, 'linked');
  await mkdir(elsewhere);
  await symlink(elsewhere, join(folder, 'inputs'));
  await expect(prepareFolder(folder, NAMES, true)).rejects.toThrow(/a link stands.*: inputs\./);
  await expect(writeFiles(folder, NEW)).rejects.toThrow(/a link stands.*What it leads to is left alone/);
  expect(await readdir(elsewhere)).toEqual([]);
});

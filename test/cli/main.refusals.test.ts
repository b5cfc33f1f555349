/** What the command line refuses: a short reason, the right exit code, no stack, and nothing written. */

import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { springsift } from '../setup/run.ts';

const SLOW = { timeout: 300_000 };
const scenario = (name: string) => fileURLToPath(new URL(`../../scenarios/${name}/scenario.yaml`, import.meta.url));
const KIT = scenario('kit-two-seater');
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-refusals-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function refused(code: number, ...args: string[]): Promise<string> {
  const ran = await springsift(args, { cwd: folder });
  expect(ran, args.join(' ')).toMatchObject({ code, stdout: '' });
  expect(ran.stderr).not.toMatch(/^ {4}at |unexpected error/m);
  return ran.stderr;
}

test('options with values that mean nothing', SLOW, async () => {
  expect(await refused(2, 'sweep', KIT, '--workers', '0')).toContain('a whole number from 1 to 256');
  expect(await refused(2, 'sweep', KIT, '--workers', 'two')).toContain("not 'two'");
  expect(await refused(2, 'sweep', KIT, '--limit', ' ')).toContain('--limit takes a number');
  expect(await refused(2, 'sweep', KIT, '--limit', '0.5')).toContain('--limit takes a number');
  expect(await refused(2, 'sweep', KIT, '--limit', '10')).toContain('Nothing was swept');
  expect(await refused(2, 'sweep', KIT, '--rank-by', 'luck')).toContain('luck');
  for (const shard of ['3', '0/2', '3/2', '1/0']) {
    expect(await refused(2, 'sweep', KIT, '--shard', shard)).toContain('--shard takes a part and a count');
  }
  expect(await refused(2, 'sweep', KIT, KIT, '--shard', '1/2')).toContain('one scenario at a time');
  expect(await refused(2, 'sweep', KIT, '--shard', '1/2', '--keep-partial')).toContain('goes with neither');
});

test('commands that are none, too few arguments, files that are not there', SLOW, async () => {
  expect(await refused(2, 'swep')).toContain("unknown command 'swep'");
  expect(await refused(2, 'explain', KIT)).toContain("missing required argument 'id'");
  expect(await refused(2, 'check', join(folder, 'nowhere.yaml'))).toContain('no such file');
  expect(await refused(2, 'explain', KIT, 'no-id')).toContain('is not an id');
  expect(await refused(2, 'check')).toContain('Name a scenario to check');
  expect(await refused(2, 'fields', 'axles.front.wings')).toContain("No field 'axles.front.wings'");
  const again = join(folder, 'again', 'scenario.yaml');
  expect(await refused(2, 'sweep', KIT, again, '--out', 'both')).toContain('no such file');
});

test('two scenarios of one name would write to one folder', SLOW, async () => {
  const twin = join(folder, 'twin', 'kit-two-seater');
  await mkdir(twin, { recursive: true });
  await writeFile(join(twin, 'scenario.yaml'), await readFile(KIT));
  expect(await refused(2, 'sweep', KIT, join(twin, 'scenario.yaml'))).toContain('would write to');
});

test('parts that are missing, none, or of another cut', SLOW, async () => {
  for (const shard of ['1/2', '1/3']) {
    const ran = await springsift(['sweep', KIT, '--shard', shard, '--out', folder, '--quiet']);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
  }
  const half = join(folder, 'part-1-of-2.json');
  const merge = (...parts: string[]) => refused(2, 'merge', KIT, ...parts, '--out', 'merged');
  expect(await merge(half)).toContain('Missing: part 2');
  expect(await merge(half, half)).toContain('given twice');
  expect(await merge(half, join(folder, 'part-1-of-3.json'))).toContain('another number of parts');
  expect(await merge(half, join(folder, 'part-2-of-2.json'))).toContain('cannot be read');
  expect(await merge(half, KIT)).toContain('is no part of a sweep');
  expect(await refused(2, 'merge', scenario('loaded-estate'), half)).toContain('belongs to another scenario');
});

test('reports that are none', SLOW, async () => {
  const other = join(folder, 'other.html');
  await writeFile(other, '<!doctype html><title>a page</title>');
  expect(await refused(2, 'reopen', other)).toContain('a page without a result');
  await writeFile(other, Uint8Array.of(0xff, 0xfe, 0x00, 0xc3, 0x28));
  expect(await refused(2, 'reopen', other)).toContain('not UTF-8');
  expect(await refused(2, 'reopen', folder)).toContain('cannot be read (EISDIR)');
  expect(await refused(2, 'reopen', join(folder, 'nowhere.html'))).toContain('no such file');
});

test('nothing works in any setup: the files are written, the exit code says so', SLOW, async () => {
  const text = await readFile(KIT, 'utf8');
  const path = join(folder, 'hopeless.yaml');
  await writeFile(
    path,
    text.replaceAll(/frequency: \{[^}]*\}/g, 'frequency: { from: 9 Hz, to: 9.5 Hz, wanted: 9.2 Hz }'),
  );
  const ran = await springsift(['sweep', path, '--out', join(folder, 'hopeless'), '--quiet']);
  expect(ran.code).toBe(3);
  expect(ran.stdout).toContain('report.html');
});

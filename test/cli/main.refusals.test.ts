/** What the command line refuses: a short reason, the right exit code, no stack, and nothing written. */

import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Part, partIn, partText } from '../../src/sweep/shard.ts';
import { largeScenario } from '../setup/largeScenario.ts';
import { ranHere, springsift } from '../setup/run.ts';
import { smallScenario } from '../setup/smallScenario.ts';

const SLOW = { timeout: 300_000 };
const scenario = (name: string) => fileURLToPath(new URL(`../../scenarios/${name}/scenario.yaml`, import.meta.url));
const KIT = scenario('kit-two-seater');
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-refusals-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** A scenario with so many trims that no machine sweeps it. */
async function tooLarge(): Promise<string> {
  const path = await largeScenario(join(folder, 'large'));
  const text = await readFile(path, 'utf8');
  await writeFile(path, text.replaceAll(/(trim: [^}]*step: )0\.1 mm/g, '$10.01 mm'));
  return path;
}

/** In this thread: what is refused ends no process by itself. */
async function refused(code: number, ...args: string[]): Promise<string> {
  return isRefusal(code, args, await ranHere(args));
}

function isRefusal(code: number, args: readonly string[], ran: { readonly stderr: string }): string {
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
  expect(await refused(2, 'measure', KIT, '--limit', '10')).toContain('Nothing was swept');
  expect(await refused(2, 'audit', KIT, '--blank', 'road', '--limit', '10')).toContain('Nothing was swept');
  expect(await refused(2, 'measure', await tooLarge())).toMatch(/holds [\d,]+ combinations.*\n.*\n.*--limit 1e1\d/);
  expect(await refused(2, 'sweep', KIT, '--rank-by', 'luck')).toContain('luck');
  for (const shard of ['3', '0/2', '3/2', '1/0']) {
    expect(await refused(2, 'sweep', KIT, '--shard', shard)).toContain('--shard takes a part and a count');
  }
  expect(await refused(2, 'sweep', KIT, '--shard', '1/100001')).toContain('at most 100,000 parts');
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
  expect(await refused(2, 'sweep', KIT, again, '--out', join(folder, 'both'))).toContain('no such file');
});

test('two scenarios of one name would write to one folder', SLOW, async () => {
  const twin = join(folder, 'twin', 'kit-two-seater');
  await mkdir(twin, { recursive: true });
  await writeFile(join(twin, 'scenario.yaml'), await readFile(KIT));
  expect(await refused(2, 'sweep', KIT, join(twin, 'scenario.yaml'))).toContain('would write to');
});

test('parts that are missing, none, or of another cut', SLOW, async () => {
  const small = await smallScenario(join(folder, 'small'));
  for (const shard of ['1/2', '1/3']) {
    const ran = await springsift(['sweep', small, '--shard', shard, '--out', folder, '--quiet']);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
  }
  const half = join(folder, 'part-1-of-2.json');
  const merge = (...parts: string[]) => refused(2, 'merge', small, ...parts, '--out', join(folder, 'merged'));
  expect(await merge(half)).toContain('Missing: part 2');
  expect(await merge(half, half)).toContain('given twice');
  expect(await merge(half, join(folder, 'part-1-of-3.json'))).toContain('another number of parts');
  expect(await merge(half, join(folder, 'part-2-of-2.json'))).toContain('cannot be read');
  expect(await merge(half, small)).toContain('is no part of a sweep');
  const part = partIn(await readFile(half, 'utf8')) as Part;
  const [range, ...others] = part.ranges as [Part['ranges'][number]];
  await writeFile(half, partText({ ...part, ranges: [{ ...range, judged: range.judged + 1 }, ...others] }));
  await springsift(['sweep', small, '--shard', '2/2', '--out', folder, '--quiet']);
  const said = await merge(half, join(folder, 'part-2-of-2.json'));
  expect(said).toContain('part-1-of-2.json: found a part that is wrong at ranges[0].judged');
  expect(await refused(2, 'merge', scenario('loaded-estate'), half)).toContain('belongs to another scenario');
});

test(
  'names that would move the cursor, turn a line around or begin one of their own are shown, not sent',
  SLOW,
  async () => {
    const name = 'a\u001b[31m\u202eb\u009b2J\n.yaml';
    const shown = 'a\\u{1b}[31m\\u{202e}b\\u{9b}2J\\u{a}.yaml';
    const out = join(folder, name);
    const args = ['check', name];
    expect(isRefusal(2, args, await springsift(args, { cwd: folder }))).toBe(
      `${shown}:1:1: found no such file\n  expected: a scenario file (YAML)\n  advice: check the path and its spelling, capitals included\n1 problem. Nothing was swept.\n`,
    );
    expect(await refused(2, 'reopen', name)).toContain(`${shown}: found no such file`);
    expect(await refused(2, 'merge', KIT, name)).toContain(`${shown} cannot be read`);
    expect(await refused(2, name.trim())).toContain("unknown command 'a\\u{1b}[31m\\u{202e}b\\u{9b}2J");
    const ran = await springsift(['new', out]);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toContain(shown);
    expect(await refused(1, 'new', out)).toContain(`${shown} is not empty`);
    for (const sign of ['\u001b', '\u009b', '\u202e']) expect(ran.stdout).not.toContain(sign);
  },
);

test('reports that are none', SLOW, async () => {
  const other = join(folder, 'other.html');
  await writeFile(other, '<!doctype html><title>a page</title>');
  expect(await refused(2, 'reopen', other)).toContain('a page without a result');
  await writeFile(other, Uint8Array.of(0xff, 0xfe, 0x00, 0xc3, 0x28));
  expect(await refused(2, 'reopen', other)).toContain('not UTF-8');
  expect(await refused(2, 'reopen', folder)).toContain('cannot be read (EISDIR)');
  expect(await refused(2, 'reopen', join(folder, 'nowhere.html'))).toContain('no such file');
});

test('inputs that are no files, in every place where one is named', SLOW, async () => {
  if (!existsSync('/dev/zero')) return;
  expect(await refused(2, 'reopen', '/dev/zero')).toMatch(/found a device, not a file\n.*\n {2}advice: check the path/);
  expect(await refused(2, 'merge', KIT, '/dev/zero')).toContain('cannot be read: a device, not a file. merge takes');
  expect(await refused(2, 'audit', KIT, '/dev/zero')).toContain('found a device, not a file');
  const linked = join(folder, 'linked');
  await mkdir(linked);
  await writeFile(join(linked, 'scenario.yaml'), (await readFile(scenario('hill-hatch'))).toString());
  await symlink('/dev/zero', join(linked, 'springs.csv'));
  const said = await refused(2, 'check', join(linked, 'scenario.yaml'), '--allow-outside');
  expect(said).toContain('found a device, not a file\n  expected: a CSV file of springs');
});

test(
  'where nothing works page, record and terminal tell what comes nearest and what would work, whatever the threads',
  SLOW,
  async () => {
    const path = join(folder, 'stiff.yaml');
    const stiff = (await readFile(await smallScenario(join(folder, 'small')), 'utf8')).replace(
      /rate: \{ from: [^}]*\}/,
      'rate: { from: 800 lbf/in, to: 900 lbf/in, step: 100 lbf/in }',
    );
    await writeFile(path, stiff);
    const swept = async (threads: string) => {
      const out = join(folder, `stiff-${threads}`);
      const { code, stdout } = await springsift(['sweep', path, '--out', out, '--quiet', '--workers', threads]);
      expect(code).toBe(3);
      const [page, record] = await Promise.all(
        ['report.html', 'results.json'].map((name) => readFile(join(out, name), 'utf8')),
      );
      return { stdout, page: page as string, record: record as string };
    };
    const [one, two] = [await swept('1'), await swept('2')];
    expect([two.page, two.record]).toEqual([one.page, one.record]);
    expect(one.stdout).toMatch(/ {2}nearest {3}\S+: front .*\n(?:.*\n)* {2}helps {5}/);
    const { setups } = JSON.parse(one.record) as {
      setups: { nothing: { axles: { front: { would_work: { cells: object[] } } } } }[];
    };
    expect(setups[0]?.nothing.axles.front.would_work.cells.length).toBeGreaterThan(5);
    for (const id of ['nothing', 'would-work']) expect(one.page).toContain(`<section id="${id}" aria-labelledby`);
  },
);

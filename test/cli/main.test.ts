import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHECK, CHECKS } from '../../src/model/corner/checks.ts';
import { largeScenario } from '../setup/largeScenario.ts';
import { springsift } from '../setup/run.ts';
import { smallScenario } from '../setup/smallScenario.ts';

const scenario = (name: string) => fileURLToPath(new URL(`../../scenarios/${name}/scenario.yaml`, import.meta.url));
let folder = '';
let starter = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-cli-'));
  starter = join(folder, 'mine');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const SLOW = { timeout: 300_000 };

describe('from a new scenario to a report', () => {
  test('new writes a commented scenario with its catalogue, once', SLOW, async () => {
    const first = await springsift(['new', starter, '--example']);
    expect(first).toMatchObject({ code: 0, stderr: '' });
    expect(await readdir(starter)).toEqual(['scenario.yaml', 'springs.csv']);
    expect(await readFile(join(starter, 'scenario.yaml'), 'utf8')).toMatch(
      /^# yaml-language-server: \$schema=file:\S+\n# /,
    );
    const again = await springsift(['new', starter, '--example']);
    expect(again.code).toBe(1);
    expect(again.stderr).toContain('not empty');
  });

  test('check counts the combinations', SLOW, async () => {
    const ran = await springsift(['check', join(starter, 'scenario.yaml')]);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toMatch(/front {2}[\d\s,]+ combinations/);
  });

  test('check says what a sweep asks of every combination, in the order of counting', SLOW, async () => {
    const ran = await springsift(['check', '--explain-checks']);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    const places = CHECKS.map((name) => ran.stdout.indexOf(CHECK[name].label));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(places[0]).toBe(0);
  });

  test('check says so when a sweep would refuse that many, and what to narrow', SLOW, async () => {
    const huge = join(folder, 'huge.yaml');
    const text = await readFile(await largeScenario(join(folder, 'huge')), 'utf8');
    await writeFile(huge, text.replaceAll('step: 0.1 mm', 'step: 0.01 mm').replaceAll('- catalogue', '# '));
    const ran = await springsift(['check', huge]);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toMatch(/front {2}[\d\s,]+ combinations/);
    expect(ran.stdout).toMatch(/are taken on\. Nothing was swept\.\nNarrow the largest lists/);
  });

  test('sweep writes its files whole, refuses to replace them, and explain works out the winner', SLOW, async () => {
    const out = join(folder, 'out');
    // A line of progress would be no fault on a slow machine.
    const ran = await springsift(['sweep', join(starter, 'scenario.yaml'), '--out', out, '--quiet']);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    const files = await readdir(out);
    expect(files).toEqual(expect.arrayContaining(['report.html', 'results.json', 'shortlist.csv']));
    expect(files.filter((name) => name.endsWith('.part'))).toEqual([]);
    const again = await springsift(['sweep', join(starter, 'scenario.yaml'), '--out', out]);
    expect(again.code).toBe(1);
    expect(again.stderr).toContain('--force');
    const id = /(?:best|plan)\s+(low-F[0-9A-Z]+-R[0-9A-Z]+-[0-9A-Z]{2})/.exec(ran.stdout)?.[1] ?? '';
    const explained = await springsift(['explain', join(starter, 'scenario.yaml'), id]);
    expect(explained).toMatchObject({ code: 0, stderr: '' });
    expect(explained.stdout).toContain('W = m_s * g_n');
    const mistyped = await springsift([
      'explain',
      join(starter, 'scenario.yaml'),
      id.replace(/.$/, (c) => (c === '0' ? '1' : '0')),
    ]);
    expect(mistyped.code).toBe(2);
    expect(mistyped.stderr).toContain('does not belong to this scenario');
  });
});

test('parts of a shared-out sweep join to the bytes of a single run', SLOW, async () => {
  const single = join(folder, 'single');
  const parts = join(folder, 'parts');
  const merged = join(folder, 'merged');
  const path = await smallScenario(join(folder, 'small'));
  expect((await springsift(['sweep', path, '--out', single])).code).toBe(0);
  for (const share of ['1/3', '2/3', '3/3']) {
    expect(await springsift(['sweep', path, '--shard', share, '--out', parts, '--quiet'])).toMatchObject({
      code: 0,
      stderr: '',
    });
  }
  const files = (await readdir(parts)).map((name) => join(parts, name));
  const short = await springsift(['merge', path, files[0] as string, files[2] as string, '--out', merged]);
  expect(short).toMatchObject({ code: 2 });
  expect(short.stderr).toContain('Missing: part 2');
  expect((await springsift(['merge', path, ...files, '--out', merged])).code).toBe(0);
  for (const name of await readdir(single)) {
    expect(await readFile(join(merged, name), 'utf8'), name).toBe(await readFile(join(single, name), 'utf8'));
  }
  const other = await springsift(['merge', scenario('hill-hatch'), ...files, '--out', merged, '--force']);
  expect(other.stderr).toContain('belongs to another scenario');
});

test('nothing workable ends with 3, and the report is written all the same', SLOW, async () => {
  const text = await readFile(await smallScenario(join(folder, 'small')), 'utf8');
  const path = join(folder, 'hopeless.yaml');
  await writeFile(
    path,
    text.replaceAll(/bump_travel: \{ least: 1\.6 in, good: 2\.6 in/g, 'bump_travel: { least: 4.6 in, good: 5 in'),
  );
  const out = join(folder, 'hopeless');
  const ran = await springsift(['sweep', path, '--out', out, '--quiet']);
  expect(ran).toMatchObject({ code: 3, stderr: '' });
  expect(await readdir(out)).toContain('report.html');
});

test('a user’s mistake is told short, with exit code 2 and no stack', SLOW, async () => {
  const cases = [
    ['sweep', join(folder, 'absent.yaml')],
    ['sweep', scenario('hill-hatch'), '--shard', '4/3'],
    ['sweep', scenario('hill-hatch'), '--workers', 'many'],
    ['explain', scenario('hill-hatch'), 'nonsense'],
    ['fly'],
  ];
  for (const args of cases) {
    const ran = await springsift(args, { cwd: folder });
    expect(ran.code, args.join(' ')).toBe(2);
    expect(ran.stderr, args.join(' ')).not.toMatch(/\n\s+at /);
    expect(ran.stderr.length).toBeGreaterThan(10);
  }
});

test('help and version end well', SLOW, async () => {
  const help = await springsift(['--help']);
  expect(help.code).toBe(0);
  expect(help.stdout).toContain('licensed workshop');
  expect((await springsift(['--version'])).stdout.trim()).toMatch(/^\d+\.\d+\.\d+$/);
});

test('the version is told by itself, and where it cannot be printed nothing is', SLOW, async () => {
  // Whatever is printed by the command line goes by the stream of stdout.
  const preload = join(folder, 'no-stream.mjs');
  await writeFile(preload, 'const { stdout } = process; stdout.write = () => { throw new Error("a stream"); };');
  const told = await springsift(['-V'], { preload });
  expect(told).toMatchObject({ code: 0, stderr: '' });
  expect(told.stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  expect((await springsift(['--help'], { preload })).stderr).toContain('a stream');
  expect(await springsift(['--version'], { deaf: true })).toMatchObject({ code: 0, stderr: '' });
});

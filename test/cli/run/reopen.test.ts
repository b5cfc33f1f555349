import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { toolVersion } from '../../../src/cli/terminal/version.ts';
import { embeddedIn, embeddedJson } from '../../../src/report/embed.ts';
import type { Combination, Result } from '../../../src/result/result.ts';
import { ranHere, springsift } from '../../setup/run.ts';

const SLOW = { timeout: 300_000 };
const SOURCE = fileURLToPath(new URL('../../../scenarios/loaded-estate/', import.meta.url));
let folder = '';
let report = '';
let swept = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-reopen-'));
  // A catalogue in a folder of its own, with line ends and a byte order mark that must come back as they were.
  const mine = join(folder, 'mine');
  await mkdir(join(mine, 'lists'), { recursive: true });
  // Every third spring: why the others never work takes longest, and is no matter here.
  const [header, ...springs] = (await readFile(join(SOURCE, 'springs.csv'), 'utf8')).split('\n');
  await writeFile(join(mine, 'lists', 'springs.csv'), [header, ...springs.filter((_, k) => k % 3 === 0)].join('\n'));
  const text = `${(await readFile(join(SOURCE, 'scenario.yaml'), 'utf8')).trimEnd()}\nranking: { keep: 3 }\n`;
  const scenario = `\uFEFF${text.replaceAll('catalogue: springs.csv', 'catalogue: lists/springs.csv').replaceAll('\n', '\r\n')}`;
  await writeFile(join(mine, 'scenario.yaml'), scenario);
  swept = join(folder, 'swept');
  const ran = await springsift(['sweep', join(mine, 'scenario.yaml'), '--out', swept, '--rank-by', 'worst', '--quiet']);
  expect(ran).toMatchObject({ code: 0, stderr: '' });
  report = join(swept, 'report.html');
}, 300_000);
afterAll(() => rm(folder, { recursive: true, force: true }));

/** A copy of the report whose result was changed before it was written. */
async function forged(name: string, change: (result: Result) => Result): Promise<string> {
  const page = await readFile(report, 'utf8');
  const found = embeddedIn(page);
  if (!found.ok) throw new Error(found.fault.kind);
  const start = page.indexOf('{"sha256"');
  const text =
    page.slice(0, start) + (await embeddedJson(change(found.result))) + page.slice(page.indexOf('</script>', start));
  const path = join(folder, name);
  await writeFile(path, text);
  return path;
}

test('a report says what it carries', SLOW, async () => {
  const ran = await springsift(['reopen', report]);
  expect(ran).toMatchObject({ code: 0, stderr: '' });
  expect(ran.stdout).toContain(`written by springsift ${toolVersion()}, result version 2`);
  expect(ran.stdout).toMatch(/input lists\/springs\.csv: [\d,]+ bytes, sha256 [0-9a-f]{64}/);
  expect(ran.stdout).toMatch(/best\s+daily-F/);
});

test(
  'everything a sweep wrote comes out again byte for byte, the inputs too, and nothing is replaced unasked',
  SLOW,
  async () => {
    const out = join(folder, 'again');
    const take = ['page', 'csv', 'json', 'markdown', 'inputs'];
    const ran = await springsift(['reopen', report, '--out', out, '--take', ...take]);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    for (const name of await readdir(swept)) {
      expect((await readFile(join(out, name))).equals(await readFile(join(swept, name))), name).toBe(true);
    }
    for (const name of ['scenario.yaml', 'lists/springs.csv']) {
      const before = await readFile(join(folder, 'mine', name));
      expect((await readFile(join(out, 'inputs', name))).equals(before), name).toBe(true);
    }
    const twice = await ranHere(['reopen', report, '--out', out, '--take', 'inputs']);
    expect(twice.code).toBe(1);
    expect(twice.stderr).toContain('inputs/scenario.yaml');
    const check = await springsift(['check', join(out, 'inputs', 'scenario.yaml')]);
    expect(check.code).toBe(0);
  },
);

/** The best corner with its perch somewhere else. */
function withOtherPerch(one: Combination, k: number): Combination {
  const { front } = one.axles;
  return k > 0
    ? one
    : { ...one, axles: { ...one.axles, front: { ...front, values: { ...front.values, perch_mm: 1 } } } };
}

describe('swept again', () => {
  test('the same inputs give the same result', SLOW, async () => {
    const ran = await springsift(['reopen', report, '--again', '--quiet']);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toContain('The same: the inputs give the result of the report, to the last digit.');
    const most = await ranHere(['reopen', report, '--again', '--limit', '10']);
    expect(most).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('at most 10 are taken on. Nothing was swept'),
    });
  });

  test('what differs is named, another version of the tool too', SLOW, async () => {
    const path = await forged('other.html', (result) => ({
      ...result,
      tool: { ...result.tool, version: '0.0.1' },
      setups: result.setups.map((setup) => ({ ...setup, shortlist: setup.shortlist.map(withOtherPerch) })),
    }));
    const ran = await springsift(['reopen', path, '--again', '--quiet']);
    expect(ran).toMatchObject({ code: 4, stderr: '' });
    expect(ran.stdout).toContain(`The report was written by springsift 0.0.1, this is ${toolVersion()}.`);
    expect(ran.stdout).toMatch(
      /Different: 1 value\.\n {2}setups\[daily\]\.shortlist\[\S+\]\.axles\.front\.values\.perch_mm: 1 in the report, [\d.]+ now/,
    );
  });

  test('a stopped sweep is no result to compare with', SLOW, async () => {
    const path = await forged('stopped.html', (result) => ({ ...result, incomplete: { judged: 5, of: 10 } }));
    const ran = await ranHere(['reopen', path, '--again', '--quiet']);
    expect(ran.code).toBe(2);
    expect(ran.stderr).toContain('stopped after 5 of 10');
  });
});

test('an input whose path leads out of the folder is refused and nothing is written', SLOW, async () => {
  const out = join(folder, 'outside');
  const path = await forged('evil.html', (result) => ({
    ...result,
    inputs: result.inputs.map((input, k) => (k === 1 ? { ...input, path: '../evil.yaml' } : input)),
  }));
  const ran = await ranHere(['reopen', path, '--out', out, '--take', 'inputs']);
  expect(ran.code).toBe(2);
  expect(ran.stderr).toContain("'../evil.yaml' would not lie inside the folder");
  expect(await readdir(out).catch(() => [])).toEqual([]);
});

test('what is no report, or a damaged one, is told short with its place', SLOW, async () => {
  const page = await readFile(report, 'utf8');
  const edited = await forged('edited.html', ({ inputs, ...result }) => ({
    ...result,
    inputs: inputs.map((input) => ({ ...input, text: input.text.replace('Loaded estate\r', 'Laden estate\r') })),
  }));
  const files: Readonly<Record<string, readonly [string, RegExp]>> = {
    'other.htm': ['<!doctype html><p>hello', /other\.htm:1:1: found a page without a result/],
    'cut.html': [
      page.slice(0, page.indexOf('{"sha256"') + 5000),
      /cut\.html:\d+:\d+: found the end of the file within the result/,
    ],
    'broken.html': [
      page.replace('"brotli":"', '"brotli":'),
      /broken\.html:\d+:\d+: found a result that stops being JSON/,
    ],
    'edited.html': [await readFile(edited, 'utf8'), /an input scenario\.yaml whose text does not match/],
  };
  for (const [name, [text, message]] of Object.entries(files)) {
    await writeFile(join(folder, name), text);
    const ran = await ranHere(['reopen', join(folder, name)]);
    expect(ran.code, name).toBe(2);
    expect(ran.stderr, name).toMatch(message);
    expect(ran.stderr, name).not.toMatch(/\n\s+at /);
  }
  const newer = await forged('newer.html', (result) => ({ ...result, version: 99 }) as unknown as Result);
  expect((await ranHere(['compare', report, newer])).stderr).toContain('found version 99 of the result');
  expect((await ranHere(['reopen', join(folder, 'absent.html')])).stderr).toContain('no such file');
  expect((await ranHere(['reopen', report, '--take', 'csv'])).stderr).toContain('--out DIR');
});

test('a page of version 1 is shown, drawn again, swept again, and compared with one of today', SLOW, async () => {
  const old = join(folder, 'version1.html');
  const packed = new URL('../../report/version1/loaded-estate.html.gz', import.meta.url);
  await writeFile(old, gunzipSync(await readFile(packed)));
  const out = join(folder, 'from-version1');
  const ran = await springsift(['reopen', old, '--out', out]);
  expect(ran).toMatchObject({ code: 0, stderr: '' });
  expect(ran.stdout).toContain('result version 1, read as version 2: what version 1 did not tell is left out');
  expect((await springsift(['reopen', join(out, 'report.html')])).stdout).toContain(
    'result version 1, read as version 2',
  );
  expect((await springsift(['reopen', old])).stdout).toMatch(/best\s+daily-F/);
  const again = await springsift(['reopen', old, '--again', '--quiet']);
  expect(again.stderr).toBe('');
  expect(again.stdout).toMatch(again.code === 0 ? /The same: the inputs give/ : /Different: [\d,]+ values?\./);
  expect([0, 4]).toContain(again.code);
  const compared = join(folder, 'compared-version1');
  expect(await springsift(['compare', old, report, '--out', compared])).toMatchObject({ code: 0, stderr: '' });
  expect(await readFile(join(compared, 'changes.html'), 'utf8')).toContain('Loaded estate');
});

test('compare writes one page of what changed, once', SLOW, async () => {
  const out = join(folder, 'compared');
  const other = await forged('later.html', (result) => ({ ...result, tool: { ...result.tool, version: '9.9.9' } }));
  expect(await springsift(['compare', report, other, '--out', out])).toMatchObject({ code: 0, stderr: '' });
  const html = await readFile(join(out, 'changes.html'), 'utf8');
  expect(html).toContain('All inputs are the same, to the last byte.');
  expect(html).toContain('Two versions of the tool.');
  expect((await ranHere(['compare', report, other, '--out', out])).code).toBe(1);
});

/** What somebody gets who installs the package: packed, installed into an empty folder, run from there on any Node. */
import { execFile } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { nodeOf } from '../setup/nodes.ts';

const run = promisify(execFile);
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const COPIED = [
  'src',
  'scenarios',
  '.ci',
  'README.md',
  'DEVELOPERS.md',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
];

let root = '';
let home = '';
let packed: readonly string[] = [];

// Built in a copy: the dist of the sources may be in use.
beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'springsift-packed-'));
  const copy = join(root, 'copy');
  await mkdir(copy);
  for (const name of COPIED) await cp(join(ROOT, name), join(copy, name), { recursive: true });
  await run('ln', ['-s', join(ROOT, 'node_modules'), join(copy, 'node_modules')]);
  await run(process.execPath, [join('.ci', 'build.mjs')], { cwd: copy });
  const { stdout } = await run('npm', ['pack', '--json', '--pack-destination', root], { cwd: copy });
  const [tarball] = JSON.parse(stdout) as { filename: string; files: { path: string }[] }[];
  packed = tarball?.files.map(({ path }) => path) ?? [];
  home = join(root, 'home');
  await mkdir(home);
  await writeFile(join(home, 'package.json'), '{ "private": true }');
  const flags = ['--prefer-offline', '--no-audit', '--no-fund', '--omit=dev'];
  await run('npm', ['install', ...flags, join(root, tarball?.filename ?? '')], { cwd: home });
}, 600_000);
afterAll(() => rm(root, { recursive: true, force: true }));

async function installed(args: readonly string[]) {
  return run(join(home, 'node_modules', '.bin', 'springsift'), args, { cwd: home, maxBuffer: 1e8 });
}

test('the package holds what runs, templates and styles included, and no source and no test', () => {
  for (const path of [
    'dist/cli/main.js',
    'dist/report/frame/templates/page.hbs',
    'dist/report/sections/answer.css',
    'dist/scenario.schema.json',
    'dist/results.schema.json',
    'dist/licences.txt',
  ]) {
    expect(packed).toContain(path);
  }
  expect(packed).toContain('scenarios/hill-hatch/springs.csv');
  const wanted = /^(?:dist|scenarios)\/|^(?:README\.md|DEVELOPERS\.md|package\.json)$/;
  expect(packed.filter((path) => !wanted.test(path) || (path.endsWith('.ts') && !path.endsWith('.d.ts')))).toEqual([]);
});

test('of every package that is bundled it passes the licence on; the others are installed', async () => {
  const folder = join(home, 'node_modules', 'springsift');
  const licences = await readFile(join(folder, 'dist', 'licences.txt'), 'utf8');
  const { dependencies } = JSON.parse(await readFile(join(folder, 'package.json'), 'utf8'));
  const isInside = ([name, version]: [string, unknown]) => licences.includes(`${name} ${version}\n`);
  const others = Object.entries(dependencies).filter((one) => !isInside(one));
  expect(others.map(([name]) => name)).toEqual(['piscina', 'vega', 'vega-lite']);
  for (const [name] of others) expect(await readdir(join(home, 'node_modules', name))).toContain('package.json');
});

test('installed, it makes a scenario, checks it, sweeps it and opens the report again', {
  timeout: 240_000,
}, async () => {
  expect((await installed(['--version'])).stdout.trim()).toMatch(/^\d+\.\d+\.\d+$/);
  await installed(['new', 'mine', '--example']);
  const [first = ''] = (await readFile(join(home, 'mine', 'scenario.yaml'), 'utf8')).split('\n');
  const schema = new URL(first.replace('# yaml-language-server: $schema=', ''));
  expect(fileURLToPath(schema)).toBe(join(home, 'node_modules', 'springsift', 'dist', 'scenario.schema.json'));
  expect(JSON.parse(await readFile(schema, 'utf8'))).toHaveProperty('$defs.sleeve');
  expect((await installed(['check', 'mine/scenario.yaml'])).stdout).toContain('no problem');
  const swept = await installed(['sweep', 'mine/scenario.yaml', '--out', 'out', '--quiet']);
  expect(swept.stderr).toBe('');
  expect((await readdir(join(home, 'out'))).sort()).toEqual(
    ['plans.csv', 'purchase.md', 'report.html', 'results.json', 'shortlist.csv'].sort(),
  );
  expect(await readFile(join(home, 'out', 'report.html'), 'utf8')).toContain('Hill hatch');
  expect((await installed(['reopen', 'out/report.html'])).stdout).toContain('Hill hatch');
});

/** Every number and text of a JSON file with where it stands. */
function leavesOf(value: unknown, path = ''): [path: string, leaf: unknown][] {
  if (typeof value !== 'object' || value === null) return [[path, value]];
  return Object.entries(value).flatMap(([key, one]) => leavesOf(one, `${path}/${key}`));
}

/** The tests above ran on this one. */
const OWN = Number.parseInt(process.versions.node, 10);

test.for([20, 22, 24].filter((major) => major !== OWN))(
  'on Node %i it sweeps the demo, with the same answer, and opens the report',
  {
    timeout: 600_000,
  },
  async (major, { skip }) => {
    const node = await nodeOf(major);
    if (node === null) return skip(`Node ${major} can't be had here`);
    const main = join(home, 'node_modules', 'springsift', 'dist', 'cli', 'main.js');
    const on = (...args: string[]) => run(node, [main, ...args], { cwd: home, maxBuffer: 1e8 });
    expect((await run(node, ['--version'])).stdout).toMatch(new RegExp(`^v${major}\\.`));
    const out = `out-${major}`;
    expect((await on('sweep', 'mine/scenario.yaml', '--out', out, '--quiet')).stderr).toBe('');
    expect((await on('reopen', `${out}/report.html`)).stdout).toContain('Hill hatch');
    const [mine, theirs] = await Promise.all(
      ['out', out].map((folder) => readFile(join(home, folder, 'results.json'), 'utf8')),
    );
    const isOld = (version: number) => version < 24;
    // Node 24 computes powers differently in the last binary digit, and bands are written with six digits.
    if (isOld(major) === isOld(OWN)) expect(theirs).toBe(mine);
    else {
      const [wanted, found] = [mine, theirs].map((text) => leavesOf(JSON.parse(text ?? '')));
      expect(found?.map(([path]) => path)).toEqual(wanted?.map(([path]) => path));
      const differing = (found ?? []).flatMap(([path, leaf], k) => {
        const other = wanted?.[k]?.[1];
        const isClose =
          typeof leaf === 'number' &&
          typeof other === 'number' &&
          Math.abs(leaf - other) <= 2e-6 * Math.abs(other) + 1e-9;
        return leaf === other || isClose ? [] : [[path, leaf, other]];
      });
      expect(differing).toEqual([]);
    }
  },
);

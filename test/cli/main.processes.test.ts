/** Processes that are stopped, killed or starved, and what is left of their files then. */

import { createHash } from 'node:crypto';
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { largeScenario } from '../setup/largeScenario.ts';
import { type Ran, springsift } from '../setup/run.ts';
import { smallScenario } from '../setup/smallScenario.ts';

const SLOW = { timeout: 240_000 };
/** A second, and what a busy machine adds. */
const AT_ONCE = 4_000;

let root = '';
let large = '';
let small = '';
/** A plain run and its files: every other one has to give the same. */
let plain: Ran;
let reference: Readonly<Record<string, string>> = {};

beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'springsift-processes-'));
  large = await largeScenario(join(root, 'large'));
  small = await smallScenario(join(root, 'small'));
  const env = { LC_ALL: 'C', TZ: 'UTC' };
  plain = await springsift(['sweep', small, '--out', 'reference', '--quiet'], { cwd: root, env });
  reference = await filesIn(join(root, 'reference'));
}, 240_000);
afterAll(() => rm(root, { recursive: true, force: true }));

/** The files of a folder with a digest each. */
async function filesIn(folder: string): Promise<Readonly<Record<string, string>>> {
  const names = (await readdir(folder)).sort();
  const texts = await Promise.all(names.map((name) => readFile(join(folder, name), 'utf8')));
  return Object.fromEntries(
    names.map((name, k) => [
      name,
      createHash('sha256')
        .update(texts[k] ?? '')
        .digest('hex'),
    ]),
  );
}

/** A folder that holds an earlier report. */
async function sweptFolder(name: string): Promise<string> {
  const folder = join(root, name);
  await cp(join(root, 'reference'), folder, { recursive: true });
  return folder;
}

/** A module to be loaded before the program. */
async function preload(name: string, code: string): Promise<string> {
  const path = join(root, `${name}.mjs`);
  await writeFile(path, code);
  return path;
}

test.each([
  ['SIGHUP', 129],
  ['SIGINT', 130],
  ['SIGTERM', 143],
] as const)('%s ends a sweep at once with exit code %i and leaves nothing', SLOW, async (signal, code) => {
  const out = join(root, signal);
  const ran = await springsift(['sweep', large, '--out', out], { interrupt: { signal, after: 'progress' } });
  expect(ran).toMatchObject({ code, signal: null });
  expect(ran.stderr).toContain('Nothing was written');
  expect(ran.ending).toBeLessThan(AT_ONCE);
  expect(await readdir(out)).toEqual([]);
});

test('a killed sweep leaves the earlier report whole, and the next one is not hindered', SLOW, async () => {
  const out = await sweptFolder('killed');
  const kill = { signal: 'SIGKILL' as const, after: 'progress' as const };
  const ran = await springsift(['sweep', large, '--out', out, '--force'], { interrupt: kill });
  expect(ran.signal).toBe('SIGKILL');
  expect(await filesIn(out)).toEqual(reference);
  const again = await springsift(['sweep', small, '--out', out, '--force', '--quiet']);
  expect(again).toMatchObject({ code: 0, stderr: '' });
  expect(await filesIn(out)).toEqual(reference);
});

test.each([
  ['killed', 'process.exit(9)', 'worker exited with code: 9'],
  ['out of memory', 'const kept = []; for (;;) kept.push(new Array(1e4).fill({}))', 'memory limit'],
])('a worker thread that is %s ends the sweep with a clear error', SLOW, async (name, die, reason) => {
  // Every head of a sweep asks the shared board whether to stop: there the thread dies.
  const code = `import { isMainThread } from 'node:worker_threads';
    const load = Atomics.load;
    let asked = 0;
    if (!isMainThread) Atomics.load = (...place) => { if (++asked > 100) { ${die} } return load(...place); };`;
  const out = join(root, `lost ${name}`);
  const path = await preload(name.replaceAll(' ', '-'), code);
  const env = { NODE_OPTIONS: `--import file://${path} --max-old-space-size=300` };
  const ran = await springsift(['sweep', large, '--out', out, '--workers', '2', '--quiet'], { env });
  expect(ran.code).toBe(1);
  expect(ran.stderr).toContain(reason);
  expect(ran.stderr).toContain('--workers');
  expect(ran.stderr).not.toMatch(/\n\s+at /);
  expect(await readdir(out)).toEqual([]);
});

test('on a full disk nothing is replaced and nothing is left over', SLOW, async () => {
  const out = await sweptFolder('full');
  const code = `import fs from 'node:fs';
    import { syncBuiltinESMExports } from 'node:module';
    const open = fs.promises.open;
    let opened = 0;
    fs.promises.open = async (path, ...how) => {
      const file = await open(path, ...how);
      // The disk is full when the fourth file of five is written.
      if (/\\.part$/.test(path) && ++opened === 4) {
        file.writeFile = async () => { throw Object.assign(new Error('full'), { code: 'ENOSPC' }); };
      }
      return file;
    };
    syncBuiltinESMExports();`;
  const ran = await springsift(['sweep', small, '--out', out, '--force', '--quiet'], {
    preload: await preload('full', code),
  });
  expect(ran.code).toBe(1);
  expect(ran.stderr).toContain('the disk is full');
  expect(ran.stderr).not.toMatch(/\n\s+at /);
  expect(await filesIn(out)).toEqual(reference);
});

/** Does something at a numbered rename: the first makes the journal, one for each file follows. */
const atRename = (number: number, act: string) => `import fs from 'node:fs';
    import { syncBuiltinESMExports } from 'node:module';
    const rename = fs.promises.rename;
    let renamed = 0;
    fs.promises.rename = async (...given) => {
      if (++renamed === ${number}) { ${act} }
      return rename(...given);
    };
    syncBuiltinESMExports();`;

test(
  'a sweep that is killed or finds the disk full between two files is finished by the next command',
  SLOW,
  async () => {
    const before = await sweptFolder('between');
    await writeFile(join(before, 'purchase.md'), 'an earlier list');
    const full = "throw Object.assign(new Error('full'), { code: 'ENOSPC' })";
    for (const [name, act, code] of [
      [
        'killed-between',
        "process.kill(process.pid, 'SIGKILL'); await new Promise(() => setTimeout(() => {}, 1e6));",
        null,
      ],
      ['full-between', full, 1],
    ] as const) {
      const out = join(root, name);
      await cp(before, out, { recursive: true });
      const path = await preload(name, atRename(4, act));
      const ran = await springsift(['sweep', small, '--out', out, '--force', '--quiet'], { preload: path });
      expect(ran, ran.stderr).toMatchObject({ code });
      expect(ran.stderr).not.toContain('Nothing was changed');
      expect((await filesIn(out))['purchase.md']).not.toBe(reference['purchase.md']);
      expect(await springsift(['reopen', join(out, 'report.html')])).toMatchObject({ code: 0, stderr: '' });
      expect(await filesIn(out)).toEqual(reference);
    }
  },
);

test(
  'a sweep that is killed before its files count leaves the earlier report, and the next command clears up',
  SLOW,
  async () => {
    const out = await sweptFolder('killed-before');
    await writeFile(join(out, 'purchase.md'), 'an earlier list');
    const before = await filesIn(out);
    const die = "process.kill(process.pid, 'SIGKILL'); await new Promise(() => setTimeout(() => {}, 1e6));";
    const path = await preload('killed-before', atRename(1, die));
    const ran = await springsift(['sweep', small, '--out', out, '--force', '--quiet'], { preload: path });
    expect(ran.signal).toBe('SIGKILL');
    expect(await readdir(out)).toHaveLength(5 + 5 + 2);
    await springsift(['reopen', join(out, 'report.html')]);
    expect(await filesIn(out)).toEqual(before);
  },
);

test('two Ctrl-C shortly after each other end a sweep with a word', SLOW, async () => {
  const out = join(root, 'twice');
  const twice = `if ((await import('node:worker_threads')).isMainThread) {
      const { stderr } = process;
      stderr.isTTY = true;
      const write = stderr.write;
      stderr.write = (...given) => {
        stderr.write = write;
        process.kill(process.pid, 'SIGINT');
        setTimeout(() => process.kill(process.pid, 'SIGINT'), 20);
        return stderr.write(...given);
      };
    }`;
  const ran = await springsift(['sweep', large, '--out', out], { preload: await preload('twice', twice) });
  expect(ran).toMatchObject({ code: 130, signal: null });
  expect(ran.stderr).toContain('Nothing was written.');
  expect(await readdir(out)).toEqual([]);
});

test('of two sweeps into one folder without force one is refused, and says so at once', SLOW, async () => {
  const out = join(root, 'second');
  const ran = await Promise.all([small, small].map((path) => springsift(['sweep', path, '--out', out, '--quiet'])));
  expect(ran.map(({ code }) => code).sort()).toEqual([0, 1]);
  expect(ran.find(({ code }) => code === 1)?.stderr).toMatch(/at work on the same files|already holds/);
  expect(await filesIn(out)).toEqual(reference);
});

test('two sweeps into one folder leave whole files', SLOW, async () => {
  const out = join(root, 'both');
  const args = ['sweep', small, '--out', out, '--force', '--quiet'];
  const ran = await Promise.all([springsift(args), springsift(args)]);
  expect(ran.map(({ code, stderr }) => [code, stderr])).toEqual([
    [0, ''],
    [0, ''],
  ]);
  expect(await filesIn(out)).toEqual(reference);
});

test('a reader who closes the pipe early is no error, and the files are written all the same', SLOW, async () => {
  const out = join(root, 'deaf');
  const ran = await springsift(['sweep', small, '--out', out, '--quiet'], { deaf: true });
  expect(ran).toMatchObject({ code: 0, stderr: '' });
  expect(await filesIn(out)).toEqual(reference);
  expect(await springsift(['--help'], { deaf: true })).toMatchObject({ code: 0, stderr: '' });
});

test.each([
  { LC_ALL: 'de_DE.UTF-8', LANG: 'de_DE.UTF-8', TZ: 'Asia/Tokyo', NO_COLOR: '1', TERM: 'dumb' },
  { LC_ALL: 'ar_EG', LANG: 'tr_TR', TZ: 'America/Los_Angeles', FORCE_COLOR: '3', TERM: 'xterm-256color' },
])('language, time zone and colour settings change no byte: $LC_ALL $TZ', SLOW, async (env) => {
  const folder = join(root, env.LC_ALL);
  const there = await springsift(['sweep', small, '--out', folder, '--quiet'], { env });
  expect(await filesIn(folder)).toEqual(reference);
  const said = (text: string) => text.replaceAll(/^wrote .*\n/gm, '');
  expect(said(there.stdout)).toBe(said(plain.stdout));
  expect([...there.stdout].filter((sign) => sign < ' ' && sign !== '\n')).toEqual([]);
});

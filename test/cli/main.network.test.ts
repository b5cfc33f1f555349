/** Nothing the program does asks the network for anything. */
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { springsift } from '../setup/run.ts';

/** Every way out of Node ends in one of these; each use is written to a file and fails. */
const TRAP = `import { appendFileSync } from 'node:fs';
  import { createRequire, syncBuiltinESMExports } from 'node:module';
  const require = createRequire(import.meta.url);
  const WAYS = { net: ['connect', 'createConnection', 'createServer'], tls: ['connect'], dgram: ['createSocket'],
    http: ['request', 'get', 'createServer'], https: ['request', 'get'], http2: ['connect'],
    dns: ['lookup', 'resolve', 'resolve4', 'resolve6'] };
  // The loader of the sources speaks to its own process through a local pipe, which is no network.
  const isPipe = ([first]) => {
    const to = Array.isArray(first) ? first[0] : first;
    return typeof to === 'string' ? !/^\\d+$/.test(to) : typeof to?.path === 'string';
  };
  const trap = (name, real) => function (...to) {
    if (real && isPipe(to)) return real.apply(this, to);
    appendFileSync(process.env.TRAPPED, name + '\\n'); throw new Error('network: ' + name);
  };
  for (const [module, names] of Object.entries(WAYS)) {
    const ways = require('node:' + module);
    for (const name of names) ways[name] = trap(module + '.' + name, module === 'net' ? ways[name] : null);
  }
  const { prototype } = require('node:net').Socket;
  prototype.connect = trap('net.Socket.connect', prototype.connect);
  for (const name of ['fetch', 'WebSocket', 'EventSource']) globalThis[name] = trap(name);
  syncBuiltinESMExports();`;

let root = '';
let trap = '';
beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'springsift-network-'));
  trap = join(root, 'trap.mjs');
  await writeFile(trap, TRAP);
});
afterAll(() => rm(root, { recursive: true, force: true }));

/** What was trapped while the command ran, and how it ended. */
async function trapped(args: readonly string[]) {
  const log = join(root, 'trapped.txt');
  await writeFile(log, '');
  const ran = await springsift(args, { cwd: root, preload: trap, env: { TRAPPED: log } });
  return { code: ran.code, trapped: await readFile(log, 'utf8'), stdout: ran.stdout, stderr: ran.stderr };
}

test('the trap works', async () => {
  const log = join(root, 'trapped.txt');
  await writeFile(join(root, 'bad.mjs'), `${TRAP}\ntry { fetch('http://localhost') } catch {}`);
  await springsift(['--version'], { preload: join(root, 'bad.mjs'), env: { TRAPPED: log } });
  expect(await readFile(log, 'utf8')).toBe('fetch\n');
});

test('no command uses the network', { timeout: 300_000 }, async () => {
  const mine = join('mine', 'scenario.yaml');
  const runs: readonly (readonly [args: readonly string[], code: number])[] = [
    [['--help'], 0],
    [['new', 'mine'], 0],
    [['check', mine], 0],
    [['sweep', mine, '--out', 'out', '--quiet'], 0],
    [['sweep', mine, '--shard', '1/1', '--out', 'parts', '--quiet'], 0],
    [['merge', mine, join('parts', 'part-1-of-1.json'), '--out', 'merged'], 0],
    [['reopen', join('out', 'report.html')], 0],
    [['compare', join('out', 'report.html'), join('merged', 'report.html')], 0],
    [['audit', mine, '--blank', 'low', '--out', 'audit'], 0],
    [['measure', mine, '--out', 'measure', '--quiet'], 0],
    [['fields', 'axles'], 0],
    [['explain', mine, 'nonsense'], 2],
  ];
  for (const [args, code] of runs) {
    const { stdout, stderr, ...outcome } = await trapped(args);
    expect({ args, ...outcome, stderr: code === 0 ? stderr : '' }).toEqual({ args, code, trapped: '', stderr: '' });
  }
  const help = (await springsift(['--help'])).stdout;
  const commands = [...help.matchAll(/^ {2}([a-z]+) .*[<[]/gm)]
    .map(([, name]) => name)
    .filter((name) => name !== 'help');
  expect(commands.length).toBeGreaterThan(4);
  const tried = new Set(runs.map(([[name]]) => name));
  expect(commands.filter((name) => !tried.has(name))).toEqual([]);
  expect(await readdir(root)).toContain('merged');
});

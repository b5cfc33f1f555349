/** Nothing the program does asks the network for anything; the commands themselves are tried with those of the manual. */

import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { springsift } from '../setup/run.ts';
import { TRAP } from '../setup/trap.ts';

const SCENARIO = fileURLToPath(new URL('../../scenarios/hill-hatch/', import.meta.url));
let root = '';
let trap = '';
beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), 'springsift-network-'));
  trap = join(root, 'trap.mjs');
  await writeFile(trap, TRAP);
});
afterAll(() => rm(root, { recursive: true, force: true }));

test('the trap works', async () => {
  const log = join(root, 'trapped.txt');
  await writeFile(join(root, 'bad.mjs'), `${TRAP}\ntry { fetch('http://localhost') } catch {}`);
  await springsift(['--version'], { preload: join(root, 'bad.mjs'), env: { TRAPPED: log } });
  expect(await readFile(log, 'utf8')).toBe('fetch\n');
});

test.each([
  ['--help', 0],
  ['explain scenario.yaml nonsense', 2],
] as const)('%s does not use the network', async (line, code) => {
  const log = join(root, 'none.txt');
  const ran = await springsift(line.split(' '), { cwd: SCENARIO, preload: trap, env: { TRAPPED: log } });
  expect(ran.code).toBe(code);
  expect(existsSync(log)).toBe(false);
});

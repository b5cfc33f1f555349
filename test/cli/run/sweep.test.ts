/** The sweep command in this process, so that what else it needs can be made to fail. */

import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { refuseTooMuch, sweep, watched } from '../../../src/cli/run/sweep.ts';
import { EXIT, KnownError } from '../../../src/cli/terminal/exit.ts';
import { type DrawingThread, draw } from '../../../src/pipeline/drawing.ts';
import { SweepStopped } from '../../../src/pipeline.ts';
import { WorkerLost } from '../../../src/sweep/threads.ts';
import { readReal } from '../../setup/scenarios.ts';

const KIT = fileURLToPath(new URL('../../../scenarios/kit-two-seater/scenario.yaml', import.meta.url));
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-sweep-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));
afterEach(() => vi.restoreAllMocks());

const drawings: DrawingThread = { getReady() {}, sketch() {}, draw, async close() {} };

/** Catches what is printed, so that the test prints nothing. */
function printed(): string[] {
  const texts: string[] = [];
  const { stdout, stderr } = process;
  for (const stream of [stdout, stderr]) {
    vi.spyOn(stream, 'write').mockImplementation((text) => texts.push(String(text)) > 0);
  }
  return texts;
}

const failed = (work: Promise<unknown>) =>
  work.then(
    () => null,
    (error: unknown) => error,
  );

/** All but the claim of this run, which stands until its process ends. */
const filesIn = async (place: string) => (await readdir(place)).filter((name) => !name.endsWith('.claim'));

test('a thread that is lost while it draws leaves nothing and is told of in words', async () => {
  const texts = printed();
  const lost: DrawingThread = { ...drawings, draw: () => Promise.reject(new WorkerLost('out of memory')) };
  const error = await failed(sweep([KIT], { out: join(folder, 'lost') }, lost));
  expect(error).toBeInstanceOf(KnownError);
  expect(String(error)).toContain('ended before its work was done: out of memory');
  expect(await filesIn(join(folder, 'lost'))).toEqual([]);
  expect(texts.join('')).not.toContain('wrote');
  const slip = new TypeError('a slip of the program');
  const broken: DrawingThread = { ...drawings, draw: () => Promise.reject(slip) };
  expect(await failed(sweep([KIT], { out: join(folder, 'broken'), quiet: true }, broken))).toBe(slip);
});

test('two scenarios give a report each and one page over both', async () => {
  const texts = printed();
  const other = KIT.replace('kit-two-seater', 'loaded-estate');
  const out = join(folder, 'two');
  expect(await sweep([KIT, other], { out, quiet: true, rankBy: 'share' }, drawings)).toBe(EXIT.ok);
  expect((await filesIn(out)).sort()).toEqual(['comparison.html', 'kit-two-seater', 'loaded-estate']);
  expect(texts.join('')).toContain('comparison.html');
});

test('a stopped sweep ends with the code of what stopped it, a lost worker with words', async () => {
  printed();
  const stop = await failed(
    watched('demo', {}, async () => {
      process.emit('SIGTERM');
      throw new SweepStopped(5, 10);
    }),
  );
  expect(stop).toMatchObject({ code: EXIT.terminated });
  expect(String(stop)).toContain('--keep-partial');
  const alone = await failed(watched('demo', { quiet: true }, () => Promise.reject(new SweepStopped(5, 10)), false));
  expect(alone).toMatchObject({ code: EXIT.interrupted });
  expect(String(alone)).not.toContain('--keep-partial');
  const kept = await watched('demo', { quiet: true, workers: 2 }, async ({ workers }) => {
    process.emit('SIGINT');
    return workers;
  });
  expect(kept).toEqual({ value: 2, stopped: EXIT.interrupted });
  expect(await failed(watched('demo', {}, () => Promise.reject(new WorkerLost('killed'))))).toBeInstanceOf(KnownError);
});

test('more combinations than the limit are refused, as many are not', async () => {
  const read = await readReal('kit-two-seater');
  expect(() => refuseTooMuch('demo', read, 10)).toThrow(KnownError);
  expect(() => refuseTooMuch('demo', read)).not.toThrow();
});

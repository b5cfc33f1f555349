import { expect, test } from 'vitest';
import { siteOf } from '../../src/domain/corner/site.ts';
import type { Scenario } from '../../src/domain/scenario.ts';
import { sweepChunk } from '../../src/sweep/chunk.ts';
import { sweepOnThreads } from '../../src/sweep/pool.ts';
import { joinFault, partOf, partText, resultsOf, shareChunks } from '../../src/sweep/shard.ts';
import { chunksOf, joinAll, type Progress, QUIET_RUN, sweepAll, sweepScenario } from '../../src/sweep/sweep.ts';
import { type ChunkResult, newBoard, stopAll } from '../../src/sweep/threads.ts';
import { realScenario } from '../setup/scenarios.ts';

const scenario: Scenario = await realScenario('hill-hatch');

test('whatever the number of workers and the cut into chunks, the outcome is the same', {
  timeout: 300_000,
}, async () => {
  const expected = { setups: sweepScenario(scenario) };
  for (const workers of [1, 2, 5]) {
    const chunks = chunksOf(scenario, workers * 3);
    const results = await sweepOnThreads(scenario, chunks, newBoard(chunks.length), workers);
    expect(joinAll(scenario, results.reverse())).toMatchObject(expected);
  }
  for (const takers of [1, 2, 5]) {
    const chunks = chunksOf(scenario, 1);
    const results = await sweepOnThreads(scenario, chunks, newBoard(chunks.length, takers), takers);
    expect(results).toHaveLength(chunks.length * takers);
    expect(joinAll(scenario, results)).toMatchObject(expected);
  }
  for (const parts of [1, 7, 1000]) {
    const chunks = chunksOf(scenario, parts);
    const board = newBoard(chunks.length);
    expect(
      joinAll(
        scenario,
        chunks.map((chunk) => sweepChunk(scenario, { chunk, taker: 0 }, board)),
      ),
    ).toMatchObject(expected);
  }
});

test('a stopped sweep gives what it has and says how much that is', async () => {
  const chunks = chunksOf(scenario, 4);
  const board = newBoard(chunks.length);
  stopAll(board);
  const results = chunks.map((chunk) => sweepChunk(scenario, { chunk, taker: 0 }, board));
  const outcome = joinAll(scenario, results);
  expect(outcome.judged).toBeGreaterThan(0);
  expect(outcome.judged).toBeLessThan(outcome.of);
  expect(board.judged.reduce((a, b) => a + b)).toBe(outcome.judged);
});

test('takers that share a chunk are dealt each of its heads once, and write the same part whoever got which', () => {
  const share = { index: 1, count: 1 };
  const chunks = shareChunks(scenario, share);
  const text = (results: ChunkResult[]) => partText(partOf(scenario, '1', share, results));
  const board = newBoard(chunks.length);
  const alone = chunks.map((chunk) => sweepChunk(scenario, { chunk, taker: 0 }, board));
  const shared = newBoard(chunks.length, 2);
  const both = chunks.flatMap((chunk) => {
    // The first takes one head, as if it were slow; the second all others.
    stopAll(shared);
    const slow = sweepChunk(scenario, { chunk, taker: 0 }, shared);
    Atomics.store(shared.stop, 0, 0);
    return [sweepChunk(scenario, { chunk, taker: 1 }, shared), slow];
  });
  expect(both.every(({ judged }) => judged > 0)).toBe(true);
  expect(both.reduce((sum, { judged }) => sum + judged, 0)).toBe(alone.reduce((sum, { judged }) => sum + judged, 0));
  expect(text(both.reverse())).toBe(text(alone));
});

test('progress ends at the whole, and an aborted signal stops the sweep', async () => {
  const seen: Progress[] = [];
  const outcome = await sweepAll(scenario, { ...QUIET_RUN, onProgress: (p) => seen.push(p) });
  const last = seen.at(-1) as Progress;
  expect(last.judged).toBe(last.of);
  const axles = outcome.setups.flatMap(({ axles: { front, rear } }) => [front, rear]);
  const scores = axles.flatMap(({ tally }) => tally.spring_cells.map((cell) => cell.best_score ?? 0));
  expect(last.best).toBeCloseTo(Math.max(...scores), 12);
  expect(last.workable).toBe(axles.reduce((sum, { tally }) => sum + tally.passed, 0));
  expect(outcome.judged).toBe(outcome.of);
  const stopped = await sweepAll(scenario, { ...QUIET_RUN, signal: AbortSignal.abort() });
  expect(stopped.judged).toBeLessThan(stopped.of);
});

test('a worker that dies ends the sweep with its error, not with a hang', { timeout: 240_000 }, async () => {
  const broken = { ...scenario, setups: [] } as Scenario;
  const chunks = chunksOf(scenario, 2);
  await expect(sweepOnThreads(broken, chunks, newBoard(chunks.length), 2)).rejects.toThrow();
});

test('shares written, read back and joined are the single run; what does not belong together is refused', () => {
  const expected = sweepScenario(scenario);
  const parts = [1, 2, 3].map((index) => {
    const share = { index, count: 3 };
    const chunks = shareChunks(scenario, share);
    const board = newBoard(chunks.length);
    const part = partOf(
      scenario,
      '1',
      share,
      chunks.map((chunk) => sweepChunk(scenario, { chunk, taker: 0 }, board)),
    );
    return JSON.parse(JSON.stringify(part)) as typeof part;
  });
  expect(joinFault(scenario, parts)).toBeNull();
  expect(joinAll(scenario, resultsOf(scenario, parts.toReversed())).setups).toEqual(expected);
  const [first, second, third] = parts as [(typeof parts)[0], (typeof parts)[0], (typeof parts)[0]];
  expect(joinFault(scenario, [first, third])).toEqual({ kind: 'missing', parts: [2] });
  expect(joinFault(scenario, [first, first, third])).toEqual({ kind: 'twice', part: 1 });
  expect(joinFault({ ...scenario, name: 'other' }, [first])).toEqual({ kind: 'other scenario', part: 1 });
  const recut = { ...second, share: { index: 2, count: 4 } };
  expect(joinFault(scenario, [first, recut])).toEqual({ kind: 'other count', part: 2 });
});

test('every combination is counted once, by setup and axle', () => {
  for (const { setup, axles } of sweepScenario(scenario)) {
    for (const axle of ['front', 'rear'] as const) {
      const { combinations, passed, rejected } = axles[axle].tally;
      const fallen = Object.values(rejected).reduce((a, b) => a + b, 0);
      expect(passed + fallen).toBe(combinations);
      expect(siteOf(scenario, setup, axle).axle).toBe(axle);
    }
  }
});

import { expect, test } from 'vitest';
import { siteOf } from '../../src/model/corner/site.ts';
import type { Scenario } from '../../src/model/scenario.ts';
import { type ChunkResult, newSharedState, stopAll, sweepChunk } from '../../src/sweep/chunk.ts';
import { joinFault } from '../../src/sweep/joinFault.ts';
import { chunksOf, sweepScenario } from '../../src/sweep/outcome.ts';
import { partOf, partText, resultsOf, shareChunks } from '../../src/sweep/shard.ts';
import { joinAll, type Progress, QUIET_RUN, sweepAll } from '../../src/sweep/sweep.ts';
import { sweepOnThreads } from '../../src/sweep/threads.ts';
import { realScenario } from '../setup/scenarios.ts';

const scenario: Scenario = await realScenario('hill-hatch');

test('whatever the number of workers and the cut into chunks, the outcome is the same', {
  timeout: 300_000,
}, async () => {
  const expected = { setups: sweepScenario(scenario) };
  for (const workers of [1, 2, 5]) {
    const chunks = chunksOf(scenario, workers * 3);
    const results = await sweepOnThreads(scenario, chunks, newSharedState(chunks.length), workers);
    expect(joinAll(scenario, results.reverse())).toMatchObject(expected);
  }
  for (const workers of [1, 2, 5]) {
    const chunks = chunksOf(scenario, 1);
    const results = await sweepOnThreads(scenario, chunks, newSharedState(chunks.length, workers), workers);
    expect(results).toHaveLength(chunks.length * workers);
    expect(joinAll(scenario, results)).toMatchObject(expected);
  }
  for (const parts of [1, 7, 1000]) {
    const chunks = chunksOf(scenario, parts);
    const state = newSharedState(chunks.length);
    expect(
      joinAll(
        scenario,
        chunks.map((chunk) => sweepChunk(scenario, { chunk, worker: 0 }, state)),
      ),
    ).toMatchObject(expected);
  }
});

test('a stopped sweep gives what it has and says how much that is', async () => {
  const chunks = chunksOf(scenario, 4);
  const state = newSharedState(chunks.length);
  stopAll(state);
  const results = chunks.map((chunk) => sweepChunk(scenario, { chunk, worker: 0 }, state));
  const outcome = joinAll(scenario, results);
  expect(outcome.judged).toBeGreaterThan(0);
  expect(outcome.judged).toBeLessThan(outcome.of);
  expect(state.judged.reduce((a, b) => a + b)).toBe(outcome.judged);
});

test('workers that share a chunk take each of its assemblies once, and write the same part whichever took what', () => {
  const share = { index: 1, count: 1 };
  const chunks = shareChunks(scenario, share);
  const text = (results: ChunkResult[]) => partText(partOf(scenario, '1', share, results));
  const ofOne = newSharedState(chunks.length);
  const alone = chunks.map((chunk) => sweepChunk(scenario, { chunk, worker: 0 }, ofOne));
  const state = newSharedState(chunks.length, 2);
  const both = chunks.flatMap((chunk) => {
    // The first takes one assembly, as if it were slow; the second all others.
    stopAll(state);
    const slow = sweepChunk(scenario, { chunk, worker: 0 }, state);
    Atomics.store(state.stop, 0, 0);
    return [sweepChunk(scenario, { chunk, worker: 1 }, state), slow];
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
  await expect(sweepOnThreads(broken, chunks, newSharedState(chunks.length), 2)).rejects.toThrow();
});

test('shares written, read back and joined are the single run; what does not belong together is refused', () => {
  const expected = sweepScenario(scenario);
  const parts = [1, 2, 3].map((index) => {
    const share = { index, count: 3 };
    const chunks = shareChunks(scenario, share);
    const state = newSharedState(chunks.length);
    const part = partOf(
      scenario,
      '1',
      share,
      chunks.map((chunk) => sweepChunk(scenario, { chunk, worker: 0 }, state)),
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

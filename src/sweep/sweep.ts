/**
 * The sweep of a whole scenario: the assemblies of each setup's axles shared out among threads, their tallies merged and the
 * axles joined. Small sweeps stay on this thread; whatever the threads and chunks, the outcome is the same.
 */

import { availableParallelism } from 'node:os';
import type { Scenario, Setup } from '../model/scenario.ts';
import type { Step } from '../model/steps.ts';
import { type Chunk, type ChunkResult, newSharedState, type SharedState, stopAll, sweepChunk } from './chunk.ts';
import { layoutOf } from './layout.ts';
import { chunksOf, joinSetup, type SetupOutcome, sizesOf } from './outcome.ts';

export interface Progress {
  /** Combinations judged and to judge. */
  readonly judged: number;
  readonly of: number;
  /** Workable ones in the chunks that are done, and the best score of a corner among them, 0 to 1; null: none yet. */
  readonly workable: number;
  readonly best: number | null;
}

export interface RunOptions {
  /** Worker threads; null: as many as the machine runs at once. */
  readonly workers: number | null;
  readonly onProgress: ((progress: Progress) => void) | null;
  /** Called with what is worked out after the sweep: how sure, cures, plans. */
  readonly onStep?: ((step: Step) => void) | null;
  /** Aborted, the sweep stops within a second. */
  readonly signal: AbortSignal | null;
  /** Called when everything is swept or the sweep was stopped; what follows does not heed the signal. */
  readonly onSwept?: () => void;
}

export const QUIET_RUN: RunOptions = { workers: null, onProgress: null, signal: null };

export interface SweepOutcome {
  readonly setups: readonly SetupOutcome[];
  /** Combinations judged and to judge; fewer when the sweep was stopped. */
  readonly judged: number;
  readonly of: number;
}

/** Sweeps everything, on worker threads where that is worth their start. */
export async function sweepAll(scenario: Scenario, run: RunOptions): Promise<SweepOutcome> {
  return joinAll(scenario, await sweepChunks(scenario, chunksOf(scenario, 1), run));
}

/** Sweeps chunks of any cut, in no particular order; fewer come back when the run was stopped. */
export async function sweepChunks(
  scenario: Scenario,
  chunks: readonly Chunk[],
  run: RunOptions,
): Promise<ChunkResult[]> {
  const workers = workersFor(scenario, run);
  const state = newSharedState(chunks.length, Math.max(1, workers));
  const ticking = startTicking(state, sizeOf(scenario, chunks), run);
  try {
    return workers === 0 ? await sweepHere(scenario, chunks, state) : await onThreads(scenario, chunks, state, workers);
  } finally {
    ticking.end();
    run.onSwept?.();
  }
}

/** Tallies of all chunks joined to the outcome of the whole. */
export function joinAll(scenario: Scenario, results: readonly ChunkResult[]): SweepOutcome {
  const judged = results.reduce((sum, result) => sum + result.judged, 0);
  const setups = scenario.setups.map((setup, k) => joinSetup(scenario, setup, k, results));
  return { setups, judged, of: sizesOf(scenario).judged };
}

function workersFor(scenario: Scenario, run: RunOptions): number {
  return isSmall(scenario) ? 0 : (run.workers ?? availableParallelism());
}

/** Combinations that chunks hold. */
export function sizeOf(scenario: Scenario, chunks: readonly Chunk[]): number {
  return chunks.reduce((sum, { setup, axle, from, to }) => {
    return sum + (to - from) * layoutOf(scenario, scenario.setups[setup] as Setup, axle).assemblySize;
  }, 0);
}

/** Combinations that one thread judges before workers would have started; far fewer where each needs solving. */
const SMALL = 2e7;
const SMALL_SOLVED = 2e5;

/** Whether one thread sweeps it before others would have started. */
export function isSmall(scenario: Scenario): boolean {
  const solved = scenario.setups.some((setup) => setup.bump.kind === 'load' || setup.loadStates.length > 0);
  return sizesOf(scenario).judged <= (solved ? SMALL_SOLVED : SMALL);
}

/** On this thread, letting signals in between chunks. */
async function sweepHere(scenario: Scenario, chunks: readonly Chunk[], state: SharedState): Promise<ChunkResult[]> {
  const results: ChunkResult[] = [];
  for (const chunk of chunks) {
    results.push(sweepChunk(scenario, { chunk, worker: 0 }, state));
    await new Promise((resolve) => setImmediate(resolve));
  }
  return results;
}

async function onThreads(scenario: Scenario, chunks: readonly Chunk[], state: SharedState, workers: number) {
  const { sweepOnThreads } = await import('./threads.ts');
  return sweepOnThreads(scenario, chunks, state, workers);
}

const TICK = 250;

/** Reports progress from the shared state now and then, and hands a stop on to it. */
function startTicking(state: SharedState, of: number, { onProgress, signal }: RunOptions): { end(): void } {
  const sum = (column: Float64Array) => column.reduce((a, b) => a + b, 0);
  const report = () => {
    const best = Math.max(...state.best);
    onProgress?.({ judged: sum(state.judged), of, workable: sum(state.workable), best: best > 0 ? best : null });
  };
  const stop = () => stopAll(state);
  const timer = onProgress ? setInterval(report, TICK) : null;
  signal?.addEventListener('abort', stop);
  if (signal?.aborted) stop();
  return {
    end() {
      if (timer) clearInterval(timer);
      signal?.removeEventListener('abort', stop);
      report();
    },
  };
}

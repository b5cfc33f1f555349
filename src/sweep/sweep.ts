/**
 * The sweep of a whole scenario: the heads of each setup's axles dealt to the threads, their tallies merged and the
 * axles joined. Small sweeps stay on this thread; whatever the threads and chunks, the outcome is the same.
 */
import { availableParallelism } from 'node:os';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../domain/scenario.ts';
import type { Step } from '../domain/steps.ts';
import { type AxleOutcome, axleOutcome } from './axle.ts';
import { layoutOf, sweepChunk } from './chunk.ts';
import { combinationCount } from './options.ts';
import { type PairOutcome, pairUp } from './pairing.ts';
import { emptyTally, mergedTally } from './tally.ts';
import { type Board, type Chunk, type ChunkResult, newBoard, stopAll } from './threads.ts';

export interface SetupOutcome {
  readonly setup: Setup;
  readonly axles: Readonly<Record<AxleName, AxleOutcome>>;
  readonly pairs: PairOutcome;
}

export interface Plan {
  readonly combinations: Readonly<Record<AxleName, number>>;
  /** All combinations judged over all setups. */
  readonly judged: number;
  /** True when nothing is left to choose: one given build. */
  readonly isBuild: boolean;
}

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
  /** Told of what is worked out after the sweep: how sure, cures, plans. */
  readonly onStep?: ((step: Step) => void) | null;
  /** Aborted, the sweep stops within a second. */
  readonly signal: AbortSignal | null;
  /** Told when everything is swept or the sweep was stopped; what follows does not look at the signal. */
  readonly onSwept?: () => void;
}

export const QUIET_RUN: RunOptions = { workers: null, onProgress: null, signal: null };

export interface SweepOutcome {
  readonly setups: readonly SetupOutcome[];
  /** Combinations judged and to judge; fewer when the sweep was stopped. */
  readonly judged: number;
  readonly of: number;
}

export function planOf(scenario: Scenario): Plan {
  const front = combinationCount(scenario.axles.front.options);
  const rear = combinationCount(scenario.axles.rear.options);
  return {
    combinations: { front, rear },
    judged: (front + rear) * scenario.setups.length,
    isBuild: front === 1 && rear === 1,
  };
}

/** Sweeps everything on this thread, at once. */
export function sweepScenario(scenario: Scenario): SetupOutcome[] {
  const chunks = chunksOf(scenario, 1);
  const board = newBoard(chunks.length);
  const results = chunks.map((chunk) => sweepChunk(scenario, { chunk, taker: 0 }, board));
  return scenario.setups.map((setup, k) => joined(scenario, setup, k, results));
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
  const board = newBoard(chunks.length, Math.max(1, workers));
  const ticking = startTicking(board, sizeOf(scenario, chunks), run);
  try {
    return workers === 0 ? await sweepHere(scenario, chunks, board) : await onThreads(scenario, chunks, board, workers);
  } finally {
    ticking.end();
    run.onSwept?.();
  }
}

/** Tallies of all chunks joined to the outcome of the whole. */
export function joinAll(scenario: Scenario, results: readonly ChunkResult[]): SweepOutcome {
  const judged = results.reduce((sum, result) => sum + result.judged, 0);
  const setups = scenario.setups.map((setup, k) => joined(scenario, setup, k, results));
  return { setups, judged, of: planOf(scenario).judged };
}

function workersFor(scenario: Scenario, run: RunOptions): number {
  return isSmall(scenario) ? 0 : (run.workers ?? availableParallelism());
}

/** Combinations that chunks hold. */
export function sizeOf(scenario: Scenario, chunks: readonly Chunk[]): number {
  return chunks.reduce((sum, { setup, axle, from, to }) => {
    return sum + (to - from) * layoutOf(scenario, scenario.setups[setup] as Setup, axle).headSize;
  }, 0);
}

/** Heads of each setup and axle, cut into at most `parts` even ranges. */
export function chunksOf(scenario: Scenario, parts: number): Chunk[] {
  const ranges = scenario.setups.flatMap((setup, k) =>
    AXLE_NAMES.flatMap((axle) => {
      const { heads } = layoutOf(scenario, setup, axle);
      const count = Math.min(parts, heads);
      const cut = (part: number) => Math.floor((part * heads) / count);
      return Array.from({ length: count }, (_, part) => ({ setup: k, axle, from: cut(part), to: cut(part + 1) }));
    }),
  );
  return ranges.map((range, number) => ({ number, ...range }));
}

/** Combinations that one thread judges before workers would have started; far fewer where each needs solving. */
const SMALL = 2e7;
const SMALL_SOLVED = 2e5;

/** Whether one thread sweeps it before others would have started. */
export function isSmall(scenario: Scenario): boolean {
  const solved = scenario.setups.some((setup) => setup.bump.kind === 'load' || setup.loadStates.length > 0);
  return planOf(scenario).judged <= (solved ? SMALL_SOLVED : SMALL);
}

/** On this thread, letting signals in between chunks. */
async function sweepHere(scenario: Scenario, chunks: readonly Chunk[], board: Board): Promise<ChunkResult[]> {
  const results: ChunkResult[] = [];
  for (const chunk of chunks) {
    results.push(sweepChunk(scenario, { chunk, taker: 0 }, board));
    await new Promise((resolve) => setImmediate(resolve));
  }
  return results;
}

async function onThreads(scenario: Scenario, chunks: readonly Chunk[], board: Board, workers: number) {
  const { sweepOnThreads } = await import('./pool.ts');
  return sweepOnThreads(scenario, chunks, board, workers);
}

const TICK = 250;

/** Reports progress from the board now and then, and hands a stop on to it. */
function startTicking(board: Board, of: number, { onProgress, signal }: RunOptions): { end(): void } {
  const sum = (column: Float64Array) => column.reduce((a, b) => a + b, 0);
  const report = () => {
    const best = Math.max(...board.best);
    onProgress?.({ judged: sum(board.judged), of, workable: sum(board.workable), best: best > 0 ? best : null });
  };
  const stop = () => stopAll(board);
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

function joined(scenario: Scenario, setup: Setup, number: number, results: readonly ChunkResult[]): SetupOutcome {
  const [front, rear] = AXLE_NAMES.map((axle) => {
    const layout = layoutOf(scenario, setup, axle);
    const tallies = results.filter(({ chunk }) => chunk.setup === number && chunk.axle === axle).map((r) => r.tally);
    return axleOutcome(
      layout,
      mergedTally([emptyTally(layout.options.spring.length, layout.stacks.count), ...tallies]),
    );
  }) as [AxleOutcome, AxleOutcome];
  return { setup, axles: { front, rear }, pairs: pairUp(front, rear, setup, scenario.ranking) };
}

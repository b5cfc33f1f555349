/** Everything that crosses threads, as plain records. */
import type { AxleName, Scenario } from '../domain/scenario.ts';
import type { Tally } from './tally.ts';

/** Handed to every worker once. */
export interface WorkerSetup {
  readonly scenario: Scenario;
  readonly board: Board;
}

/** A range of heads of one axle in one setup. Several takers may share it: its heads are dealt to them one by one. */
export interface Chunk {
  readonly number: number;
  /** Position among the scenario's setups. */
  readonly setup: number;
  readonly axle: AxleName;
  readonly from: number;
  readonly to: number;
}

/** What one taker is handed. */
export interface Task {
  readonly chunk: Chunk;
  /** From 0. */
  readonly taker: number;
}

/** What one taker found in the heads it was dealt. */
export interface ChunkResult {
  readonly chunk: Chunk;
  readonly tally: Tally;
  /** Combinations judged; over all takers fewer than the chunk holds when the sweep was stopped. */
  readonly judged: number;
}

/**
 * Shared memory: a flag that stops every worker after its head, how many heads of each chunk are dealt, and what each
 * taker of a chunk has done so far. Each place of the latter has one writer, so plain reads and writes do.
 */
export interface Board {
  readonly stop: Int32Array;
  /** Per chunk. */
  readonly dealt: Int32Array;
  /** Takers that share each chunk. */
  readonly takers: number;
  /** Per chunk and taker, as the rest: `chunk.number * takers + taker`. */
  readonly judged: Float64Array;
  readonly workable: Float64Array;
  /** Best score of a corner, 0 to 1. */
  readonly best: Float64Array;
}

/** A worker thread died, most likely because memory ran out. */
export class WorkerLost extends Error {}

/** A lost worker where Node or piscina say that a thread ended without being asked to; errors of the sweep stay. */
export function lossOf(error: unknown): unknown {
  if (!(error instanceof Error)) return error;
  const outOfMemory = 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';
  return outOfMemory || /^worker exited with code/.test(error.message) ? new WorkerLost(error.message) : error;
}

export function newBoard(chunks: number, takers = 1): Board {
  const shared = (bytes: number) => new SharedArrayBuffer(Math.max(8, bytes));
  return {
    stop: new Int32Array(shared(4)),
    dealt: new Int32Array(shared(4 * chunks)),
    takers,
    judged: new Float64Array(shared(8 * chunks * takers)),
    workable: new Float64Array(shared(8 * chunks * takers)),
    best: new Float64Array(shared(8 * chunks * takers)),
  };
}

/** Place of the next head of a chunk that nobody has taken yet; beyond the last, all are dealt. */
export function deal(board: Board, { number }: Chunk): number {
  return Atomics.add(board.dealt, number, 1);
}

export function isStopped(board: Board): boolean {
  return Atomics.load(board.stop, 0) !== 0;
}

export function stopAll(board: Board): void {
  Atomics.store(board.stop, 0, 1);
}

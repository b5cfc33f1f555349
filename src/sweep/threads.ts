/** Everything that crosses threads, as plain records. */
import type { AxleName, Scenario } from '../domain/scenario.ts';
import type { Tally } from './tally.ts';

/** Handed to every worker once. */
export interface WorkerSetup {
  readonly scenario: Scenario;
  readonly board: Board;
}

/** A range of heads of one axle in one setup. */
export interface Chunk {
  readonly number: number;
  /** Position among the scenario's setups. */
  readonly setup: number;
  readonly axle: AxleName;
  readonly from: number;
  readonly to: number;
}

export interface ChunkResult {
  readonly chunk: Chunk;
  readonly tally: Tally;
  /** Combinations judged; fewer than the chunk holds when the sweep was stopped. */
  readonly judged: number;
}

/**
 * Shared memory: a flag that stops every worker after its head, and per chunk what it has done so far. Each place has
 * one writer, so plain reads and writes do.
 */
export interface Board {
  readonly stop: Int32Array;
  readonly judged: Float64Array;
  readonly workable: Float64Array;
  /** Best score of a corner, 0 to 1. */
  readonly best: Float64Array;
}

/** A worker thread died, most likely because memory ran out. */
export class WorkerLost extends Error {}

export function newBoard(chunks: number): Board {
  const shared = (bytes: number) => new SharedArrayBuffer(Math.max(8, bytes));
  return {
    stop: new Int32Array(shared(4)),
    judged: new Float64Array(shared(8 * chunks)),
    workable: new Float64Array(shared(8 * chunks)),
    best: new Float64Array(shared(8 * chunks)),
  };
}

export function isStopped(board: Board): boolean {
  return Atomics.load(board.stop, 0) !== 0;
}

export function stopAll(board: Board): void {
  Atomics.store(board.stop, 0, 1);
}

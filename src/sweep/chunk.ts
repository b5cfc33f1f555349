/** Part of a sweep, on whichever thread: what crosses threads, as plain records, and the sweep of one chunk. */
import { cornerScore } from '../model/corner/score.ts';
import type { AxleName, Scenario, Setup } from '../model/scenario.ts';
import type { Count } from '../model/units.ts';
import { sweepKernel } from './kernel.ts';
import { layoutOf } from './layout.ts';
import { bestLogScore, PASS, type Tally, totals } from './tally.ts';

/** Handed to every worker once. */
export interface WorkerSetup {
  readonly scenario: Scenario;
  readonly state: SharedState;
}

/** A range of assemblies of one axle in one setup. Several workers may share it, each taking its assemblies one by one. */
export interface Chunk {
  readonly number: Count;
  /** Position among the scenario's setups. */
  readonly setup: Count;
  readonly axle: AxleName;
  readonly from: Count;
  readonly to: Count;
}

/** What one worker is handed. */
export interface Task {
  readonly chunk: Chunk;
  /** From 0. */
  readonly worker: number;
}

/** What one worker found in the assemblies it took. */
export interface ChunkResult {
  readonly chunk: Chunk;
  readonly tally: Tally;
  /** Combinations judged; over all workers fewer than the chunk holds when the sweep was stopped. */
  readonly judged: number;
}

/**
 * Shared memory: a flag that stops every worker after its assembly, how many assemblies of each chunk are taken, and
 * what each worker of a chunk has done so far. Each place of the latter has one writer, so plain reads and writes do.
 */
export interface SharedState {
  readonly stop: Int32Array;
  /** Per chunk. */
  readonly taken: Int32Array;
  /** Workers that share each chunk. */
  readonly workers: number;
  /** Per chunk and worker, as the rest: `chunk.number * workers + worker`. */
  readonly judged: Float64Array;
  readonly workable: Float64Array;
  /** Best score of a corner, 0 to 1. */
  readonly best: Float64Array;
}

export function newSharedState(chunks: number, workers = 1): SharedState {
  // A page opened from a disk has no shared memory, and sweeps on one thread.
  const Memory = globalThis.SharedArrayBuffer ?? ArrayBuffer;
  const memory = (bytes: number) => new Memory(Math.max(8, bytes));
  return {
    stop: new Int32Array(memory(4)),
    taken: new Int32Array(memory(4 * chunks)),
    workers,
    judged: new Float64Array(memory(8 * chunks * workers)),
    workable: new Float64Array(memory(8 * chunks * workers)),
    best: new Float64Array(memory(8 * chunks * workers)),
  };
}

/** Takes the next assembly of a chunk and gives its place in the order; beyond the last, none is left. */
export function takeNext(state: SharedState, { number }: Chunk): number {
  return Atomics.add(state.taken, number, 1);
}

export function isStopped(state: SharedState): boolean {
  return Atomics.load(state.stop, 0) !== 0;
}

export function stopAll(state: SharedState): void {
  Atomics.store(state.stop, 0, 1);
}

/**
 * Sweeps the assemblies of a chunk that this worker takes, noting in the shared state how far it is and stopping after
 * the current assembly when the state says so. What the workers of a chunk find adds up to the same, whichever takes
 * what.
 */
export function sweepChunk(scenario: Scenario, { chunk, worker }: Task, state: SharedState): ChunkResult {
  const setup = scenario.setups[chunk.setup] as Setup;
  const layout = layoutOf(scenario, setup, chunk.axle);
  const place = chunk.number * state.workers + worker;
  let taken = -1;
  const { tally } = sweepKernel(layout, chunk.from, chunk.to, () => {
    taken++;
    state.judged[place] = taken * layout.assemblySize;
    return taken > 0 && isStopped(state) ? STOPPED : takeNext(state, chunk);
  });
  state.workable[place] = totals(tally)[PASS] as number;
  state.best[place] = cornerScore(layout.site, layout.ranking, bestLogScore(tally.classes));
  return { chunk, tally, judged: taken * layout.assemblySize };
}

/** Beyond every assembly. */
const STOPPED = Number.POSITIVE_INFINITY;

/** Worker threads: where one starts, how it is lost, and a sweep shared out among several. */

import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { Piscina } from 'piscina';
import type { Scenario } from '../model/scenario.ts';
import { type Chunk, type ChunkResult, isStopped, type SharedState, type Task } from './chunk.ts';

/** A worker thread died, most likely because memory ran out. */
export class WorkerLost extends Error {}

/** A lost worker where Node or piscina say that a thread ended without being asked to; errors of the sweep stay. */
export function lossOf(error: unknown): unknown {
  if (!(error instanceof Error)) return error;
  const outOfMemory = 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';
  return outOfMemory || /^worker exited with code/.test(error.message) ? new WorkerLost(error.message) : error;
}

/**
 * Compiled, a worker is JavaScript beside the file that starts it; from source it needs the loader that runs that file.
 * @param self URL of the file that starts the worker
 * @param name the worker's file beside it, without its ending
 */
export function workerFile(self: string, name: string): { filename: string; execArgv?: string[] } {
  const fromSource = self.endsWith('.ts');
  const filename = new URL(`./${name}.${fromSource ? 'ts' : 'js'}`, self).href;
  if (!fromSource) return { filename };
  // By its path: the folder a user works in may know no such package.
  return { filename, execArgv: ['--import', pathToFileURL(createRequire(self).resolve('tsx')).href] };
}

export interface Thread<Task, Done> {
  /**
   * @param name the export that does the work, if not the default one
   * @throws WorkerLost when the thread died, out of memory or killed
   */
  run(task: Task, name?: string): Promise<Done>;
  end(): Promise<void>;
}

/**
 * Starts the thread at once; it loads its file and waits for work.
 * @param self URL of the file beside which the thread's file lies
 * @param name the thread's file without its ending; its default export does the work
 */
export function startThread<Task, Done>(self: string, name: string): Thread<Task, Done> {
  // Without atomics: a thread that waits on them cannot go on loading what it will need.
  const pool = new Piscina({ ...workerFile(self, name), minThreads: 1, maxThreads: 1, atomics: 'disabled' });
  // A thread may also die while it has no work, and would be started again and again.
  const lost = new Promise<never>((_, reject) => pool.on('error', reject));
  lost.catch(() => undefined);
  return {
    async run(task, name = 'default') {
      try {
        return await Promise.race([pool.run(task, { name }), lost]);
      } catch (error) {
        throw lossOf(error);
      }
    },
    end: () => pool.destroy(),
  };
}

/** How long a stopped worker may take to end its assembly before it is ended, ms. */
const GRACE = 700;

/**
 * Sweeps all chunks on `workers` threads, each chunk by as many workers as the state has. Stopped by the state, it
 * gives what was finished by then.
 * @throws WorkerLost when a worker died, out of memory or killed
 */
export async function sweepOnThreads(
  scenario: Scenario,
  chunks: readonly Chunk[],
  state: SharedState,
  workers: number,
): Promise<ChunkResult[]> {
  const pool = new Piscina({
    ...workerFile(import.meta.url, 'worker'),
    minThreads: workers,
    maxThreads: workers,
    workerData: { scenario, state },
  });
  // A worker may also die between two chunks, when no chunk is there to be rejected.
  const lost = new Promise<never>((_, reject) => pool.on('error', reject));
  const finished: ChunkResult[] = [];
  const add = (result: ChunkResult) => finished.push(result);
  // Chunk by chunk, so that all threads are at the same one and end together.
  const tasks = chunks.flatMap((chunk) =>
    Array.from({ length: state.workers }, (_, worker): Task => ({ chunk, worker })),
  );
  const all = Promise.all(tasks.map(async (task) => isStopped(state) || add(await pool.run(task))));
  try {
    await Promise.race([all, lost, graceAfterStop(state)]);
    return finished;
  } catch (error) {
    throw lossOf(error);
  } finally {
    all.catch(() => undefined);
    lost.catch(() => undefined);
    await pool.destroy();
  }
}

/** Resolves a while after the state says stop; never before. */
function graceAfterStop(state: SharedState): Promise<void> {
  return new Promise((resolve) => {
    const watch = setInterval(() => {
      if (!isStopped(state)) return;
      clearInterval(watch);
      setTimeout(resolve, GRACE);
    }, 50);
    watch.unref();
  });
}

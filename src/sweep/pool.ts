/** Chunks swept on worker threads. */
import { Piscina } from 'piscina';
import type { Scenario } from '../domain/scenario.ts';
import { type Board, type Chunk, type ChunkResult, isStopped, type Task, WorkerLost } from './threads.ts';

/** How long a stopped worker may take to end its head before it is ended, ms. */
const GRACE = 700;

/**
 * Sweeps all chunks on `workers` threads, each chunk by as many takers as the board has. Stopped by the board, it gives what was finished by then.
 * @throws WorkerLost when a worker died, out of memory or killed
 */
export async function sweepOnThreads(
  scenario: Scenario,
  chunks: readonly Chunk[],
  board: Board,
  workers: number,
): Promise<ChunkResult[]> {
  const pool = new Piscina({
    ...workerFile(import.meta.url),
    minThreads: workers,
    maxThreads: workers,
    workerData: { scenario, board },
  });
  // A worker may also die between two chunks, when no chunk is there to be rejected.
  const lost = new Promise<never>((_, reject) => pool.on('error', reject));
  const finished: ChunkResult[] = [];
  const keep = (result: ChunkResult) => finished.push(result);
  // Chunk by chunk, so that all threads are at the same one and end together.
  const tasks = chunks.flatMap((chunk) => Array.from({ length: board.takers }, (_, taker): Task => ({ chunk, taker })));
  const all = Promise.all(tasks.map(async (task) => isStopped(board) || keep(await pool.run(task))));
  try {
    await Promise.race([all, lost, graceAfterStop(board)]);
    return finished;
  } catch (error) {
    throw lossOf(error);
  } finally {
    all.catch(() => undefined);
    lost.catch(() => undefined);
    await pool.destroy();
  }
}

/** A lost worker where Node or piscina say that a thread ended without being asked to; errors of the sweep stay. */
export function lossOf(error: unknown): unknown {
  if (!(error instanceof Error)) return error;
  const outOfMemory = 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';
  return outOfMemory || /^worker exited with code/.test(error.message) ? new WorkerLost(error.message) : error;
}

/** Compiled, the worker is JavaScript beside this file; from source it needs the loader that runs this file, too. */
export function workerFile(self: string): { filename: string; execArgv?: string[] } {
  const fromSource = self.endsWith('.ts');
  const filename = new URL(fromSource ? './worker.ts' : './worker.js', self).href;
  return fromSource ? { filename, execArgv: ['--import', 'tsx'] } : { filename };
}

/** Resolves a while after the board says stop; never before. */
function graceAfterStop(board: Board): Promise<void> {
  return new Promise((resolve) => {
    const watch = setInterval(() => {
      if (!isStopped(board)) return;
      clearInterval(watch);
      setTimeout(resolve, GRACE);
    }, 50);
    watch.unref();
  });
}

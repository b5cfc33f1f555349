/** Chunks swept on worker threads. */
import { Piscina } from 'piscina';
import type { Scenario } from '../domain/scenario.ts';
import { type Board, type Chunk, type ChunkResult, isStopped, lossOf, type Task } from './threads.ts';
import { workerFile } from './workerFile.ts';

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
    ...workerFile(import.meta.url, 'worker'),
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

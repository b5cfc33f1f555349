/** Chunks swept on worker threads. */
import { Piscina } from 'piscina';
import type { Scenario } from '../domain/scenario.ts';
import { type Board, type Chunk, type ChunkResult, isStopped } from './threads.ts';

/** How long a stopped worker may take to end its head before it is ended, ms. */
const GRACE = 700;

/**
 * Sweeps all chunks on `workers` threads. Stopped by the board, it gives what was finished by then.
 * @throws the error of a worker that died
 */
export async function sweepOnThreads(
  scenario: Scenario,
  chunks: readonly Chunk[],
  board: Board,
  workers: number,
): Promise<ChunkResult[]> {
  const pool = new Piscina({
    ...workerFile(),
    minThreads: workers,
    maxThreads: workers,
    workerData: { scenario, board },
  });
  const finished: ChunkResult[] = [];
  const keep = (result: ChunkResult) => finished.push(result);
  const all = Promise.all(chunks.map(async (chunk) => isStopped(board) || keep(await pool.run(chunk))));
  try {
    await Promise.race([all, graceAfterStop(board)]);
    return finished;
  } finally {
    all.catch(() => undefined);
    await pool.destroy();
  }
}

/** Compiled, the worker is JavaScript beside this file; from source it needs the loader that runs this file, too. */
function workerFile(): { filename: string; execArgv?: string[] } {
  const fromSource = import.meta.url.endsWith('.ts');
  const filename = new URL(fromSource ? './worker.ts' : './worker.js', import.meta.url).href;
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

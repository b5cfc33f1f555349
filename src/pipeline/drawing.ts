/**
 * Drawing on a thread of its own, which loads the charts' libraries while this thread still works out what to draw, and
 * draws the report while this one makes the tables beside it.
 * The pages are the same, byte for byte, as those drawn here.
 */

import { availableParallelism } from 'node:os';
import type { Result } from '../result/result.ts';
import { startThread, type Thread } from '../sweep/threads.ts';
import type { Pages } from './pages.ts';

export type { Pages };

export interface DrawingThread {
  /** Starts the thread, unless it runs already. */
  getReady(): void;
  /** Lets the thread, where there is one, draw the charts of what is known so far. */
  sketch(result: Result): void;
  /**
   * On the thread where it was started, else here.
   * @throws WorkerLost when the thread died, out of memory or killed
   */
  draw(result: Result): Promise<Pages>;
  /** Ends the thread, whatever it does. */
  close(): Promise<void>;
}

/** @param cores a thread of its own is worth its start only where two run at once */
export function newDrawingThread(cores = availableParallelism()): DrawingThread {
  if (cores < 2) return { getReady() {}, sketch() {}, draw, async close() {} };
  let thread: Thread<Result, string> | null = null;
  return {
    getReady() {
      thread ??= startThread(import.meta.url, 'drawingWorker');
    },
    sketch(result) {
      // What goes wrong is told by the drawing that meets it.
      thread?.run(result, 'sketch').catch(() => undefined);
    },
    draw: (result) => (thread === null ? draw(result) : drawBoth(result, thread)),
    async close() {
      const leaving = thread;
      thread = null;
      await leaving?.end();
    },
  };
}

async function drawBoth(result: Result, thread: Thread<Result, string>): Promise<Pages> {
  const makeTables = async () => (await import('./tables.ts')).tablesOf(result);
  const [report, tables] = await Promise.all([thread.run(result), makeTables()]);
  return { 'report.html': report, ...tables };
}

// Drawing on this thread, which loads what it takes only now.

export const PAGE_NAMES: readonly (keyof Pages)[] = [
  'report.html',
  'shortlist.csv',
  'plans.csv',
  'results.json',
  'purchase.md',
];

/** Draws a result. Writes nothing. */
export async function draw(result: Result): Promise<Pages> {
  const { pagesOf } = await import('./pages.ts');
  return pagesOf(result);
}

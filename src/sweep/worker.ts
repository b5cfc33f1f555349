/** A worker thread: given the scenario once, takes its part in the chunks it is handed. */
import { workerData } from 'node:worker_threads';
import { sweepChunk } from './chunk.ts';
import type { ChunkResult, Task, WorkerSetup } from './threads.ts';

const { scenario, board } = workerData as WorkerSetup;

export default function work(task: Task): ChunkResult {
  return sweepChunk(scenario, task, board);
}

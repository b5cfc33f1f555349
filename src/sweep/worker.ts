/** A worker thread: given the scenario once, takes its part in the chunks it is handed. */

import { workerData } from 'node:worker_threads';
import { type ChunkResult, sweepChunk, type Task, type WorkerSetup } from './chunk.ts';

const { scenario, state } = workerData as WorkerSetup;

export default function work(task: Task): ChunkResult {
  return sweepChunk(scenario, task, state);
}

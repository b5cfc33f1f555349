/** A worker thread: given the scenario once, sweeps the chunks it is handed. */
import { workerData } from 'node:worker_threads';
import { sweepChunk } from './chunk.ts';
import type { Chunk, ChunkResult, WorkerSetup } from './threads.ts';

const { scenario, board } = workerData as WorkerSetup;

export default function work(chunk: Chunk): ChunkResult {
  return sweepChunk(scenario, chunk, board);
}

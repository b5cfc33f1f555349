/** Fuzzing in a process that is ended, and its mutant named, when one input takes far too long. */

import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { LONGEST } from './judge.ts';
import type { Batch, BatchOutcome, Counts } from './run.ts';

const BATCH = 1_000;
/** Processes at work at the same time. */
const LANES = 2;
/** A process that has not begun a new mutant for this long hangs, ms; a pause of the whole machine is no hang. */
const HANGS = 12 * LONGEST;
const WORKER = fileURLToPath(new URL('./worker.ts', import.meta.url));
const NOTHING: Counts = { refused: 0, clean: 0, swept: 0 };

export interface FuzzOutcome {
  readonly counts: Counts;
  readonly slowest: number;
  readonly failures: readonly string[];
}

export interface Fuzzing {
  readonly runs: number;
  readonly seed: number;
  readonly sweepEach: number;
  readonly onBatch?: (done: number, so: FuzzOutcome) => void;
}

type Message = { readonly begun: number } | { readonly outcome: BatchOutcome };

export async function fuzz({ runs, seed, sweepEach, onBatch }: Fuzzing): Promise<FuzzOutcome> {
  const counts: Counts = { ...NOTHING };
  const failures: string[] = [];
  let slowest = 0;
  let begun = 0;
  let done = 0;
  const lane = async () => {
    let worker = start();
    while (begun < runs) {
      const batch = { seed: seed + begun / BATCH, runs: Math.min(BATCH, runs - begun), sweepEach };
      begun += batch.runs;
      const outcome = await run(worker, batch);
      for (const verdict of ['refused', 'clean', 'swept'] as const) counts[verdict] += outcome.counts[verdict];
      slowest = Math.max(slowest, outcome.slowest);
      if (outcome.failure !== null) failures.push(outcome.failure);
      done += batch.runs;
      onBatch?.(done, { counts, slowest, failures });
      if (worker.exitCode !== null || worker.killed) worker = start();
    }
    worker.kill();
  };
  await Promise.all(Array.from({ length: LANES }, lane));
  return { counts, slowest, failures };
}

function start(): ChildProcess {
  return fork(WORKER, {
    execArgv: ['--import', import.meta.resolve('tsx')],
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
}

/** One batch; a process that hangs is killed, and one that died or was killed says where. */
function run(worker: ChildProcess, batch: Batch): Promise<BatchOutcome> {
  return new Promise((resolve) => {
    let last = { number: 0, at: Date.now() };
    const watch = setInterval(() => {
      if (Date.now() - last.at > HANGS) worker.kill('SIGKILL');
    }, 1_000);
    const settle = (outcome: BatchOutcome) => {
      clearInterval(watch);
      worker.off('message', onMessage).off('exit', onExit);
      resolve(outcome);
    };
    const onMessage = (message: unknown) => {
      const said = message as Message;
      if ('outcome' in said) settle(said.outcome);
      else last = { number: said.begun, at: Date.now() };
    };
    const onExit = () => {
      const failure = `seed ${batch.seed}: hung or died at mutant ${last.number} of the batch`;
      settle({ counts: NOTHING, slowest: Date.now() - last.at, failure });
    };
    worker.on('message', onMessage).on('exit', onExit);
    worker.send(batch);
  });
}

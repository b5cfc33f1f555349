/** `sweep SCENARIO... [--out DIR]`: the whole path, from the files to a report each, and one page over all of them. */

import { join } from 'node:path';
import type { Step } from '../../model/steps.ts';
import { type DrawingThread, PAGE_NAMES } from '../../pipeline/drawing.ts';
import { compare, hasAnswer, SweepStopped, sift } from '../../pipeline.ts';
import { sweepSummary } from '../../report/files/summary.ts';
import type { RankBy } from '../../result/advice.ts';
import type { Result } from '../../result/result.ts';
import { limitFault } from '../../sweep/limits.ts';
import { isSmall, type Progress } from '../../sweep/sweep.ts';
import { WorkerLost } from '../../sweep/threads.ts';
import { badInput, EXIT, type ExitCode, failure, KnownError } from '../terminal/exit.ts';
import { prepareFolder, writeAndSay } from '../terminal/files.ts';
import { watchInterrupts } from '../terminal/interrupt.ts';
import * as say from '../terminal/messages.ts';
import { defaultFolder, guardSize, nameOf } from '../terminal/places.ts';
import { toolVersion } from '../terminal/version.ts';
import { BENCH_PAGE, refuseTooManyOnBench, sweepBench } from './bench.ts';
import { type Loaded, type LoadedBench, loadAnyLevel } from './load.ts';

export interface SweepOptions {
  readonly out?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly workers?: number;
  readonly keepPartial?: boolean;
  readonly rankBy?: RankBy;
  /** Combinations from which on a sweep is refused. */
  readonly limit?: number;
  readonly allowOutside?: boolean;
}

const COMPARISON = 'comparison.html';

interface Job {
  readonly name: string;
  readonly folder: string;
  readonly checked: Loaded;
}

interface BenchJob extends Omit<Job, 'checked'> {
  readonly checked: LoadedBench;
}

interface Done {
  readonly name: string;
  readonly result: Result;
  readonly stopped: ExitCode | null;
}

/** Everything is read and every folder tried before the first sweep starts; all are drawn on the same thread. */
export async function sweep(
  paths: readonly string[],
  options: SweepOptions,
  drawings: DrawingThread,
): Promise<ExitCode> {
  const { force = false } = options;
  const all = await jobsOf(paths, options);
  const jobs = all.filter((job): job is Job => job.checked.level === 'car');
  const benches = all.filter((job): job is BenchJob => job.checked.level === 'bench');
  const above = jobs.length > 1 ? (options.out ?? 'out') : null;
  for (const { folder } of jobs) await prepareFolder(folder, PAGE_NAMES, force, true);
  if (above !== null) await prepareFolder(above, [COMPARISON], force, true);
  for (const { folder } of benches) await prepareFolder(folder, [BENCH_PAGE], force, true);
  const fitted: ExitCode[] = [];
  for (const { folder, checked } of benches) fitted.push(await sweepBench(folder, checked, force));
  const done: Done[] = [];
  for (const job of jobs) {
    done.push(await runJob(job, options, drawings));
    // A stop is meant for all of them.
    if (done.at(-1)?.result.incomplete) break;
  }
  if (above !== null) await writeAndSay(above, { [COMPARISON]: await compare(done) }, force);
  const stopped = done.find(({ result }) => result.incomplete);
  if (stopped) return stopped.stopped ?? EXIT.interrupted;
  const isAnswered = done.every(({ result }) => hasAnswer(result)) && fitted.every((code) => code === EXIT.ok);
  return isAnswered ? EXIT.ok : EXIT.nothingWorkable;
}

async function jobsOf(paths: readonly string[], options: SweepOptions): Promise<(Job | BenchJob)[]> {
  const { out, limit } = options;
  const jobs: (Job | BenchJob)[] = [];
  for (const path of paths) {
    const name = nameOf(path);
    const folder = paths.length === 1 ? (out ?? defaultFolder(path)) : join(out ?? 'out', name);
    if (jobs.some((job) => job.folder === folder)) throw badInput(say.sameFolder(folder));
    jobs.push({ name, folder, checked: await loadAnyLevel(path, options) } as Job | BenchJob);
  }
  for (const { name, checked } of jobs) {
    if (checked.level === 'car') refuseTooMuch(name, checked, limit);
    else refuseTooManyOnBench(checked);
  }
  return jobs;
}

/** @throws KnownError when the scenario holds more than a sweep takes on */
export function refuseTooMuch(name: string, { scenario }: Pick<Loaded, 'scenario'>, limit?: number): void {
  const fault = limitFault(scenario, limit);
  if (fault !== null) throw badInput(say.tooMuch(name, fault));
}

async function runJob({ name, folder, checked }: Job, options: SweepOptions, drawings: DrawingThread): Promise<Done> {
  const { rankBy = 'nominal', keepPartial = false, force = false } = options;
  const choices = { rankBy, keepPartial, onFound: drawings.sketch };
  // A large sweep wants the memory and the core; what the thread saves would not be noticed.
  if (isSmall(checked.scenario)) drawings.getReady();
  else await drawings.close();
  const { value: result, stopped } = await watched(name, options, (run) => sift(checked, toolVersion(), run, choices));
  const pages = await drawings.draw(result).catch(rethrow);
  guardSize(pages, force);
  await writeAndSay(folder, { ...pages }, force, (paths) => `${sweepSummary(result)}${say.wrote(paths)}`);
  return { name, result, stopped };
}

/** @throws KnownError for a lost thread; other errors stay as they are */
function rethrow(error: unknown): never {
  throw error instanceof WorkerLost ? failure(say.workerLost(error.message)) : error;
}

export interface Watched<T> {
  readonly value: T;
  /** The exit code of what stopped the sweep; null when nothing did. */
  readonly stopped: ExitCode | null;
}

/** Runs a sweep with its progress shown and Ctrl-C caught. */
export async function watched<T>(
  name: string,
  { quiet, workers }: Pick<SweepOptions, 'quiet' | 'workers'>,
  work: (run: Parameters<typeof sift>[2] & object) => Promise<T>,
  allowPartial = true,
): Promise<Watched<T>> {
  const line = progressLine(name);
  const interrupt = watchInterrupts();
  try {
    const value = await work({
      workers: workers ?? null,
      onProgress: quiet ? null : line.update,
      onStep: quiet ? null : line.step,
      signal: interrupt.signal,
      onSwept: interrupt.release,
    });
    return { value, stopped: interrupt.code() };
  } catch (error) {
    if (error instanceof SweepStopped) {
      throw new KnownError(say.stopped(error.judged, error.of, allowPartial), interrupt.code() ?? EXIT.interrupted);
    }
    return rethrow(error);
  } finally {
    interrupt.release();
    if (!quiet) line.end();
  }
}

// Progress on stderr: one line kept up to date on a terminal, a plain line now and then elsewhere.

const PLAIN_EVERY = 5_000;
const TERMINAL_EVERY = 100;

export interface ProgressLine {
  readonly update: (progress: Progress) => void;
  /** The same for what is worked out after the sweep. */
  readonly step: (step: Step) => void;
  /** Takes the line off the terminal. */
  end(): void;
}

export function progressLine(name: string): ProgressLine {
  const { stderr } = process;
  const start = Date.now();
  let lastShown = stderr.isTTY ? 0 : start;
  let phase = { what: '', start };
  const show = (text: (now: number) => string) => {
    const now = Date.now();
    if (now - lastShown < (stderr.isTTY ? TERMINAL_EVERY : PLAIN_EVERY)) return;
    lastShown = now;
    stderr.write(stderr.isTTY ? `\r\u001b[K${text(now).slice(0, (stderr.columns || 80) - 1)}` : `${text(now)}\n`);
  };
  return {
    update: (progress) => show((now) => say.progress(name, progress, (now - start) / 1000)),
    step(step) {
      if (step.what !== phase.what) phase = { what: step.what, start: Date.now() };
      show((now) => say.step(name, step, (now - phase.start) / 1000));
    },
    end() {
      if (stderr.isTTY) stderr.write('\r\u001b[K');
    },
  };
}

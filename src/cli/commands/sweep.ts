/** `sweep SCENARIO... [--out DIR]`: the whole path, from the files to a report each, and one page over all of them. */
import { join } from 'node:path';
import type { RankBy } from '../../domain/advice/types.ts';
import type { Result } from '../../domain/result.ts';
import { PAGE_NAMES, type Pages } from '../../pipeline/drawing.ts';
import type { Easel } from '../../pipeline/easel.ts';
import { compare, hasAnswer, SweepStopped, sift } from '../../pipeline.ts';
import { sweepSummary } from '../../report/summary.ts';
import { limitFault } from '../../sweep/limits.ts';
import { isSmall } from '../../sweep/sweep.ts';
import { WorkerLost } from '../../sweep/threads.ts';
import { badInput, EXIT, type ExitCode, failure, KnownError } from '../exit.ts';
import { prepareFolder, writeFiles } from '../files.ts';
import { watchInterrupts } from '../interrupt.ts';
import * as say from '../messages.ts';
import { defaultFolder, nameOf } from '../places.ts';
import { progressLine } from '../progress.ts';
import { guardSize } from '../size.ts';
import { toolVersion } from '../version.ts';
import { type Loaded, load } from './load.ts';

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

interface Done {
  readonly name: string;
  readonly result: Result;
  readonly stopped: ExitCode | null;
}

/** Everything is read and every folder tried before the first sweep starts; all are drawn on the same easel. */
export async function sweep(paths: readonly string[], options: SweepOptions, easel: Easel): Promise<ExitCode> {
  const jobs = await jobsOf(paths, options);
  const above = paths.length > 1 ? (options.out ?? 'out') : null;
  for (const { folder } of jobs) await prepareFolder(folder, PAGE_NAMES, options.force ?? false);
  if (above !== null) await prepareFolder(above, [COMPARISON], options.force ?? false);
  const done: Done[] = [];
  for (const job of jobs) {
    done.push(await runJob(job, options, easel));
    // A stop is meant for all of them.
    if (done.at(-1)?.result.incomplete) break;
  }
  if (above !== null) {
    const [written] = await writeFiles(above, { [COMPARISON]: await compare(done) });
    process.stdout.write(`${say.wrote([written ?? ''])}\n`);
  }
  const stopped = done.find(({ result }) => result.incomplete);
  if (stopped) return stopped.stopped ?? EXIT.interrupted;
  return done.every(({ result }) => hasAnswer(result)) ? EXIT.ok : EXIT.nothingWorkable;
}

async function jobsOf(paths: readonly string[], options: SweepOptions): Promise<Job[]> {
  const { out, limit } = options;
  const jobs: Job[] = [];
  for (const path of paths) {
    const name = nameOf(path);
    const folder = paths.length === 1 ? (out ?? defaultFolder(path)) : join(out ?? 'out', name);
    if (jobs.some((job) => job.folder === folder)) throw badInput(say.sameFolder(folder));
    jobs.push({ name, folder, checked: await load(path, options) });
  }
  for (const { name, checked } of jobs) refuseTooMuch(name, checked, limit);
  return jobs;
}

/** @throws KnownError when the scenario holds more than a sweep takes on */
export function refuseTooMuch(name: string, { scenario }: Loaded, limit?: number): void {
  const fault = limitFault(scenario, limit);
  if (fault !== null) throw badInput(say.tooMuch(name, fault));
}

async function runJob({ name, folder, checked }: Job, options: SweepOptions, easel: Easel): Promise<Done> {
  const { rankBy = 'nominal', keepPartial = false } = options;
  const wishes = { rankBy, keepPartial, onFound: easel.sketch };
  // A large sweep wants the memory and the core; what the thread saves would not be noticed.
  if (isSmall(checked.scenario)) easel.getReady();
  else await easel.close();
  const { value: result, stopped } = await watched(name, options, (run) => sift(checked, toolVersion(), run, wishes));
  const pages = await drawnOn(easel, result);
  guardSize(pages, options.force ?? false);
  const written = await writeFiles(folder, { ...pages });
  process.stdout.write(`${sweepSummary(result)}${say.wrote(written)}\n`);
  return { name, result, stopped };
}

/** @throws KnownError when the thread that draws is lost */
async function drawnOn(easel: Easel, result: Result): Promise<Pages> {
  try {
    return await easel.draw(result);
  } catch (error) {
    throw knownLoss(error);
  }
}

/** A lost thread as the user is told of it; other errors stay as they are. */
function knownLoss(error: unknown): unknown {
  return error instanceof WorkerLost ? failure(say.workerLost(error.message)) : error;
}

export interface Watched<T> {
  readonly value: T;
  /** The exit code of what stopped the sweep; null when nothing did. */
  readonly stopped: ExitCode | null;
}

/** Runs a sweep with progress and Ctrl-C looked after. */
export async function watched<T>(
  name: string,
  { quiet, workers }: Pick<SweepOptions, 'quiet' | 'workers'>,
  work: (run: Parameters<typeof sift>[2] & object) => Promise<T>,
  canKeep = true,
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
      throw new KnownError(say.stopped(error.judged, error.of, canKeep), interrupt.code() ?? EXIT.interrupted);
    }
    throw knownLoss(error);
  } finally {
    interrupt.release();
    if (!quiet) line.end();
  }
}

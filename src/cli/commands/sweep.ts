/** `sweep SCENARIO... [--out DIR]`: the whole path, from the files to a report each, and one page over all of them. */
import { join } from 'node:path';
import type { RankBy } from '../../domain/advice/types.ts';
import type { Result } from '../../domain/result.ts';
import { compare, draw, hasAnswer, type Pages, SweepStopped, sift } from '../../pipeline.ts';
import { sweepSummary } from '../../report/summary.ts';
import { badInput, EXIT, type ExitCode, KnownError } from '../exit.ts';
import { prepareFolder, writeFiles } from '../files.ts';
import { watchInterrupts } from '../interrupt.ts';
import * as say from '../messages.ts';
import { defaultFolder, nameOf } from '../places.ts';
import { progressLine } from '../progress.ts';
import { toolVersion } from '../version.ts';
import { type Loaded, load } from './load.ts';

export interface SweepOptions {
  readonly out?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly workers?: number;
  readonly keepPartial?: boolean;
  readonly rankBy?: RankBy;
}

const FILES: readonly (keyof Pages)[] = ['report.html', 'shortlist.csv', 'plans.csv', 'results.json', 'purchase.md'];
const COMPARISON = 'comparison.html';

interface Job {
  readonly name: string;
  readonly folder: string;
  readonly checked: Loaded;
}

/** Everything is read and every folder tried before the first sweep starts. */
export async function sweep(paths: readonly string[], options: SweepOptions): Promise<ExitCode> {
  const jobs = await jobsOf(paths, options);
  const above = paths.length > 1 ? (options.out ?? 'out') : null;
  for (const { folder } of jobs) await prepareFolder(folder, FILES, options.force ?? false);
  if (above !== null) await prepareFolder(above, [COMPARISON], options.force ?? false);
  const done: { readonly name: string; readonly result: Result }[] = [];
  for (const job of jobs) done.push({ name: job.name, result: await runJob(job, options) });
  if (above !== null) {
    const [written] = await writeFiles(above, { [COMPARISON]: await compare(done) });
    process.stdout.write(`${say.wrote([written ?? ''])}\n`);
  }
  if (done.some(({ result }) => result.incomplete)) return EXIT.interrupted;
  return done.every(({ result }) => hasAnswer(result)) ? EXIT.ok : EXIT.nothingWorkable;
}

async function jobsOf(paths: readonly string[], { out }: SweepOptions): Promise<Job[]> {
  const jobs: Job[] = [];
  for (const path of paths) {
    const name = nameOf(path);
    const folder = paths.length === 1 ? (out ?? defaultFolder(path)) : join(out ?? 'out', name);
    if (jobs.some((job) => job.folder === folder)) throw badInput(say.sameFolder(folder));
    jobs.push({ name, folder, checked: await load(path) });
  }
  return jobs;
}

async function runJob({ name, folder, checked }: Job, options: SweepOptions): Promise<Result> {
  const { rankBy = 'nominal', keepPartial = false } = options;
  const result = await watched(name, options, (run) => sift(checked, toolVersion(), run, { rankBy, keepPartial }));
  const written = await writeFiles(folder, { ...(await draw(result)) });
  process.stdout.write(`${sweepSummary(result)}${say.wrote(written)}\n`);
  return result;
}

/** Runs a sweep with progress and Ctrl-C looked after. */
export async function watched<T>(
  name: string,
  { quiet, workers }: Pick<SweepOptions, 'quiet' | 'workers'>,
  work: (run: Parameters<typeof sift>[2] & object) => Promise<T>,
  canKeep = true,
): Promise<T> {
  const line = progressLine(name);
  const interrupt = watchInterrupts();
  try {
    return await work({
      workers: workers ?? null,
      onProgress: quiet ? null : line.update,
      signal: interrupt.signal,
    });
  } catch (error) {
    if (error instanceof SweepStopped) {
      throw new KnownError(say.stopped(error.judged, error.of, canKeep), EXIT.interrupted);
    }
    throw error;
  } finally {
    interrupt.release();
    if (!quiet) line.end();
  }
}

/** `sweep SCENARIO [--out DIR]`: the whole path, from the file to the three files of a report. */
import { basename, dirname, join, resolve } from 'node:path';
import { draw, hasAnswer, sift } from '../../pipeline.ts';
import { sweepSummary } from '../../report/summary.ts';
import { EXIT, type ExitCode } from '../exit.ts';
import { prepareFolder, writeFiles } from '../files.ts';
import * as say from '../messages.ts';
import { toolVersion } from '../version.ts';
import { load } from './load.ts';

export interface SweepOptions {
  readonly out?: string;
  readonly force?: boolean;
}

const FILES = ['report.html', 'shortlist.csv', 'results.json'];

export async function sweep(path: string, options: SweepOptions): Promise<ExitCode> {
  const { scenario, files } = await load(path);
  const folder = options.out ?? defaultFolder(path);
  await prepareFolder(folder, FILES, options.force ?? false);
  const result = sift(scenario, files, toolVersion());
  const written = await writeFiles(folder, { ...(await draw(result)) });
  process.stdout.write(`${sweepSummary(result)}${say.wrote(written)}\n`);
  return hasAnswer(result) ? EXIT.ok : EXIT.nothingWorkable;
}

/** `out/NAME` here, NAME being the scenario's own name or that of its folder. */
function defaultFolder(path: string): string {
  const stem = basename(path).replace(/\.ya?ml$/i, '');
  return join('out', stem === 'scenario' ? basename(dirname(resolve(path))) : stem);
}

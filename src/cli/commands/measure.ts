/** `measure [SCENARIO]`: a sheet to print, of everything there is to measure and how. */
import { join } from 'node:path';
import type { MeasureSheet } from '../../domain/measuring.ts';
import { blankSheet, drawMeasure, measureSheetOf } from '../../pipeline/measure.ts';
import { EXIT, type ExitCode } from '../exit.ts';
import { prepareFolder, writeFiles } from '../files.ts';
import * as say from '../messages.ts';
import { defaultFolder, nameOf } from '../places.ts';
import { toolVersion } from '../version.ts';
import { type Loaded, load } from './load.ts';
import { type SweepOptions, watched } from './sweep.ts';

export type MeasureOptions = Pick<SweepOptions, 'out' | 'force' | 'quiet' | 'workers' | 'allowOutside'>;

const PAGE = 'measure.html';

export async function measure(path: string | undefined, options: MeasureOptions): Promise<ExitCode> {
  const { out, force = false } = options;
  const folder = out ?? (path === undefined ? join('out', 'measure') : defaultFolder(path));
  const read = path === undefined ? null : await load(path, options);
  await prepareFolder(folder, [PAGE], force);
  const sheet = read === null || path === undefined ? blankSheet(toolVersion()) : await sheetOf(path, read, options);
  const written = await writeFiles(folder, { [PAGE]: await drawMeasure(sheet) });
  process.stdout.write(`${say.wrote(written)}\n`);
  return EXIT.ok;
}

async function sheetOf(path: string, read: Loaded, options: MeasureOptions): Promise<MeasureSheet> {
  const { value } = await watched(nameOf(path), options, (run) => measureSheetOf(read, toolVersion(), run), false);
  return value;
}

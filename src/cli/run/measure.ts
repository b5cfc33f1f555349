/** `measure [SCENARIO]`: a sheet to print, of everything there is to measure and how. */

import { join } from 'node:path';
import type { MeasureSheet } from '../../measure/measurable.ts';
import { blankSheet, drawMeasure, measureSheetOf } from '../../measure/measure.ts';
import { EXIT, type ExitCode } from '../terminal/exit.ts';
import { prepareFolder, writeAndSay } from '../terminal/files.ts';
import { defaultFolder, nameOf } from '../terminal/places.ts';
import { toolVersion } from '../terminal/version.ts';
import { type Loaded, load } from './load.ts';
import { refuseTooMuch, type SweepOptions, watched } from './sweep.ts';

export type MeasureOptions = Pick<SweepOptions, 'out' | 'force' | 'quiet' | 'workers' | 'limit' | 'allowOutside'>;

const PAGE = 'measure.html';

export async function measure(path: string | undefined, options: MeasureOptions): Promise<ExitCode> {
  const { out, force = false } = options;
  const folder = out ?? (path === undefined ? join('out', 'measure') : defaultFolder(path));
  const read = path === undefined ? null : await load(path, options);
  if (path !== undefined && read !== null) refuseTooMuch(nameOf(path), read, options.limit);
  await prepareFolder(folder, [PAGE], force, true);
  const sheet =
    read === null || path === undefined ? blankSheet(toolVersion()) : await measureLoaded(path, read, options);
  await writeAndSay(folder, { [PAGE]: await drawMeasure(sheet) }, force);
  return EXIT.ok;
}

async function measureLoaded(path: string, read: Loaded, options: MeasureOptions): Promise<MeasureSheet> {
  return (await watched(nameOf(path), options, (run) => measureSheetOf(read, toolVersion(), run), false)).value;
}

/** `compare BEFORE.html AFTER.html`: one page of what changed from one report to the other. */

import { join } from 'node:path';
import { changesBetween } from '../../pipeline.ts';
import { EXIT, type ExitCode } from '../terminal/exit.ts';
import { prepareFolder, writeAndSay } from '../terminal/files.ts';
import { guardSize } from '../terminal/places.ts';
import { resultIn } from '../terminal/reading.ts';

const PAGE = 'changes.html';

export interface CompareOptions {
  readonly out?: string;
  readonly force?: boolean;
}

export async function compareReports(before: string, after: string, options: CompareOptions): Promise<ExitCode> {
  const { out: folder = join('out', 'changes'), force = false } = options;
  const reports = [
    { path: before, result: await resultIn(before) },
    { path: after, result: await resultIn(after) },
  ] as const;
  await prepareFolder(folder, [PAGE], force);
  const files = { [PAGE]: await changesBetween(...reports) };
  guardSize(files, force);
  await writeAndSay(folder, files, force);
  return EXIT.ok;
}

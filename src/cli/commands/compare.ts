/** `compare BEFORE.html AFTER.html`: one page of what changed from one report to the other. */
import { join } from 'node:path';
import { changesBetween } from '../../pipeline.ts';
import { EXIT, type ExitCode } from '../exit.ts';
import { prepareFolder, writeFiles } from '../files.ts';
import { wrote } from '../messages.ts';
import { resultIn } from '../reading.ts';
import { guardSize } from '../size.ts';

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
  process.stdout.write(`${wrote(await writeFiles(folder, files))}\n`);
  return EXIT.ok;
}

/** `reopen REPORT.html`: what an earlier report carries, written out again or swept again. */

import { posix } from 'node:path';
import { formatProblem } from '../../input/readScenario.ts';
import { draw } from '../../pipeline/drawing.ts';
import { siftAgain } from '../../pipeline.ts';
import { sweepSummary } from '../../report/files/summary.ts';
import type { InputFile, Result } from '../../result/result.ts';
import { badInput, EXIT, type ExitCode, tell } from '../terminal/exit.ts';
import { prepareFolder, writeAndSay } from '../terminal/files.ts';
import { tooMuch } from '../terminal/messages.ts';
import { guardSize, type Take } from '../terminal/places.ts';
import { resultIn } from '../terminal/reading.ts';
import * as say from '../terminal/reopenMessages.ts';
import { toolVersion } from '../terminal/version.ts';
import { watched } from './sweep.ts';

export interface ReopenOptions {
  readonly out?: string;
  readonly take?: readonly Take[];
  readonly again?: boolean;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly workers?: number;
  /** Combinations from which on the inputs are not swept again. */
  readonly limit?: number;
}

const OWN_FILES = {
  page: ['report.html'],
  csv: ['shortlist.csv', 'plans.csv'],
  json: ['results.json'],
  markdown: ['purchase.md'],
} as const;
/** Without `--take`: what a sweep writes. */
const AS_A_SWEEP: readonly Take[] = ['page', 'csv', 'json', 'markdown'];

export async function reopenReport(path: string, options: ReopenOptions): Promise<ExitCode> {
  const { out, take, again = false } = options;
  if (take !== undefined && out === undefined) throw badInput(say.takeNeedsOut());
  const result = await resultIn(path);
  tell(say.opened(result, toolVersion()));
  if (out === undefined && !again) tell(`\n${sweepSummary(result)}`.trimEnd());
  if (out !== undefined) await writeOut(path, result, out, options);
  return again ? sweepAgain(result, options) : EXIT.ok;
}

async function writeOut(path: string, result: Result, folder: string, options: ReopenOptions): Promise<void> {
  const { take = AS_A_SWEEP, force = false } = options;
  const inputs = take.includes('inputs') ? inputsOf(path, result) : {};
  const names = take.flatMap((one) => (one === 'inputs' ? [] : OWN_FILES[one]));
  await prepareFolder(folder, [...names, ...Object.keys(inputs)], force);
  const pages = names.length > 0 ? await draw(result) : null;
  const files = { ...(pages ? Object.fromEntries(names.map((name) => [name, pages[name]])) : {}), ...inputs };
  guardSize(files, force);
  await writeAndSay(folder, files, force);
}

function inputsOf(path: string, { inputs }: Result): Readonly<Record<string, string>> {
  const found = inputFiles(inputs);
  if ('unsafe' in found) throw badInput(say.unsafePath(path, found.unsafe));
  return found.files;
}

async function sweepAgain(result: Result, options: ReopenOptions): Promise<ExitCode> {
  if (result.incomplete) throw badInput(say.stoppedReport(result.incomplete));
  const now = toolVersion();
  const { value: again } = await watched(
    result.scenario.name,
    options,
    (run) => siftAgain(result, now, run, options.limit),
    false,
  );
  if ('tooMuch' in again) throw badInput(tooMuch(result.scenario.name, again.tooMuch));
  if (!again.ok) {
    throw badInput([...again.problems.map(formatProblem), say.inputsNoLongerRead(again.problems.length)].join('\n'));
  }
  if (result.tool.version !== now) tell(say.otherTool(result.tool.version, now));
  const { differences } = again;
  tell(differences.length === 0 ? say.sameAgain() : say.differsAgain(differences));
  return differences.length === 0 ? EXIT.ok : EXIT.different;
}

// Where the inputs that a report carries are written, so that none of them leaves the folder.

const FOLDER = 'inputs';

export type InputFiles =
  | { readonly files: Readonly<Record<string, string>> }
  /** A path that would lead elsewhere, or to the place of another file. */
  | { readonly unsafe: string };

/** The inputs in a folder of their own, by their paths there. */
export function inputFiles(inputs: readonly Pick<InputFile, 'path' | 'text'>[]): InputFiles {
  const files = new Map<string, string>();
  const taken = new Set<string>();
  for (const { path, text } of inputs) {
    const name = posix.normalize(path);
    // Many disks take names for the same that differ in capitals only.
    const key = name.toLowerCase();
    if (!isInside(name) || taken.has(key)) return { unsafe: path };
    taken.add(key);
    files.set(posix.join(FOLDER, name), text);
  }
  return { files: Object.fromEntries(files) };
}

function isInside(name: string): boolean {
  if (posix.isAbsolute(name) || name === '..' || name.startsWith('../')) return false;
  // What other systems take for a drive or a folder, and what no name holds; then names of folders.
  return !/[\\:\p{Cc}]/u.test(name) && name !== '.' && !name.endsWith('/');
}

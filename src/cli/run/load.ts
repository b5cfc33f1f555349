/** Reads a scenario for a command and warns of what in it lies outside its common band, or ends with every problem it has. */

import { readFile } from 'node:fs/promises';
import { join, posix } from 'node:path';
import { mend } from '../../input/mend/mend.ts';
import { formatMended, formatWarning } from '../../input/problems/problems.ts';
import { formatProblem, readAnyLevel } from '../../input/readScenario.ts';
import { diskFiles, diskFilesAnywhere } from '../../input/source/disk.ts';
import { toPosix } from '../../input/source/files.ts';
import type { InputWarning } from '../../model/scenario.ts';
import { badInput, remark } from '../terminal/exit.ts';
import { settleBeside } from '../terminal/files.ts';
import * as say from '../terminal/messages.ts';
import { ownCommand, STARTER } from '../terminal/places.ts';

export type Loaded = Awaited<ReturnType<typeof load>>;
export type LoadedBench = Extract<Awaited<ReturnType<typeof loadAnyLevel>>, { readonly level: 'bench' }>;

export interface LoadOptions {
  /** Catalogues may lie outside the scenario's folder. */
  readonly allowOutside?: boolean;
  /** Every problem is printed, however many. */
  readonly all?: boolean;
}

/** Problems that are printed unasked: many often have one cause. */
const MOST_PRINTED = 10;

/** A car: what only asks whether parts fit is refused. */
export async function load(path: string, options: LoadOptions = {}) {
  const read = await loadAnyLevel(path, options);
  if (read.level === 'bench') throw badInput(say.needsCar(path));
  return read;
}

/** A car, or parts and corners on the bench. */
export async function loadAnyLevel(path: string, { allowOutside = false, all = false }: LoadOptions = {}) {
  await settleBeside(path);
  const files = allowOutside ? diskFilesAnywhere : diskFiles;
  const read = await readAnyLevel(path, files);
  if (read.ok) {
    warn(read.warnings, path);
    return read;
  }
  const { length } = read.problems;
  const printed = all ? length : MOST_PRINTED;
  const shown = read.problems.slice(0, printed);
  const mended = await mend(path, shown, files, await readFile(join(STARTER, 'scenario.yaml'), 'utf8'));
  const lines = shown.map((problem) => {
    const passing = mended.get(problem);
    return passing === undefined ? formatProblem(problem) : `${formatProblem(problem)}\n${formatMended(passing)}`;
  });
  const more = length > printed ? [say.moreProblems(length - printed, ownCommand(), path)] : [];
  const about = mended.size > 0 ? [say.aboutPassing()] : [];
  throw badInput([...lines, ...more, ...about, say.problemCount(length)].join('\n'));
}

/** Warnings about a file and what it names, as places an editor's terminal can jump to. */
export function warn(warnings: readonly InputWarning[], path: string): void {
  if (warnings.length === 0) return;
  const lines = warnings.map((warning) => formatWarning({ ...warning, file: beside(path, warning.file) }));
  remark([...lines, say.warningCount(lines.length)].join('\n'));
}

function beside(path: string, name: string): string {
  return posix.isAbsolute(name) ? name : posix.join(posix.dirname(toPosix(path)), name);
}

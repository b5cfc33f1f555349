/** Reads a scenario for a command and warns of what in it lies outside its common band, or ends with every problem it has. */

import { posix } from 'node:path';
import { formatWarning } from '../../input/problems/problems.ts';
import { formatProblem, readScenario } from '../../input/readScenario.ts';
import { diskFiles, diskFilesAnywhere, toPosix } from '../../input/source/files.ts';
import type { InputWarning } from '../../model/scenario.ts';
import { badInput } from '../terminal/exit.ts';
import * as say from '../terminal/messages.ts';

export type Loaded = Awaited<ReturnType<typeof load>>;

export interface LoadOptions {
  /** Catalogues may lie outside the scenario's folder. */
  readonly allowOutside?: boolean;
}

export async function load(path: string, { allowOutside = false }: LoadOptions = {}) {
  const read = await readScenario(path, allowOutside ? diskFilesAnywhere : diskFiles);
  if (read.ok) {
    warn(read.warnings, path);
    return read;
  }
  const lines = read.problems.map(formatProblem);
  throw badInput([...lines, say.problemCount(lines.length)].join('\n'));
}

/** Warnings about a file and what it names, as places an editor's terminal can jump to. */
export function warn(warnings: readonly InputWarning[], path: string): void {
  if (warnings.length === 0) return;
  const lines = warnings.map((warning) => formatWarning({ ...warning, file: beside(path, warning.file) }));
  process.stderr.write(`${[...lines, say.warningCount(lines.length)].join('\n')}\n`);
}

function beside(path: string, name: string): string {
  return posix.isAbsolute(name) ? name : posix.join(posix.dirname(toPosix(path)), name);
}

/** Reads a scenario for a command, or ends with every problem it has. */
import { diskFiles, diskFilesAnywhere } from '../../input/files.ts';
import { formatProblem, readScenario } from '../../input/readScenario.ts';
import { badInput } from '../exit.ts';
import * as say from '../messages.ts';

export type Loaded = Awaited<ReturnType<typeof load>>;

export interface LoadOptions {
  /** Catalogues may lie outside the scenario's folder. */
  readonly allowOutside?: boolean;
}

export async function load(path: string, { allowOutside = false }: LoadOptions = {}) {
  const read = await readScenario(path, allowOutside ? diskFilesAnywhere : diskFiles);
  if (read.ok) return read;
  const lines = read.problems.map(formatProblem);
  throw badInput([...lines, say.problemCount(lines.length)].join('\n'));
}

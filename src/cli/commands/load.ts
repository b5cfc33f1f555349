/** Reads a scenario for a command, or ends with every problem it has. */
import { formatProblem, readScenario } from '../../input/readScenario.ts';
import { badInput } from '../exit.ts';
import * as say from '../messages.ts';

export type Loaded = Awaited<ReturnType<typeof load>>;

export async function load(path: string) {
  const read = await readScenario(path);
  if (read.ok) return read;
  const lines = read.problems.map(formatProblem);
  throw badInput([...lines, say.problemCount(lines.length)].join('\n'));
}

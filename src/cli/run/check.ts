/** `check SCENARIO`: every problem of the input, or the number of combinations, and whether a sweep takes on so many. */

import { CHECK, CHECK_MEANINGS, CHECKS } from '../../model/corner/checks.ts';
import { hanging } from '../../report/files/explain.ts';
import { limitFault } from '../../sweep/limits.ts';
import { sizesOf } from '../../sweep/sweep.ts';
import { badInput, EXIT, type ExitCode } from '../terminal/exit.ts';
import * as say from '../terminal/messages.ts';
import { type LoadOptions, load } from './load.ts';

export interface CheckOptions extends LoadOptions {
  readonly explainChecks?: boolean;
}

export async function check(path: string | undefined, options: CheckOptions): Promise<ExitCode> {
  if (options.explainChecks) process.stdout.write(`${checksText()}\n`);
  else if (path === undefined) throw badInput(say.nothingToCheck());
  return path === undefined ? EXIT.ok : checkFile(path, options);
}

/** Every check of a sweep in the order in which a combination meets them, and what it asks. */
function checksText(): string {
  const width = Math.max(...CHECKS.map((name) => CHECK[name].label.length)) + 2;
  return CHECKS.flatMap((name) => hanging(CHECK[name].label.padEnd(width), CHECK_MEANINGS[name])).join('\n');
}

async function checkFile(path: string, options: LoadOptions): Promise<ExitCode> {
  const { scenario } = await load(path, options);
  const { combinations, isBuild } = sizesOf(scenario);
  const setups = scenario.setups.map((setup) => setup.name);
  process.stdout.write(`${say.checked(scenario.name, combinations.front, combinations.rear, setups, isBuild)}\n`);
  const fault = limitFault(scenario);
  if (fault !== null) process.stdout.write(`${say.tooMuch(scenario.name, fault)}\n`);
  return EXIT.ok;
}

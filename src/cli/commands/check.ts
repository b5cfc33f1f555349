/** `check SCENARIO`: every problem of the input, or the number of combinations, and whether a sweep takes on so many. */
import { limitFault } from '../../sweep/limits.ts';
import { planOf } from '../../sweep/sweep.ts';
import { EXIT, type ExitCode } from '../exit.ts';
import * as say from '../messages.ts';
import { type LoadOptions, load } from './load.ts';

export async function check(path: string, options: LoadOptions): Promise<ExitCode> {
  const { scenario } = await load(path, options);
  const { combinations, isBuild } = planOf(scenario);
  const setups = scenario.setups.map((setup) => setup.name);
  process.stdout.write(`${say.checked(scenario.name, combinations.front, combinations.rear, setups, isBuild)}\n`);
  const fault = limitFault(scenario);
  if (fault !== null) process.stdout.write(`${say.tooMuch(scenario.name, fault)}\n`);
  return EXIT.ok;
}

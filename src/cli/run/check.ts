/** `check SCENARIO`: every problem of the input, or the number of combinations, and whether a sweep takes on so many. */

import { fittingsOf } from '../../fitting/fitting.ts';
import { askedSpring, benchOf, withSprings } from '../../fitting/oneSpring.ts';
import { FORMS } from '../../fitting/question.ts';
import { axleBlock } from '../../fitting/text.ts';
import { assumedOf } from '../../input/schema/takenDefaults.ts';
import { CHECK, CHECK_MEANINGS, CHECKS } from '../../model/corner/checks.ts';
import type { BenchScenario } from '../../model/scenario.ts';
import { hanging } from '../../report/text/textWidth.ts';
import { limitFault } from '../../sweep/limits.ts';
import { sizesOf } from '../../sweep/outcome.ts';
import { badInput, EXIT, type ExitCode, tell } from '../terminal/exit.ts';
import * as say from '../terminal/messages.ts';
import { benchText } from './bench.ts';
import { type LoadOptions, loadAnyLevel } from './load.ts';

export interface CheckOptions extends LoadOptions {
  readonly explainChecks?: boolean;
  /** A spring to ask for, in a few words, in place of the scenario's own. */
  readonly spring?: string;
}

export async function check(path: string | undefined, options: CheckOptions): Promise<ExitCode> {
  if (options.explainChecks) tell(checksText());
  else if (path === undefined) throw badInput(say.nothingToCheck());
  return path === undefined ? EXIT.ok : checkFile(path, options);
}

/** Every check of a sweep in the order in which a combination meets them, and what it asks. */
function checksText(): string {
  const width = Math.max(...CHECKS.map((name) => CHECK[name].label.length)) + 2;
  return CHECKS.flatMap((name) => hanging(CHECK[name].label.padEnd(width), CHECK_MEANINGS[name])).join('\n');
}

async function checkFile(path: string, { spring, ...options }: CheckOptions): Promise<ExitCode> {
  const read = await loadAnyLevel(path, options);
  if (spring !== undefined) return checkSpring(spring, read.level === 'bench' ? read.scenario : benchOf(read.scenario));
  if (read.level === 'bench') {
    tell(benchText(read.scenario));
    return EXIT.ok;
  }
  const { scenario } = read;
  const { combinations, isBuild } = sizesOf(scenario);
  const setups = scenario.setups.map((setup) => setup.name);
  const counted = say.checked(scenario.name, combinations.front, combinations.rear, setups, isBuild);
  tell([counted, ...say.assumedLines(assumedOf(scenario.assumptions))].join('\n'));
  const fault = limitFault(scenario);
  if (fault !== null) tell(say.tooMuch(scenario.name, fault));
  return EXIT.ok;
}

/** One spring among the parts of a scenario, without its wishes. */
function checkSpring(text: string, scenario: BenchScenario): ExitCode {
  const asked = askedSpring(text, scenario);
  if (asked === null) throw badInput(say.badOption('spring', FORMS.spring, `“${text}”`));
  if ('complaints' in asked) {
    throw badInput(asked.complaints.map((c) => say.optionProblem('spring', c.found, c.expected, c.advice)).join('\n'));
  }
  const fittings = fittingsOf(withSprings(scenario, asked.springs));
  const taken = asked.taken === null ? [] : [say.takenForSpring(asked.taken)];
  tell([...taken, ...fittings.map(axleBlock)].join('\n\n'));
  return fittings.every(({ best }) => best[0]?.verdict !== 'fails') ? EXIT.ok : EXIT.nothingWorkable;
}

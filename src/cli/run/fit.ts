/** `fit`: a question in a few words, answered in a few lines. */

import { basename, dirname } from 'node:path';
import { fittingsOf } from '../../fitting/fitting.ts';
import { type Asked, FORMS, type Option, type Question, scenarioOf } from '../../fitting/question.ts';
import { axleBlock } from '../../fitting/text.ts';
import { type Problem, readAnyLevel } from '../../input/readScenario.ts';
import { memoryFiles } from '../../input/source/files.ts';
import type { AxleName } from '../../model/scenario.ts';
import { badInput, EXIT, type ExitCode, tell } from '../terminal/exit.ts';
import { prepareFolder, writeAndSay } from '../terminal/files.ts';
import * as say from '../terminal/messages.ts';

interface FitOptions extends Question {
  readonly axle: AxleName;
  readonly save?: string;
  readonly force?: boolean;
}

const ASKED = 'question';

export async function fit({ axle, save, force = false, ...question }: FitOptions): Promise<ExitCode> {
  const asked = scenarioOf(question, axle);
  if (asked.faults.length > 0)
    throw badInput(asked.faults.map(({ option, found }) => say.badOption(option, FORMS[option], found)).join('\n'));
  const read = await readAnyLevel(ASKED, memoryFiles([{ path: ASKED, text: asked.text }]));
  if (!read.ok) throw badInput(read.problems.map((problem) => sentence(problem, asked)).join('\n'));
  if (read.level !== 'bench') throw new Error('a question is of the bench');
  const [fitting] = fittingsOf(read.scenario);
  if (fitting === undefined) throw new Error('a question has one axle');
  if (save !== undefined) await prepareFolder(dirname(save), [basename(save)], force);
  tell(axleBlock(fitting));
  if (save !== undefined) await writeAndSay(dirname(save), { [basename(save)]: asked.text }, force);
  return fitting.best[0]?.verdict === 'fails' ? EXIT.nothingWorkable : EXIT.ok;
}

/** A problem of the scenario that a question is, at the option it came from. */
function sentence({ line, found, expected, advice }: Problem, asked: Asked): string {
  const option: Option | null = asked.optionAt(line);
  return say.optionProblem(option, found, expected, advice);
}

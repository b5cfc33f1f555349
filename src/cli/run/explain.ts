/** `explain SCENARIO ID`: the full working of one combination of a scenario, or of the one that a report carries. */

import { formatProblem, readScenario } from '../../input/readScenario.ts';
import { memoryFiles } from '../../input/source/files.ts';
import type { Scenario } from '../../model/scenario.ts';
import { explain as explainId } from '../../pipeline.ts';
import { explainText } from '../../report/files/explain.ts';
import { badInput, EXIT, type ExitCode, tell } from '../terminal/exit.ts';
import * as say from '../terminal/messages.ts';
import { resultIn } from '../terminal/reading.ts';
import { inputsNoLongerRead } from '../terminal/reopenMessages.ts';
import { type LoadOptions, load } from './load.ts';

export async function explain(path: string, id: string, options: LoadOptions): Promise<ExitCode> {
  const scenario = /\.html?$/i.test(path) ? await scenarioIn(path) : (await load(path, options)).scenario;
  const outcome = explainId(scenario, id);
  if (!outcome.ok) throw badInput(say.notAnId(id, outcome.reason));
  tell(explainText(outcome.explanation).trimEnd());
  return EXIT.ok;
}

async function scenarioIn(report: string): Promise<Scenario> {
  const { inputs } = await resultIn(report);
  const read = await readScenario(inputs[0]?.path ?? '', memoryFiles(inputs, true));
  if (read.ok) return read.scenario;
  throw badInput([...read.problems.map(formatProblem), inputsNoLongerRead(read.problems.length)].join('\n'));
}

/** `explain SCENARIO ID`: the full working of one combination. */

import { explain as explainId } from '../../pipeline.ts';
import { explainText } from '../../report/files/explain.ts';
import { badInput, EXIT, type ExitCode } from '../terminal/exit.ts';
import * as say from '../terminal/messages.ts';
import { type LoadOptions, load } from './load.ts';

export async function explain(path: string, id: string, options: LoadOptions): Promise<ExitCode> {
  const { scenario } = await load(path, options);
  const outcome = explainId(scenario, id);
  if (!outcome.ok) throw badInput(say.notAnId(id, outcome.reason));
  process.stdout.write(explainText(outcome.explanation));
  return EXIT.ok;
}

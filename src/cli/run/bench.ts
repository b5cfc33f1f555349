/** Parts on the bench, checked or swept: no wishes, so that the answer is what fits and how far the perch may move. */

import { fittingsOf, MOST_COMBINATIONS, tooManyOn } from '../../fitting/fitting.ts';
import { fittingHtml } from '../../fitting/page.ts';
import { fittingText } from '../../fitting/text.ts';
import { combinationCount } from '../../model/corner/options.ts';
import { AXLE_NAMES, type BenchScenario } from '../../model/scenario.ts';
import { count, PLAIN } from '../../report/text/numbers.ts';
import { badInput, EXIT, type ExitCode } from '../terminal/exit.ts';
import { writeAndSay } from '../terminal/files.ts';
import * as say from '../terminal/messages.ts';
import { toolVersion } from '../terminal/version.ts';
import type { LoadedBench } from './load.ts';

export const BENCH_PAGE = 'report.html';

/** What a check says: how many combinations each axle has. */
export function benchText(scenario: BenchScenario): string {
  const axles = AXLE_NAMES.flatMap((axle) => {
    const bench = scenario.axles[axle];
    return bench === undefined ? [] : [`${axle} ${count(combinationCount(bench.options), PLAIN)} combinations`];
  });
  return say.checkedBench(scenario.name, axles);
}

/** @throws KnownError where an axle has more combinations than are judged */
export function refuseTooManyOnBench({ scenario }: LoadedBench): void {
  const most = count(MOST_COMBINATIONS, PLAIN);
  const lines = tooManyOn(scenario).map((one) => say.tooManyOnBench(one.axle, count(one.count, PLAIN), most));
  if (lines.length > 0) throw badInput(lines.join('\n'));
}

/** Writes the page and says the answer. */
export async function sweepBench(
  folder: string,
  { scenario, files, warnings }: LoadedBench,
  force: boolean,
): Promise<ExitCode> {
  const fittings = fittingsOf(scenario);
  const page = await fittingHtml({ scenario, files, warnings, fittings, toolVersion: toolVersion() });
  await writeAndSay(
    folder,
    { [BENCH_PAGE]: page },
    force,
    (paths) => `${fittingText(scenario, fittings)}${say.wrote(paths)}`,
  );
  return fittings.every(({ best }) => best[0]?.verdict !== 'fails') ? EXIT.ok : EXIT.nothingWorkable;
}

/** One page over the results of several scenarios: what is bought for each setup beside each other, and where its report is. */
import { AXLE_NAMES, type AxleName } from '../model/scenario.ts';
import { renderPage } from '../report/frame/templates.ts';
import { type Answer, answerOf } from '../report/text/answers.ts';
import { doubtsOf } from '../report/text/cautions.ts';
import { mapStrings, visibleInPage } from '../report/text/escape.ts';
import { count, fixed, PAGE } from '../report/text/numbers.ts';
import { measure } from '../report/text/parts.ts';
import { buildsText } from '../report/text/working.ts';
import type { Combination, Result } from '../result/result.ts';

export interface NamedResult {
  /** Folder of the report beside this page. */
  readonly name: string;
  readonly result: Result;
}

export async function comparisonHtml(results: readonly NamedResult[]): Promise<string> {
  const shown = results.map(({ name, result }) => ({ name, result: mapStrings(result, visibleInPage) }));
  const rows = shown.flatMap(({ name, result }) => rowsOf(name, result));
  const incomplete = shown.flatMap(({ result }) => incompleteView(result));
  return renderPage('comparison', { rows, incomplete, scenarios: count(results.length, PAGE) });
}

/** Scenarios whose sweep was stopped. */
function incompleteView({ incomplete, scenario }: Result) {
  if (!incomplete) return [];
  const { judged: done, of } = incomplete;
  return [{ scenario: scenario.name, judged: count(done, PAGE), of: count(of, PAGE) }];
}

function rowsOf(name: string, result: Result) {
  return result.setups.map((setup) => {
    const answer = answerOf(result, setup);
    return {
      scenario: result.scenario.name,
      // The folder's name is part of an address here, and may hold anything that a file name may.
      href: `${encodeURIComponent(name)}/report.html`,
      setup: setup.name,
      incomplete: result.incomplete !== undefined,
      workable: count(setup.pairs.workable, PAGE),
      judged: count(
        AXLE_NAMES.reduce((sum, axle) => sum + setup.axles[axle].combinations, 0),
        PAGE,
      ),
      plan: answer?.plan?.id ?? null,
      best: answer?.combination.workable ? bestView(answer) : null,
    };
  });
}

function bestView({ combination: best, builds }: Answer) {
  return {
    id: best.id,
    cautions: [...(builds ? [`random builds: ${buildsText(builds, best, PAGE)}`] : []), ...doubtsOf(best)],
    score: fixed(best.score, 3, PAGE),
    ratio: fixed(best.values.frequency_ratio ?? null, 3, PAGE),
    axles: AXLE_NAMES.map((axle) => cornerView(best, axle)),
  };
}

function cornerView({ axles }: Combination, axle: AxleName) {
  const { parts, values } = axles[axle];
  return {
    axle,
    spring: parts.spring.name,
    helper: parts.helper.name,
    bumpTravel: measure(values.bump_travel_mm ?? null, 'length'),
    lowest: measure(values.lowest_height_mm ?? null, 'length'),
    highest: measure(values.highest_height_mm ?? null, 'length'),
    frequency: fixed(values.body_frequency_hz ?? null, 2, PAGE),
  };
}

/** One page over the results of several scenarios: what is bought for each setup beside each other, and where its report is. */
import type { Combination, Result, SetupResult } from '../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../domain/scenario.ts';
import { type Answer, answerOf } from './answers.ts';
import { careWords } from './care.ts';
import { mapStrings, visibleInPage } from './escape.ts';
import { contentPolicy, minified } from './html.ts';
import { count, fixed, PAGE } from './numbers.ts';
import { measure } from './read.ts';
import { loadTemplates } from './templates.ts';
import { themeCss } from './theme.ts';
import { buildsText } from './working.ts';

export interface NamedResult {
  /** Folder of the report beside this page. */
  readonly name: string;
  readonly result: Result;
}

export async function comparisonHtml(results: readonly NamedResult[]): Promise<string> {
  const templates = await loadTemplates();
  const css = minified(`${themeCss()}\n${templates.css}`);
  const shown = results.map(({ name, result }) => ({ name, result: mapStrings(result, visibleInPage) }));
  const rows = shown.flatMap(({ name, result }) => rowsOf(name, result));
  const incomplete = shown.flatMap(({ result }) => incompleteView(result));
  return templates.comparison({
    rows,
    incomplete,
    scenarios: count(results.length, PAGE),
    css,
    policy: contentPolicy(css),
  });
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
      judged: count(judged(setup), PAGE),
      plan: answer?.plan?.id ?? null,
      best: answer?.combination.workable ? bestView(answer) : null,
    };
  });
}

function judged(setup: SetupResult): number {
  return AXLE_NAMES.reduce((sum, axle) => sum + setup.axles[axle].combinations, 0);
}

function bestView({ combination: best, builds }: Answer) {
  return {
    id: best.id,
    care: [...(builds ? [`random builds: ${buildsText(builds, best, PAGE)}`] : []), ...careWords(best)],
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

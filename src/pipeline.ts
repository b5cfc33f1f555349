/**
 * From a scenario file to a finished report, in one screen. Writes nothing.
 *
 *   file --read--> Scenario --plan--> options --sweep--> candidates --rank--> best pairs --build--> Result
 *                                                                          Result --report--> pages
 */
import { siteOf } from './domain/corner/site.ts';
import type { Explanation } from './domain/explanation.ts';
import { fingerprintOf, type PairId, parsePairId } from './domain/ids.ts';
import { type ChosenCorner, combinationOf, judgePair } from './domain/reporting/combination.ts';
import { explanationOf, workingOfPair } from './domain/reporting/explain.ts';
import { resultOf, type SetupFindings } from './domain/reporting/result.ts';
import type { InputFile, Result } from './domain/result.ts';
import type { AxleName, Scenario, Setup } from './domain/scenario.ts';
import { cornerAt } from './sweep/options.ts';
import { planOf, type SetupOutcome, sweepScenario } from './sweep/sweep.ts';

/** The files a sweep leaves, by name. */
export type Pages = Readonly<Record<'report.html' | 'shortlist.csv' | 'results.json', string>>;

/** Sweeps a checked scenario and builds its result: read -> plan -> sweep -> rank -> build. */
export function sift(scenario: Scenario, inputs: readonly InputFile[], toolVersion: string): Result {
  const { isBuild } = planOf(scenario);
  const fingerprint = fingerprintOf(scenario);
  const setups = sweepScenario(scenario).map((outcome) => findingsOf(scenario, outcome, isBuild, fingerprint));
  return resultOf({ toolVersion, mode: isBuild ? 'build' : 'sweep', scenario, inputs, setups });
}

/** Draws a result: the page to read, the table to sort, the record to keep. */
export async function draw(result: Result): Promise<Pages> {
  const [{ reportHtml }, { shortlistCsv }, { resultsJson }] = await Promise.all([
    import('./report/html.ts'),
    import('./report/csv.ts'),
    import('./report/json.ts'),
  ]);
  return {
    'report.html': await reportHtml(result),
    'shortlist.csv': shortlistCsv(result),
    'results.json': resultsJson(result),
  };
}

/** Whether any setup has an answer. */
export function hasAnswer(result: Result): boolean {
  return result.setups.some((setup) => setup.shortlist.some((combination) => combination.workable));
}

export type ExplainOutcome =
  | { readonly ok: true; readonly explanation: Explanation }
  | { readonly ok: false; readonly reason: 'form' | 'check' | 'setup' | 'index' };

/** The full working of one combination, found by its id. */
export function explain(scenario: Scenario, text: string): ExplainOutcome {
  const fingerprint = fingerprintOf(scenario);
  const parsed = parsePairId(text, fingerprint);
  if (!parsed.ok) return parsed;
  const setup = scenario.setups.find((s) => s.name === parsed.id.setup);
  if (!setup) return { ok: false, reason: 'setup' };
  if (!exists(scenario, parsed.id)) return { ok: false, reason: 'index' };
  return { ok: true, explanation: explanationOf(judgeChoice(scenario, setup, parsed.id), fingerprint) };
}

/** The best pairs of a setup judged in full; a given build stands there whether or not it works. */
function findingsOf(scenario: Scenario, outcome: SetupOutcome, isBuild: boolean, fingerprint: string): SetupFindings {
  const { setup, axles, pairs } = outcome;
  const best = pairs.best.map((pair) => ({ front: pair.front.index, rear: pair.rear.index }));
  const chosen = isBuild ? [{ front: 0, rear: 0 }] : best;
  return {
    setup,
    axles: { front: axles.front.tally, rear: axles.rear.tally },
    pairs: pairs.tally,
    shortlist: chosen.map((choice, k) => {
      const judged = judgeChoice(scenario, setup, choice);
      const combination = combinationOf(judged, k + 1, fingerprint);
      return isBuild ? { ...combination, working: workingOfPair(judged) } : combination;
    }),
  };
}

function judgeChoice(scenario: Scenario, setup: Setup, choice: { readonly front: number; readonly rear: number }) {
  const front = chosenCorner(scenario, setup, 'front', choice.front);
  const rear = chosenCorner(scenario, setup, 'rear', choice.rear);
  return judgePair(scenario, setup, front, rear);
}

function chosenCorner(scenario: Scenario, setup: Setup, axle: AxleName, index: number): ChosenCorner {
  return { index, site: siteOf(scenario, setup, axle), corner: cornerAt(scenario.axles[axle].options, index) };
}

function exists(scenario: Scenario, id: PairId): boolean {
  const { combinations } = planOf(scenario);
  return id.front < combinations.front && id.rear < combinations.rear;
}

/**
 * From what a sweep found to a result: the best pairs judged in full, advice for each setup, plans over all of them.
 */
import { type AdviceRequest, advisedOn, reported } from '../domain/advice/advice.ts';
import type { RankBy } from '../domain/advice/types.ts';
import { siteOf } from '../domain/corner/site.ts';
import { fingerprintOf } from '../domain/ids.ts';
import { notes } from '../domain/messages.ts';
import { type ChosenCorner, type JudgedPair, judgePair, withoutBands } from '../domain/reporting/combination.ts';
import { workingOfPair } from '../domain/reporting/explain.ts';
import { plansResultOf } from '../domain/reporting/plans.ts';
import { resultOf, type SetupFindings } from '../domain/reporting/result.ts';
import { buildSheetOf } from '../domain/reporting/sheet.ts';
import type { Combination, InputFile, PlansResult, Result } from '../domain/result.ts';
import type { AxleName, Scenario, Setup } from '../domain/scenario.ts';
import type { Steps } from '../domain/steps.ts';
import { resweepOf } from '../sweep/again.ts';
import { cornerAt } from '../sweep/options.ts';
import { planFindings } from '../sweep/planFindings.ts';
import { planOf, type SetupOutcome, type SweepOutcome } from '../sweep/sweep.ts';

export interface BuildWishes {
  readonly rankBy?: RankBy;
  /** Told of the result as far as it is known, before the advice of each setup; not where advice decides the order. */
  readonly onFound?: ((soFar: Result) => void) | null;
}

/** Beyond this many combinations over all setups the search for plans takes minutes and much memory. */
const MOST_TO_PLAN = 1.5e8;

export function* built(
  { scenario, files: inputs }: { readonly scenario: Scenario; readonly files: readonly InputFile[] },
  toolVersion: string,
  swept: SweepOutcome,
  { rankBy = 'nominal', onFound = null }: BuildWishes = {},
): Steps<Result> {
  const { isBuild } = planOf(scenario);
  const { judged, of } = swept;
  const tooMany = scenario.plan !== null && of > MOST_TO_PLAN;
  const told = tooMany ? [notes.plansOmitted(of, MOST_TO_PLAN)] : [];
  const mode = isBuild ? 'build' : 'sweep';
  const whole = (setups: readonly SetupFindings[], plans: PlansResult | null) =>
    resultOf({ toolVersion, mode, judged, of, notes: told, scenario, inputs, setups, plans });
  const setups: SetupFindings[] = [];
  for (const outcome of swept.setups) {
    const tell = (found: SetupFindings) => onFound?.(whole([...setups, found], null));
    const isComplete = judged === of;
    setups.push(yield* isComplete ? findingsOf(scenario, outcome, rankBy, tell) : withoutAdvice(scenario, outcome));
  }
  const plans = isBuild || judged < of || tooMany ? null : yield* plansOf(scenario, swept, setups);
  return whole(setups, plans);
}

/** The best pairs of a setup judged in full, with advice; a given build stands there whether or not it works. */
function* findingsOf(
  scenario: Scenario,
  outcome: SetupOutcome,
  rankBy: RankBy,
  tell: (found: SetupFindings) => void,
): Steps<SetupFindings> {
  const { setup, axles, pairs } = outcome;
  const { isBuild, judged: combinations } = planOf(scenario);
  const fingerprint = fingerprintOf(scenario);
  const tallies = { front: axles.front.tally, rear: axles.rear.tally };
  const chosen = judgedPairs(scenario, outcome);
  const resweep = resweepOf(fingerprint);
  const request: AdviceRequest = {
    ...{ scenario, setup, fingerprint, tallies, judged: chosen, rankBy, combinations, resweep },
  };
  const known = yield* reported(request);
  const found = (shortlist: readonly Combination[], judged: readonly JudgedPair[]) => ({
    ...{ setup, axles: tallies, pairs: pairs.tally },
    shortlist: shortlist.map((one, k) => inFull(one, judged[k] as JudgedPair, k === 0, isBuild)),
  });
  const bandsOfBest = known.nominal.map((one, k) => (k === 0 ? one : withoutBands(one)));
  if (rankBy === 'nominal') tell({ ...found(bandsOfBest, chosen), advice: null });
  const { judged, shortlist, advice } = yield* advisedOn(request, known);
  return { ...found(shortlist, judged), advice };
}

/** A stopped sweep does not know which springs never work, so it gives no advice. */
function* withoutAdvice(scenario: Scenario, outcome: SetupOutcome): Steps<SetupFindings> {
  const { setup, axles, pairs } = outcome;
  const judged = judgedPairs(scenario, outcome);
  const { nominal } = yield* reported({ judged, fingerprint: fingerprintOf(scenario) });
  const shortlist = nominal.map((one, k) => inFull(one, judged[k] as JudgedPair, k === 0, false));
  const tallies = { front: axles.front.tally, rear: axles.rear.tally };
  return { setup, axles: tallies, pairs: pairs.tally, shortlist, advice: null };
}

function judgedPairs(scenario: Scenario, { setup, pairs }: SetupOutcome): JudgedPair[] {
  const best = pairs.best.map((pair) => ({ front: pair.front.index, rear: pair.rear.index }));
  const chosen = planOf(scenario).isBuild ? [{ front: 0, rear: 0 }] : best;
  return chosen.map((choice) => judgeChoice(scenario, setup, choice));
}

/** The best that works goes to the workbench; a given build is shown with every number. */
function inFull(combination: Combination, pair: JudgedPair, isBest: boolean, isBuild: boolean): Combination {
  return {
    ...combination,
    ...(isBuild ? { working: workingOfPair(pair) } : {}),
    ...(isBest && combination.workable ? { sheet: buildSheetOf(pair) } : {}),
  };
}

/** The best plans over several setups; null where the scenario wants none. */
function* plansOf(
  scenario: Scenario,
  swept: SweepOutcome,
  setups: readonly SetupFindings[],
): Steps<PlansResult | null> {
  const { plan } = scenario;
  if (plan === null) return null;
  const findings = yield* planFindings(scenario, plan, swept.setups);
  const judge = (setup: Setup, choice: Choice) => judgeChoice(scenario, setup, choice);
  const known = setups.flatMap(({ shortlist }) => shortlist);
  return plansResultOf(findings, judge, known, fingerprintOf(scenario));
}

type Choice = Readonly<Record<AxleName, number>>;

export function judgeChoice(scenario: Scenario, setup: Setup, choice: Choice): JudgedPair {
  const chosen = (axle: AxleName): ChosenCorner => ({
    index: choice[axle],
    site: siteOf(scenario, setup, axle),
    corner: cornerAt(scenario.axles[axle].options, choice[axle]),
  });
  return judgePair(scenario, setup, chosen('front'), chosen('rear'));
}

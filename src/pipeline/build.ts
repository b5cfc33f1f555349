/**
 * From what a sweep found to a result: the best pairs judged in full, advice for each setup, plans over all of them.
 */
import { advisedOn, reported } from '../domain/advice/advice.ts';
import type { RankBy } from '../domain/advice/types.ts';
import { fingerprintOf } from '../domain/ids.ts';
import { notes } from '../domain/messages.ts';
import { type JudgedPair, withoutBands } from '../domain/reporting/combination.ts';
import { workingOfPair } from '../domain/reporting/explain.ts';
import { plansResultOf } from '../domain/reporting/plans.ts';
import { resultOf, type SetupFindings } from '../domain/reporting/result.ts';
import { buildSheetOf } from '../domain/reporting/sheet.ts';
import type { Combination, InputFile, PlansResult, Result } from '../domain/result.ts';
import type { InputWarning, Scenario, Setup } from '../domain/scenario.ts';
import type { Steps } from '../domain/steps.ts';
import { resweepOf } from '../sweep/again.ts';
import { type Choice, judgeChoice } from '../sweep/choice.ts';
import { planFindings } from '../sweep/planFindings.ts';
import { planOf, type SetupOutcome, type SweepOutcome } from '../sweep/sweep.ts';

export interface BuildWishes {
  readonly rankBy?: RankBy;
  /** Told of the result as far as it is known, before the advice of each setup; not where advice decides the order. */
  readonly onFound?: ((soFar: Result) => void) | null;
}

/** Beyond this many combinations over all setups the search for plans takes minutes and much memory. */
const MOST_TO_PLAN = 1.5e8;

/** What was read, with the files it came from and what in them looks like a slip of the pen. */
interface Read {
  readonly scenario: Scenario;
  readonly files: readonly InputFile[];
  readonly warnings?: readonly InputWarning[];
}

export function* built(
  { scenario, files: inputs, warnings = [] }: Read,
  toolVersion: string,
  swept: SweepOutcome,
  { rankBy = 'nominal', onFound = null }: BuildWishes = {},
): Steps<Result> {
  const { isBuild } = planOf(scenario);
  const fingerprint = fingerprintOf(scenario);
  const { judged, of } = swept;
  const tooMany = scenario.plan !== null && of > MOST_TO_PLAN;
  const told = tooMany ? [notes.plansOmitted(of, MOST_TO_PLAN)] : [];
  const mode = isBuild ? 'build' : 'sweep';
  const whole = (setups: readonly SetupFindings[], plans: PlansResult | null) =>
    resultOf({ toolVersion, mode, judged, of, notes: told, warnings, scenario, inputs, setups, plans });
  const setups: SetupFindings[] = [];
  const isComplete = judged === of;
  const tell = (found: SetupFindings) => onFound?.(whole([...setups, found], null));
  for (const outcome of swept.setups) {
    setups.push(yield* findingsOf(scenario, fingerprint, outcome, { rankBy, isComplete, tell }));
  }
  const plans = isBuild || !isComplete || tooMany ? null : yield* plansOf(scenario, fingerprint, swept, setups);
  return whole(setups, plans);
}

/**
 * The best pairs of a setup judged in full, with advice; a given build stands there whether or not it works. A stopped
 * sweep does not know which springs never work, so it gives no advice.
 */
function* findingsOf(
  scenario: Scenario,
  fingerprint: string,
  { setup, axles, pairs }: SetupOutcome,
  { rankBy, isComplete, tell }: FindingsWishes,
): Steps<SetupFindings> {
  const { isBuild, judged: combinations } = planOf(scenario);
  const best = pairs.best.map((pair) => ({ front: pair.front.index, rear: pair.rear.index }));
  const chosen = (isBuild ? [{ front: 0, rear: 0 }] : best).map((choice) => judgeChoice(scenario, setup, choice));
  const tallies = { front: axles.front.tally, rear: axles.rear.tally };
  const found = (shortlist: readonly Combination[], judged: readonly JudgedPair[]) => ({
    ...{ setup, axles: tallies, pairs: pairs.tally },
    shortlist: shortlist.map((one, k) => inFull(one, judged[k] as JudgedPair, k === 0, isBuild)),
  });
  const known = yield* reported({ judged: chosen, fingerprint });
  if (!isComplete) return { ...found(known.nominal, chosen), advice: null };
  const bandsOfBest = known.nominal.map((one, k) => (k === 0 ? one : withoutBands(one)));
  if (rankBy === 'nominal') tell({ ...found(bandsOfBest, chosen), advice: null });
  const resweep = resweepOf(fingerprint);
  const request = { scenario, setup, fingerprint, tallies, judged: chosen, rankBy, combinations, resweep };
  const { judged, shortlist, advice } = yield* advisedOn(request, known);
  return { ...found(shortlist, judged), advice };
}

interface FindingsWishes {
  readonly rankBy: RankBy;
  readonly isComplete: boolean;
  readonly tell: (found: SetupFindings) => void;
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
  fingerprint: string,
  swept: SweepOutcome,
  setups: readonly SetupFindings[],
): Steps<PlansResult | null> {
  const { plan } = scenario;
  if (plan === null) return null;
  const findings = yield* planFindings(scenario, plan, swept.setups);
  const judge = (setup: Setup, choice: Choice) => judgeChoice(scenario, setup, choice);
  const known = setups.flatMap(({ shortlist }) => shortlist);
  return yield* plansResultOf(findings, judge, known, fingerprint);
}

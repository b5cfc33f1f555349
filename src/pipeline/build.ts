/**
 * From what a sweep found to a result: the best pairs judged in full, advice for each setup, plans over all of them.
 */
import { advise, reportPairs } from '../advice/advice.ts';
import { nothingWorks } from '../advice/nothing.ts';
import { plansResultOf } from '../advice/plans.ts';
import { notes } from '../model/corner/messages.ts';
import { fingerprintOf } from '../model/ids.ts';
import type { InputWarning, Scenario, Setup } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import type { RankBy } from '../result/advice.ts';
import { type JudgedPair, withoutBands } from '../result/records/combination.ts';
import { workingOfPair } from '../result/records/explain.ts';
import { type ResultParts, resultOf, type SetupFindings } from '../result/records/result.ts';
import { buildSheetOf } from '../result/records/sheet.ts';
import type { Combination, InputFile, PlanPart, Result } from '../result/result.ts';
import { type Choice, judgeChoice, resweepOf } from '../sweep/choice.ts';
import { bestExpected } from '../sweep/expected.ts';
import { type SetupOutcome, sizesOf } from '../sweep/outcome.ts';
import { findPlans } from '../sweep/plans/plans.ts';
import { reweighOf } from '../sweep/reweigh.ts';
import type { SweepOutcome } from '../sweep/sweep.ts';

export interface BuildOptions {
  readonly rankBy?: RankBy;
  /** Told of each setup before its advice, as a result of its own; not where advice decides the order. */
  readonly onFound?: ((ofSetup: Result) => void) | null;
}

/** Beyond this many combinations over all setups the search for plans takes minutes and much memory. */
const MOST_TO_PLAN = 1.5e8;

/** What was read, with the files it came from and what in them looks like a slip of the pen. */
interface Read {
  readonly scenario: Scenario;
  readonly files: readonly InputFile[];
  readonly warnings?: readonly InputWarning[];
}

export function* buildResult(
  { scenario, files: inputs, warnings = [] }: Read,
  toolVersion: string,
  swept: SweepOutcome,
  { rankBy = 'nominal', onFound = null }: BuildOptions = {},
): Steps<Result> {
  const { isBuild } = sizesOf(scenario);
  const fingerprint = fingerprintOf(scenario);
  const { judged, of } = swept;
  const tooMany = scenario.plan !== null && of > MOST_TO_PLAN;
  const planNotes = tooMany ? [notes.plansOmitted(of, MOST_TO_PLAN)] : [];
  const mode = isBuild ? 'build' : 'sweep';
  const whole = (setups: readonly SetupFindings[], found: Planned | null) =>
    resultOf({
      toolVersion,
      mode,
      judged,
      of,
      notes: planNotes,
      warnings,
      scenario,
      inputs,
      setups,
      plans: null,
      ...found,
    });
  const setups: SetupFindings[] = [];
  const isComplete = judged === of;
  const tell = (found: SetupFindings) => onFound?.(whole([found], null));
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
  swept: SetupOutcome,
  { rankBy, isComplete, tell }: FindingsOptions,
): Steps<SetupFindings> {
  const { setup, axles, pairs } = swept;
  const { isBuild, judged: combinations } = sizesOf(scenario);
  const expected = rankBy === 'expected' && isComplete && !isBuild ? yield* bestExpected(scenario, setup, axles) : null;
  const best = pairs.best.map((pair) => ({ front: pair.front.index, rear: pair.rear.index }));
  const ranked = expected?.pairs.map(({ choice }) => choice) ?? best;
  const chosen = (isBuild ? [{ front: 0, rear: 0 }] : ranked).map((choice) => judgeChoice(scenario, setup, choice));
  const tallies = { front: axles.front.tally, rear: axles.rear.tally };
  const found = (shortlist: readonly Combination[], judged: readonly JudgedPair[]) => ({
    ...{ setup, axles: tallies, pairs: pairs.tally },
    shortlist: shortlist.map((one, k) => completeRecord(one, judged[k] as JudgedPair, k === 0, isBuild)),
    chosen: judged.map(({ indices }) => indices),
  });
  const nominal = yield* reportPairs({ judged: chosen, fingerprint });
  if (!isComplete) return { ...found(nominal, chosen), advice: null };
  const bandsOfBest = nominal.map((one, k) => (k === 0 ? one : withoutBands(one)));
  if (rankBy === 'nominal') tell({ ...found(bandsOfBest, chosen), advice: null });
  const sweeps = { resweep: resweepOf(fingerprint), reweigh: reweighOf(scenario, swept, fingerprint) };
  const request = {
    ...{ scenario, setup, fingerprint, tallies, judged: chosen, rankBy, combinations, ...sweeps },
    expected: expected && { builds: expected.pairs.map(({ builds }) => builds), considered: expected.considered },
  };
  const { judged, shortlist, advice } = yield* advise(request, nominal);
  if (shortlist.some(({ workable }) => workable)) return { ...found(shortlist, judged), advice };
  const nothing = yield* nothingWorks({ scenario, setup, fingerprint, sides: axles, whyNot: advice.why_not });
  return { ...found(shortlist, judged), advice, nothing };
}

interface FindingsOptions {
  readonly rankBy: RankBy;
  readonly isComplete: boolean;
  readonly tell: (found: SetupFindings) => void;
}

/** The best that works goes to the workbench; a given build is shown with every number. */
function completeRecord(combination: Combination, pair: JudgedPair, isBest: boolean, isBuild: boolean): Combination {
  return {
    ...combination,
    ...(isBuild ? { working: workingOfPair(pair) } : {}),
    ...(isBest && combination.workable ? { sheet: buildSheetOf(pair) } : {}),
  };
}

type Planned = Required<Pick<ResultParts, 'plans' | 'planned'>>;

/** The best plans over several setups; null where the scenario wants none. */
function* plansOf(
  scenario: Scenario,
  fingerprint: string,
  swept: SweepOutcome,
  setups: readonly SetupFindings[],
): Steps<Planned | null> {
  const { plan } = scenario;
  if (plan === null) return null;
  const findings = yield* findPlans(scenario, plan, swept.setups);
  const judge = (setup: Setup, choice: Choice) => judgeChoice(scenario, setup, choice);
  const known = setups.flatMap(({ shortlist }) => shortlist);
  const plans = yield* plansResultOf(findings, judge, known, fingerprint);
  const [best = []] = findings.plans;
  const partOf = ({ setup, id }: PlanPart, s: number) => ({ setup, id, indices: best[s] as Choice });
  return { plans, planned: plans.plans[0]?.setups.map(partOf) ?? [] };
}

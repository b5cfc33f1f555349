/**
 * Plans: parts shared by several ways of using one car. A plan has a front and a rear combination for each of its
 * setups; the shared part families are the same in all of them, the swapped ones may differ, and the perch's height
 * follows from each setup's target height. It scores the geometric mean of its setups' scores.
 *
 * The best plans are found exactly, one a purchase (the stacks of both axles in every setup), in two steps:
 *
 *   1. Per axle. The log of a plan's score is a sum of worths: over setups, the front corner's, the rear corner's,
 *      and what only the pair decides, which depends on the two frequencies (and prices) and only takes away. So axle
 *      plans with the same stacks, frequencies and prices in every setup are a class, of which only the one with the
 *      highest sum over the setups can stand in a best plan. With everything shared an axle plan is one combination
 *      that works in all setups, found on the kernel's columns, and scored only where a bound says it could lead its
 *      class (`plans/shared.ts`). With swapped families it is a choice per setup over one key of shared digits, found
 *      by branch and bound (`plans/swapped.ts`): plans known already (everything shared; what each setup alone would
 *      choose, its cuts kept: `plans/seeds.ts`) give the worth to reach, the setups' own best pairs the ceilings.
 *   2. Front and rear. The classes are joined by boxes of frequencies in the order of an upper bound
 *      (`plans/join.ts`).
 *
 * Worths are exact multiples of 2^-40, so nothing depends on the order of adding; equal plans go to lower indices.
 */
import { siteOf } from '../domain/corner/site.ts';
import type { Candidate } from '../domain/ranking/criteria.ts';
import { AXLE_NAMES, type AxleName, type Family, type Scenario } from '../domain/scenario.ts';
import type { Steps } from '../domain/steps.ts';
import { type Desk, newDesk } from './desk.ts';
import { type AxleLayout, axleLayout } from './layout.ts';
import type { ScoredPair } from './pairing.ts';
import { type JoinedPlan, joinAxles, PlanList } from './plans/join.ts';
import { keyReader } from './plans/keys.ts';
import { type Indices, type Layouts, offerSeeds } from './plans/seeds.ts';
import { type SharedOutcome, sharedAxle } from './plans/shared.ts';
import { type Ceiling, swappedAxle } from './plans/swapped.ts';
import { type PlanSetup, pairWorth, planSetupOf, worthOf } from './plans/worth.ts';

/** What a setup's own sweep found, as far as plans need it. */
export interface SetupBests {
  readonly axles: Readonly<Record<AxleName, { readonly candidates: readonly Candidate[] }>>;
  readonly pairs: { readonly best: readonly ScoredPair[] };
}

/** Which families may be swapped between setups, and how many plans are wanted. */
export interface SearchWish {
  readonly swapped: readonly Family[];
  readonly keep: number;
}

export interface PlanSearch {
  readonly swapped: readonly Family[];
  /** Best first, one a purchase; empty where no plan works in every setup. */
  readonly plans: readonly FoundPlan[];
}

export interface FoundPlan {
  /** The combinations per setup, in the order of the setups. */
  readonly choices: readonly Indices[];
  /** Geometric mean of the setups' scores, 0 to 1. */
  readonly score: number;
}

export interface PlanOutcome {
  /** Everything shared: combinations per axle that work in every setup. */
  readonly workable: Readonly<Record<AxleName, number>>;
  /** One entry a wish, in the order of the wishes. */
  readonly searches: readonly PlanSearch[];
}

/**
 * The best plans over some setups of a scenario, for each wish of families that may be swapped.
 *
 * @param names at least two setups of the scenario
 * @param bests what the setups' own sweeps found, in the order of `names`
 */
export function* planScenario(
  scenario: Scenario,
  names: readonly string[],
  bests: readonly SetupBests[],
  wishes: readonly SearchWish[],
): Steps<PlanOutcome> {
  const table = tableOf(scenario, names, bests);
  const shared = yield* shareAll(table, Math.max(...wishes.map((wish) => wish.keep)));
  const workable = { front: shared.axles.front.workable, rear: shared.axles.rear.workable };
  const searches: PlanSearch[] = [];
  for (const wish of wishes) {
    const { swapped, keep } = wish;
    const plans = swapped.length === 0 ? shared.plans.slice(0, keep) : yield* swapSome(table, wish, shared.plans);
    searches.push({ swapped, plans: plans.map((plan) => foundPlan(plan, names.length)) });
  }
  return { workable, searches };
}

interface Table {
  readonly setups: readonly PlanSetup[];
  readonly layouts: Layouts;
  readonly bests: readonly SetupBests[];
}

function tableOf(scenario: Scenario, names: readonly string[], bests: readonly SetupBests[]): Table {
  const { ranking, axles } = scenario;
  const setups = names.flatMap((name) => scenario.setups.filter((setup) => setup.name === name));
  const layoutsOf = (axle: AxleName) =>
    setups.map((setup) => axleLayout(siteOf(scenario, setup, axle), axles[axle].options, ranking));
  return {
    setups: setups.map((setup) => planSetupOf(setup, ranking)),
    layouts: { front: layoutsOf('front'), rear: layoutsOf('rear') },
    bests,
  };
}

interface SharedPlans {
  readonly axles: Readonly<Record<AxleName, SharedOutcome>>;
  readonly plans: readonly JoinedPlan[];
}

function* shareAll({ setups, layouts }: Table, keep: number): Steps<SharedPlans> {
  const outcomes: SharedOutcome[] = [];
  for (const axle of AXLE_NAMES) {
    outcomes.push(yield* sharedAxle(desksOf(layouts[axle]) as [Desk, ...Desk[]], setups));
  }
  const [front, rear] = outcomes as [SharedOutcome, SharedOutcome];
  return { axles: { front, rear }, plans: joinAxles(front.classes, rear.classes, setups, keep) };
}

function* swapSome(
  table: Table,
  { swapped, keep }: SearchWish,
  shared: readonly JoinedPlan[],
): Steps<readonly JoinedPlan[]> {
  const { setups, layouts, bests } = table;
  // A setup that nothing works for alone leaves no plan.
  if (bests.some(({ pairs }) => pairs.best.length === 0)) return [];
  const keys = {
    front: keyReader((layouts.front[0] as AxleLayout).options, swapped),
    rear: keyReader((layouts.rear[0] as AxleLayout).options, swapped),
  };
  const known = new PlanList(keep);
  for (const plan of shared) known.offer(plan);
  const starts = bests.flatMap(({ pairs }) => pairs.best.map((p) => ({ front: p.front.index, rear: p.rear.index })));
  offerSeeds(known, keep, starts, layouts, keys, setups);
  const ofAxle = (axle: AxleName) =>
    swappedAxle(desksOf(layouts[axle]), setups, keys[axle], ceilingsOf(table, axle), known.worst());
  const fronts = yield* ofAxle('front');
  const rears = yield* ofAxle('rear');
  return joinAxles(fronts, rears, setups, keep);
}

function ceilingsOf({ setups, bests }: Table, axle: AxleName): Ceiling[] {
  const other = axle === 'front' ? 'rear' : 'front';
  return setups.map((at, s) => {
    const { axles, pairs } = bests[s] as SetupBests;
    const otherAxle = axles[other].candidates.reduce(
      (most, { logScore }) => Math.max(most, worthOf(logScore, at)),
      Number.NEGATIVE_INFINITY,
    );
    const { front, rear } = pairs.best[0] as ScoredPair;
    return { otherAxle, pair: worthOf(front.logScore, at) + worthOf(rear.logScore, at) + pairWorth(front, rear, at) };
  });
}

function desksOf(layouts: readonly AxleLayout[]): Desk[] {
  return layouts.map(newDesk);
}

function foundPlan({ front, rear, worth }: JoinedPlan, setups: number): FoundPlan {
  return {
    choices: front.corners.map(({ index }, s) => ({ front: index, rear: (rear.corners[s] as Candidate).index })),
    score: Math.exp(worth / setups),
  };
}

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
 *      class (`plans/shared.ts`). With swapped families it is a choice per setup over one key of shared digits
 *      (`plans/swapped.ts`): plans known already (everything shared; what each setup alone would choose, its cuts
 *      kept: `plans/starts.ts`) give the worth to reach, the setups' own best pairs the ceilings.
 *   2. Front and rear. Classes are joined by boxes of frequencies in the order of an upper bound (`join.ts`), keys
 *      two by two in that order, setup by setup (`plans/keys.ts`).
 *
 * Worths are exact multiples of 2^-40, so nothing depends on the order of adding; equal plans go to lower indices.
 */
import { type PlanChoice, type PlanFindings, SPRING_FAMILIES } from '../../advice/plans.ts';
import { subProduct } from '../../model/corner/options.ts';
import type { Candidate } from '../../model/corner/score.ts';
import {
  AXLE_NAMES,
  type AxleName,
  FAMILIES,
  type Family,
  type PlanSettings,
  type Scenario,
  type Setup,
} from '../../model/scenario.ts';
import type { Steps } from '../../model/steps.ts';
import { type PlanSetup, pairWorth, planSetupOf, worthOf } from '../axlePlan.ts';
import { judgedCorners } from '../choice.ts';
import { type JoinedPlan, joinAxles, PlanList, type ScoredPair, type StackCounts } from '../join.ts';
import { type AxleLayout, layoutOf } from '../layout.ts';
import { newWorkspace, type Workspace } from '../workspace.ts';
import { joinKeys } from './keys.ts';
import { type SharedOutcome, sharedAxle } from './shared.ts';
import { type Indices, type Layouts, offerStarts, type SetupBests } from './starts.ts';
import { type Ceiling, type SplitParts, swappedAxle } from './swapped.ts';

/** Which families may be swapped between setups, and how many plans are wanted. */
export interface PlanRequest {
  readonly swapped: readonly Family[];
  readonly count: number;
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
  /** One entry a request, in the order of the requests. */
  readonly searches: readonly PlanSearch[];
}

/**
 * The best plans over some setups of a scenario, for each request of families that may be swapped.
 *
 * @param names at least two setups of the scenario
 * @param bests what the setups' own sweeps found, in the order of `names`
 */
export function* planScenario(
  scenario: Scenario,
  names: readonly string[],
  bests: readonly SetupBests[],
  requests: readonly PlanRequest[],
): Steps<PlanOutcome> {
  const table = tableOf(scenario, names, bests);
  const shared = yield* shareAll(table, Math.max(...requests.map((request) => request.count)));
  const workable = { front: shared.axles.front.workable, rear: shared.axles.rear.workable };
  const searches: PlanSearch[] = [];
  for (const request of requests) {
    const { swapped, count } = request;
    const plans = swapped.length === 0 ? shared.plans.slice(0, count) : yield* swapSome(table, request, shared.plans);
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
  const setups = names.flatMap((name) => scenario.setups.filter((setup) => setup.name === name));
  const layoutsOf = (axle: AxleName) =>
    setups.map((setup) => ({ ...layoutOf(scenario, setup, axle), judged: judgedCorners(scenario, setup)[axle] }));
  return {
    setups: setups.map((setup) => planSetupOf(setup, scenario.ranking)),
    layouts: { front: layoutsOf('front'), rear: layoutsOf('rear') },
    bests,
  };
}

interface SharedPlans {
  readonly axles: Readonly<Record<AxleName, SharedOutcome>>;
  readonly plans: readonly JoinedPlan[];
}

function* shareAll({ setups, layouts }: Table, count: number): Steps<SharedPlans> {
  const outcomes: SharedOutcome[] = [];
  for (const axle of AXLE_NAMES) {
    outcomes.push(yield* sharedAxle(workspacesOf(layouts[axle]) as [Workspace, ...Workspace[]], setups));
  }
  const [front, rear] = outcomes as [SharedOutcome, SharedOutcome];
  const list = new PlanList(count, stackCounts(layouts));
  joinAxles(front.classes, rear.classes, setups, 'indices', list);
  return { axles: { front, rear }, plans: list.plans };
}

function* swapSome(
  table: Table,
  { swapped, count }: PlanRequest,
  shared: readonly JoinedPlan[],
): Steps<readonly JoinedPlan[]> {
  const { setups, layouts, bests } = table;
  // A setup that nothing works for alone leaves no plan.
  if (bests.some(({ pairs }) => pairs.best.length === 0)) return [];
  const keys = { front: splitParts(layouts.front, swapped), rear: splitParts(layouts.rear, swapped) };
  const known = new PlanList(count, stackCounts(layouts));
  for (const plan of shared) known.offer(plan);
  offerStarts(known, count, bests, layouts, keys, setups);
  const ofAxle = (axle: AxleName) =>
    swappedAxle(workspacesOf(layouts[axle]), setups, keys[axle], ceilingsOf(table, axle), known.worst());
  const fronts = yield* ofAxle('front');
  const rears = yield* ofAxle('rear');
  const list = new PlanList(count, stackCounts(layouts));
  for (const plan of known.plans) if (plan.worth > Number.NEGATIVE_INFINITY) list.offer(plan);
  joinKeys(fronts, rears, setups, list);
  return list.plans;
}

function stackCounts({ front, rear }: Layouts): StackCounts {
  return { front: (front[0] as AxleLayout).stacks.count, rear: (rear[0] as AxleLayout).stacks.count };
}

function splitParts(layouts: readonly AxleLayout[], swapped: readonly Family[]): SplitParts {
  const { options } = layouts[0] as AxleLayout;
  const shared = FAMILIES.filter((family) => !swapped.includes(family));
  return { shared: subProduct(options, shared), swapped: subProduct(options, swapped) };
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

function workspacesOf(layouts: readonly AxleLayout[]): Workspace[] {
  return layouts.map(newWorkspace);
}

function foundPlan({ front, rear, worth }: JoinedPlan, setups: number): FoundPlan {
  return {
    choices: front.corners.map(({ index }, s) => ({ front: index, rear: (rear.corners[s] as Candidate).index })),
    score: Math.exp(worth / setups),
  };
}

interface NamedBests extends SetupBests {
  readonly setup: Setup;
}

/**
 * What is asked for: plans as the scenario wants them, and one set of springs against a set for each setup.
 * @param outcomes what the setups' own sweeps found, those of the plan among them
 */
export function* findPlans(
  scenario: Scenario,
  wish: PlanSettings,
  outcomes: readonly NamedBests[],
): Steps<PlanFindings> {
  const bests = wish.setups.flatMap((name) => outcomes.filter(({ setup }) => setup.name === name));
  const oneSet = wish.swapped.filter((family) => !SPRING_FAMILIES.includes(family));
  const ownSets = FAMILIES.filter((family) => wish.swapped.includes(family) || SPRING_FAMILIES.includes(family));
  const requests = dropDoubles([
    { swapped: wish.swapped, count: wish.keep },
    { swapped: oneSet, count: 1 },
    { swapped: ownSets, count: 1 },
  ]);
  const { workable, searches } = yield* planScenario(scenario, wish.setups, bests, requests);
  const best = (swapped: readonly Family[]) => plansOf(searches, swapped)[0] ?? null;
  return {
    wish,
    setups: bests.map(({ setup }) => setup),
    workable,
    plans: plansOf(searches, wish.swapped),
    oneSet: best(oneSet),
    ownSets: best(ownSets),
    alone: bests.map(({ pairs }) => {
      const [first] = pairs.best;
      return first ? { front: first.front.index, rear: first.rear.index } : null;
    }),
  };
}

function plansOf(searches: readonly PlanSearch[], swapped: readonly Family[]): PlanChoice[] {
  const search = searches.find((one) => isSame(one.swapped, swapped));
  return (search as PlanSearch).plans.map((plan) => plan.choices);
}

/** The first request for the same families stands for the others: it is the plan's own, which asks for most. */
function dropDoubles<T extends { readonly swapped: readonly Family[] }>(requests: readonly T[]): T[] {
  return requests.filter((one, k) => requests.findIndex((other) => isSame(one.swapped, other.swapped)) === k);
}

function isSame(one: readonly Family[], other: readonly Family[]): boolean {
  return one.length === other.length && one.every((family) => other.includes(family));
}

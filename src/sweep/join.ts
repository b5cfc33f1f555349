/**
 * Front and rear joined: the best plans, one a purchase, exactly, without forming all of them. A plan has a front and
 * a rear combination for each of its setups; a pair is a plan of one setup. A purchase is what the springs are: front
 * and rear stack in every setup.
 *
 * The log of a plan's score is a sum of worths: per setup the front corner's, the rear corner's, and what only the
 * pair decides, which depends on the two frequencies (and prices) and only takes away. Both sides are cut into boxes
 * of similar frequencies, an interval per setup. Two boxes give no more than their best worths plus, per setup, the
 * best balance between their intervals, so pairs of boxes are taken in the order of that bound until it falls behind
 * the worst plan kept. Where nothing better fills the list, plans that score 0 follow.
 *
 * Every worth is rounded to the grid of the log scores, so sums are exact and do not depend on their order.
 */
import { stackOf } from '../model/corner/options.ts';
import { balanceLimits } from '../model/corner/pairBalance.ts';
import {
  type Candidate,
  isBalanced,
  logSum,
  pairCriteria,
  toGrid,
  totalWeight,
  upperBalance,
} from '../model/corner/score.ts';
import type { AxleName, Ranking, Setup } from '../model/scenario.ts';
import { firstAt } from '../model/solve.ts';
import type { PairTally } from '../result/result.ts';

/** A setup as plans see it. */
export interface PlanSetup {
  readonly setup: Setup;
  readonly ranking: Ranking;
  /** What log scores are divided by before setups are summed: the weights of all criteria of a pair. */
  readonly weight: number;
}

/** One axle of a plan: a combination per setup, in the plan's order of setups. */
export interface AxlePlan {
  readonly corners: readonly Candidate[];
  /** Sum of the corners' worths over the setups. */
  readonly worth: number;
}

/**
 * Axle plans that are bought and paired alike: same stacks, frequencies and, where price is ranked, prices in every
 * setup. Of one class only the best can stand in a plan that scores at all, and only the first in one that scores 0.
 */
export interface AxleClass {
  /** Highest worth, equal worths to the lower indices. */
  best: AxlePlan;
  /** Lowest indices. */
  first: AxlePlan;
}

export interface JoinedPlan {
  readonly front: AxlePlan;
  readonly rear: AxlePlan;
  /** Sum over the setups of log score / weight. */
  readonly worth: number;
  /** Of equal worths the higher tie goes first. */
  readonly tie: number;
}

/** Stacks of either axle. */
export type StackCounts = Readonly<Record<AxleName, number>>;

/** What decides between plans of equal worth: what their corners are worth and then the indices, or the indices alone. */
export type TieRule = 'corners' | 'indices';

/** One axle of one setup, as pairing needs it. */
export interface Side {
  readonly candidates: readonly Candidate[];
  /** How many workable combinations have each frequency. */
  readonly frequencies: ReadonlyMap<number, number>;
  /** Stacks of the axle. */
  readonly stacks: number;
}

export interface ScoredPair {
  readonly front: Candidate;
  readonly rear: Candidate;
  readonly logScore: number;
}

export interface PairOutcome {
  /** One pair a purchase, best first. */
  readonly best: readonly ScoredPair[];
  readonly tally: PairTally;
}

/** The best pairs of one setup, and how many of all pairs are balanced. Of equal scores better corners go first. */
export function pairUp(front: Side, rear: Side, setup: Setup, ranking: Ranking): PairOutcome {
  const considered = total(front.frequencies) * total(rear.frequencies);
  const workable = countBalanced(front.frequencies, rear.frequencies, setup);
  const setups = [{ setup, ranking, weight: 1 }];
  const list = new PlanList(ranking.keep, { front: front.stacks, rear: rear.stacks });
  joinAxles(classesOf(front, setups), classesOf(rear, setups), setups, 'corners', list);
  return {
    best: list.plans.map((plan) => ({
      front: plan.front.corners[0] as Candidate,
      rear: plan.rear.corners[0] as Candidate,
      logScore: plan.worth,
    })),
    tally: { considered, workable, rejected_by_balance: considered - workable },
  };
}

function classesOf({ candidates }: Side, setups: readonly PlanSetup[]): AxleClass[] {
  // Sorted here, where it is quicker than among the classes.
  const rising = [...candidates].sort((a, b) => a.frequency - b.frequency);
  return rising.map((candidate) => {
    const plan = axlePlanOf([candidate], setups);
    return { best: plan, first: plan };
  });
}

export function planSetupOf(setup: Setup, ranking: Ranking): PlanSetup {
  const total = totalWeight(setup, ranking);
  // Without any weight every score is 1, and every log sum 0.
  return { setup, ranking, weight: total > 0 ? total : 1 };
}

/** A corner's own criteria, or a bound on them; -Infinity where one of them is 0. */
export function worthOf(logScore: number, { weight }: PlanSetup): number {
  return toGrid(logScore / weight);
}

/** The criteria that only the pair decides: never above 0. */
export function pairWorth(front: Candidate, rear: Candidate, at: PlanSetup): number {
  return toGrid(logSum(pairCriteria(front, rear, at.setup, at.ranking)) / at.weight);
}

/** Bounds are made a hair too high, so that rounding never drops a plan: far above the grid, far below any difference. */
export const HAIR = 2 ** -32;

export function axlePlanOf(corners: readonly Candidate[], setups: readonly PlanSetup[]): AxlePlan {
  return {
    corners,
    worth: corners.reduce((sum, { logScore }, s) => sum + worthOf(logScore, setups[s] as PlanSetup), 0),
  };
}

function isSamePurchase(a: AxlePlan, b: AxlePlan, stacks: number): boolean {
  return a.corners.every(
    ({ index }, s) => stackOf(index, stacks) === stackOf((b.corners[s] as Candidate).index, stacks),
  );
}

/** Indices compared setup by setup; negative when `a` comes first. */
function compareIndices(a: AxlePlan, b: AxlePlan): number {
  for (let s = 0; s < a.corners.length; s++) {
    const difference = (a.corners[s] as Candidate).index - (b.corners[s] as Candidate).index;
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Negative when `a` is better: more worth, or as much and lower indices. */
function compareAxlePlans(a: AxlePlan, b: AxlePlan): number {
  if (a.worth !== b.worth) return a.worth > b.worth ? -1 : 1;
  return compareIndices(a, b);
}

/** Enters an axle plan into its class. */
export function enterClass(classes: Map<string, AxleClass>, stacks: number, plan: AxlePlan, isPriced: boolean): void {
  const key = plan.corners
    .map(({ index, frequency, price }) => `${stackOf(index, stacks)} ${frequency} ${isPriced ? price : ''}`)
    .join('|');
  const known = classes.get(key);
  if (known === undefined) {
    classes.set(key, { best: plan, first: plan });
    return;
  }
  if (compareAxlePlans(plan, known.best) < 0) known.best = plan;
  if (compareIndices(plan, known.first) < 0) known.first = plan;
}

/** Best first; negative when `a` ranks before `b`. */
export function comparePlans(a: JoinedPlan, b: JoinedPlan): number {
  if (a.worth !== b.worth) return a.worth > b.worth ? -1 : 1;
  if (a.tie !== b.tie) return a.tie > b.tie ? -1 : 1;
  return compareIndices(a.front, b.front) || compareIndices(a.rear, b.rear);
}

/** Null where the plan is out of balance in some setup. */
export function planOf(
  front: AxlePlan,
  rear: AxlePlan,
  setups: readonly PlanSetup[],
  rule: TieRule,
): JoinedPlan | null {
  let worth = front.worth + rear.worth;
  const tie = rule === 'corners' ? worth : 0;
  for (let s = 0; s < setups.length; s++) {
    const at = setups[s] as PlanSetup;
    const [f, r] = [front.corners[s] as Candidate, rear.corners[s] as Candidate];
    if (!isBalanced(f, r, at.setup)) return null;
    worth += pairWorth(f, r, at);
  }
  return { front, rear, worth, tie };
}

/** The best plans so far, each purchase by its best plan. */
export class PlanList {
  readonly plans: JoinedPlan[] = [];
  readonly #count: number;
  readonly #stacks: StackCounts;

  constructor(count: number, stacks: StackCounts) {
    this.#count = count;
    this.#stacks = stacks;
  }

  get isFull(): boolean {
    return this.plans.length >= this.#count;
  }

  /** Worth that a plan must reach to matter; -Infinity while there is room. */
  worst(): number {
    return this.isFull ? (this.plans.at(-1) as JoinedPlan).worth : Number.NEGATIVE_INFINITY;
  }

  offer(plan: JoinedPlan): void {
    if (this.isFull && comparePlans(this.plans.at(-1) as JoinedPlan, plan) <= 0) return;
    const same = this.plans.findIndex(
      ({ front, rear }) =>
        isSamePurchase(front, plan.front, this.#stacks.front) && isSamePurchase(rear, plan.rear, this.#stacks.rear),
    );
    if (same >= 0) {
      if (comparePlans(this.plans[same] as JoinedPlan, plan) <= 0) return;
      this.plans.splice(same, 1);
    }
    const at = this.plans.findIndex((other) => comparePlans(plan, other) < 0);
    this.plans.splice(at < 0 ? this.plans.length : at, 0, plan);
    if (this.plans.length > this.#count) this.plans.pop();
  }
}

/** @param list empty; filled with the best plans */
export function joinAxles(
  fronts: readonly AxleClass[],
  rears: readonly AxleClass[],
  setups: readonly PlanSetup[],
  rule: TieRule,
  list: PlanList,
): void {
  const rearBoxes = boxesOf(rears, setups.length);
  const boxPairs = boxesOf(fronts, setups.length).flatMap((front) =>
    rearBoxes.map((rear) => ({ front, rear, bound: boundOf(front, rear, setups) })),
  );
  boxPairs.sort((a, b) => (a.bound === b.bound ? 0 : a.bound > b.bound ? -1 : 1));
  for (const { front, rear, bound } of boxPairs) {
    if (bound === Number.NEGATIVE_INFINITY || bound < list.worst()) break;
    joinBoxes(front, rear, setups, rule, list);
  }
  if (!list.isFull) addZeros(fronts, rears, setups, rule, list);
}

interface Box {
  /** Best first. */
  readonly members: readonly AxlePlan[];
  readonly best: number;
  /** Per setup. */
  readonly lowest: readonly number[];
  readonly highest: readonly number[];
}

/** At most about this many boxes a side: enough to separate frequencies, few enough to form all pairs of boxes. */
const MOST_BOXES = 256;

interface Group {
  readonly members: AxlePlan[];
  /** The setup by whose frequency the members rise; null before they are sorted. */
  readonly rising: number | null;
}

/** Halves the widest boxes at their middle members until there are enough. */
function boxesOf(classes: readonly AxleClass[], setups: number): Box[] {
  let groups: Group[] = classes.length > 0 ? [{ members: classes.map(({ best }) => best), rising: null }] : [];
  while (groups.length <= MOST_BOXES / 2 && groups.some(({ members }) => members.length > 1)) {
    groups = groups.flatMap((group) => (group.members.length > 1 ? halve(group, setups) : [group]));
  }
  return groups.map(({ members }) => {
    members.sort(compareAxlePlans);
    return { members, best: (members[0] as AxlePlan).worth, ...spansOf(members, setups) };
  });
}

function halve({ members, rising }: Group, setups: number): Group[] {
  const widest = setups === 1 ? 0 : widestOf(members, setups);
  const at = ({ corners }: AxlePlan) => (corners[widest] as Candidate).frequency;
  if (rising !== widest) members.sort((a, b) => at(a) - at(b));
  const middle = members.length >> 1;
  return [members.slice(0, middle), members.slice(middle)].map((half) => ({ members: half, rising: widest }));
}

/** The setup whose frequencies differ most. */
function widestOf(group: readonly AxlePlan[], setups: number): number {
  const { lowest, highest } = spansOf(group, setups);
  const widths = lowest.map((low, s) => (highest[s] as number) / low);
  return widths.indexOf(Math.max(...widths));
}

function spansOf(group: readonly AxlePlan[], setups: number) {
  const lowest = new Array<number>(setups).fill(Number.POSITIVE_INFINITY);
  const highest = new Array<number>(setups).fill(0);
  for (const { corners } of group) {
    for (let s = 0; s < setups; s++) {
      const { frequency } = corners[s] as Candidate;
      lowest[s] = Math.min(lowest[s] as number, frequency);
      highest[s] = Math.max(highest[s] as number, frequency);
    }
  }
  return { lowest, highest };
}

/** What no plan of two boxes is worth more than; -Infinity where none of them can be balanced. */
function boundOf(front: Box, rear: Box, setups: readonly PlanSetup[]): number {
  return setups.reduce((sum, { setup, ranking, weight }, s) => {
    const lowest = (rear.lowest[s] as number) / (front.highest[s] as number);
    const highest = (rear.highest[s] as number) / (front.lowest[s] as number);
    return sum + upperBalance(lowest, highest, setup, ranking) / weight + HAIR;
  }, front.best + rear.best);
}

function joinBoxes(fronts: Box, rears: Box, setups: readonly PlanSetup[], rule: TieRule, list: PlanList): void {
  for (const front of fronts.members) {
    if (front.worth === Number.NEGATIVE_INFINITY || front.worth + rears.best < list.worst()) break;
    for (const rear of rears.members) {
      if (rear.worth === Number.NEGATIVE_INFINITY || front.worth + rear.worth < list.worst()) break;
      const plan = planOf(front, rear, setups, rule);
      if (plan !== null && plan.worth > Number.NEGATIVE_INFINITY) list.offer(plan);
    }
  }
}

/**
 * Fills the list with plans that score 0. Every purchase that scores more stands in it already, since it is not full.
 * In the order of their indices, the first ones fill it where indices decide.
 */
function addZeros(
  fronts: readonly AxleClass[],
  rears: readonly AxleClass[],
  setups: readonly PlanSetup[],
  rule: TieRule,
  list: PlanList,
): void {
  const inOrder = (classes: readonly AxleClass[]) => classes.map(({ first }) => first).sort(compareIndices);
  const rearsInOrder = inOrder(rears);
  for (const front of inOrder(fronts)) {
    for (const rear of rearsInOrder) {
      if (list.isFull && rule === 'indices') return;
      const plan = planOf(front, rear, setups, rule);
      if (plan !== null) list.offer({ ...plan, worth: Number.NEGATIVE_INFINITY });
    }
  }
}

/** How many pairs are balanced. The ratio falls as the front frequency rises, so each rear meets one run of fronts. */
export function countBalanced(
  fronts: ReadonlyMap<number, number>,
  rears: ReadonlyMap<number, number>,
  setup: Setup,
): number {
  const rising = [...fronts.keys()].sort((a, b) => a - b);
  const upTo = [0];
  for (const frequency of rising) upTo.push((upTo.at(-1) as number) + (fronts.get(frequency) as number));
  const { from, to } = balanceLimits(setup.balance);
  let count = 0;
  for (const [rear, times] of rears) {
    const first = firstAt(rising.length, (k) => rear / (rising[k] as number) <= to);
    const end = firstAt(rising.length, (k) => rear / (rising[k] as number) < from);
    count += times * Math.max(0, (upTo[end] as number) - (upTo[first] as number));
  }
  return count;
}

function total(counts: ReadonlyMap<number, number>): number {
  return [...counts.values()].reduce((sum, n) => sum + n, 0);
}

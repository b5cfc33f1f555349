/**
 * Front and rear joined: the best plans, one a purchase, exactly, without forming all of them. A plan has a front and
 * a rear combination for each of its setups; a pair is a plan of one setup. A purchase is what the springs are: front
 * and rear stack in every setup.
 *
 * The log of a plan's score is a sum of worths: per setup the front corner's, the rear corner's, and what only the
 * pair decides, which depends on the two frequencies (and prices) and only takes away. Both sides are boxes of similar
 * frequencies, an interval per setup, halved where that is worth it. Two boxes give no more than their best worths
 * plus, per setup, the best balance between their intervals and the best price, ties to their lowest indices: pairs of
 * boxes are taken in the order of that bound until it falls behind the worst plan kept. Where nothing better fills the
 * list, plans that score 0 are found in the same way.
 *
 * Every worth is rounded to the grid of the log scores, so sums are exact and do not depend on their order.
 */
import { balanceLimits } from '../model/corner/pairBalance.ts';
import { type Candidate, isBalanced, upperBalance, upperPrice } from '../model/corner/score.ts';
import type { AxleName, Ranking, Setup } from '../model/scenario.ts';
import { firstAt } from '../model/solve.ts';
import type { PairTally } from '../result/result.ts';
import {
  type AxleClass,
  type AxlePlan,
  axlePlanOf,
  compareIndices,
  HAIR,
  isSamePurchase,
  type PlanSetup,
  pairWorth,
} from './axlePlan.ts';
import { type Box, halvesOf, isPoint, type Member, rootsOf, type Span } from './boxes.ts';
import { Heap } from './heap.ts';

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
  readonly count: number;
  readonly stacks: StackCounts;

  constructor(count: number, stacks: StackCounts) {
    this.count = count;
    this.stacks = stacks;
  }

  get isFull(): boolean {
    return this.plans.length >= this.count;
  }

  /** Worth that a plan must reach to matter; -Infinity while there is room. */
  worst(): number {
    return this.isFull ? (this.plans.at(-1) as JoinedPlan).worth : Number.NEGATIVE_INFINITY;
  }

  /**
   * Whether something that ranks no better than a plan may have a place.
   * @param isItsPurchase whether it is the same purchase
   */
  mayTake(plan: JoinedPlan, isItsPurchase: boolean): boolean {
    if (this.isFull && comparePlans(this.plans.at(-1) as JoinedPlan, plan) <= 0) return false;
    const same = isItsPurchase ? this.#placeOf(plan) : -1;
    return same < 0 || comparePlans(this.plans[same] as JoinedPlan, plan) > 0;
  }

  offer(plan: JoinedPlan): void {
    if (!this.mayTake(plan, true)) return;
    const same = this.#placeOf(plan);
    if (same >= 0) this.plans.splice(same, 1);
    const at = this.plans.findIndex((other) => comparePlans(plan, other) < 0);
    this.plans.splice(at < 0 ? this.plans.length : at, 0, plan);
    if (this.plans.length > this.count) this.plans.pop();
  }

  /** Where the same purchase stands; -1: nowhere. */
  #placeOf(plan: JoinedPlan): number {
    return this.plans.findIndex(
      ({ front, rear }) =>
        isSamePurchase(front, plan.front, this.stacks.front) && isSamePurchase(rear, plan.rear, this.stacks.rear),
    );
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
  const search = { setups, rule, list };
  joinClasses({ ...search, isZero: false }, fronts, rears);
  if (!list.isFull) joinClasses({ ...search, isZero: true }, fronts, rears);
}

export interface Search {
  readonly setups: readonly PlanSetup[];
  readonly rule: TieRule;
  readonly list: PlanList;
  /** Whether plans that score 0 are sought: every purchase that scores more stands in the list already. */
  readonly isZero: boolean;
}

/** Boxes of no more members than this are joined member by member. */
const FEW = 4;

/** Offers the list every plan of two axles' classes that is sought and could stand in it. */
export function joinClasses(search: Search, fronts: readonly AxleClass[], rears: readonly AxleClass[]): void {
  const { setups, rule, list, isZero } = search;
  const plansOf = (classes: readonly AxleClass[]) =>
    classes.flatMap(({ best, first }) => {
      if (isZero) return first;
      return best.worth > Number.NEGATIVE_INFINITY ? best : [];
    });
  joinBoxes(search, rootsOf(plansOf(fronts), plansOf(rears), list.stacks), FEW, (front, rear) => {
    const plan = planOf(front, rear, setups, rule);
    if (plan === null) return;
    if (isZero) list.offer({ ...plan, worth: Number.NEGATIVE_INFINITY });
    else if (plan.worth > Number.NEGATIVE_INFINITY) list.offer(plan);
  });
}

/** Two boxes, and what none of their plans ranks before. */
interface BoxPair<M extends Member> {
  readonly front: Box<M>;
  readonly rear: Box<M>;
  readonly ideal: JoinedPlan;
}

/**
 * Joins the members of boxes by which something could stand in the list, the most promising first.
 * @param few boxes of no more members are joined member by member
 */
export function joinBoxes<M extends Member>(
  search: Search,
  [fronts, rears]: readonly [readonly Box<M>[], readonly Box<M>[]],
  few: number,
  join: (front: M, rear: M) => void,
): void {
  const { list } = search;
  const open = new Heap<BoxPair<M>>((one, other) => comparePlans(one.ideal, other.ideal));
  const mayTake = ({ front, rear, ideal }: BoxPair<M>) =>
    list.mayTake(ideal, front.isOnePurchase && rear.isOnePurchase);
  const enter = (front: Box<M>, rear: Box<M>) => {
    const ideal = idealOf(search, front, rear);
    if (ideal !== null && mayTake({ front, rear, ideal })) open.push({ front, rear, ideal });
  };
  for (const front of fronts) for (const rear of rears) enter(front, rear);
  for (let next = open.pop(); next !== null; next = open.pop()) {
    if (!mayTake(next)) continue;
    const { front, rear } = next;
    const [ofFront, ofRear] = [front.members.length, rear.members.length];
    if (Math.max(ofFront, ofRear) <= few)
      for (const one of front.members) for (const other of rear.members) join(one, other);
    else if (ofFront >= ofRear) for (const half of halvesOf(front)) enter(half, rear);
    else for (const half of halvesOf(rear)) enter(front, half);
  }
}

/** In everything that ranks plans at least as good as each plan of two boxes; null where none of them is sought. */
function idealOf<M extends Member>({ setups, rule, isZero }: Search, front: Box<M>, rear: Box<M>): JoinedPlan | null {
  let worth = front.worth + rear.worth;
  const tie = rule === 'corners' ? worth : 0;
  for (let s = 0; s < setups.length; s++) {
    const most = mostOfPair(front, rear, s, setups[s] as PlanSetup);
    if (most === null) return null;
    worth += most;
  }
  if (isZero) worth = Number.NEGATIVE_INFINITY;
  else if (worth === Number.NEGATIVE_INFINITY) return null;
  return { front: front.first, rear: rear.first, worth, tie };
}

/** What only the pair decides, at most, in one setup; null where no pair of two boxes can be balanced in it. */
function mostOfPair<M extends Member>(front: Box<M>, rear: Box<M>, s: number, at: PlanSetup): number | null {
  const [ofFront, ofRear] = [front.spans[s] as Span, rear.spans[s] as Span];
  if (isPoint(ofFront) && isPoint(ofRear)) {
    const [one, other] = [front.first.corners[s] as Candidate, rear.first.corners[s] as Candidate];
    return isBalanced(one, other, at.setup) ? pairWorth(one, other, at) : null;
  }
  return mostBetween(ofFront, ofRear, at);
}

/** What only the pair decides, at most, for corners within two spans; null where none of them can be balanced. */
export function mostBetween(ofFront: Span, ofRear: Span, at: PlanSetup): number | null {
  const balance = upperBalance(ofRear.lowest / ofFront.highest, ofRear.highest / ofFront.lowest, at.setup, at.ranking);
  if (balance === Number.NEGATIVE_INFINITY) return null;
  const most = balance + upperPrice(ofFront.cheapest, ofRear.cheapest, at.ranking);
  return most === 0 ? 0 : Math.min(0, most / at.weight + HAIR);
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

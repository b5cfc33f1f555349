/**
 * Front and rear axle plans joined: the best plans, one a purchase, exactly, without forming all of them.
 *
 * Both sides are cut into boxes of similar frequencies, an interval per setup. Two boxes give no more than their best
 * worths plus, per setup, the best balance between their intervals, so pairs of boxes are taken in the order of that
 * bound until it falls behind the worst plan kept. Equal scores go to the lower front indices, then the lower rear
 * indices, setup by setup. Plans that score 0 are all alike: where nothing better fills the list they follow in the
 * order of their indices.
 */
import { type Candidate, isBalanced } from '../../domain/ranking/criteria.ts';
import { type AxleClass, type AxlePlan, compareAxlePlans, compareIndices } from './axlePlan.ts';
import { mostPairWorth, type PlanSetup, pairWorth } from './worth.ts';

export interface JoinedPlan {
  readonly front: AxlePlan;
  readonly rear: AxlePlan;
  /** Sum over the setups of log score / total weight; the plan's score is exp(worth / setups). */
  readonly worth: number;
  readonly purchase: string;
}

export function joinAxles(
  fronts: readonly AxleClass[],
  rears: readonly AxleClass[],
  setups: readonly PlanSetup[],
  keep: number,
): JoinedPlan[] {
  const list = new PlanList(keep);
  const rearBoxes = boxesOf(rears, setups.length);
  const boxPairs = boxesOf(fronts, setups.length).flatMap((front) =>
    rearBoxes.map((rear) => ({ front, rear, bound: boundOf(front, rear, setups) })),
  );
  boxPairs.sort((a, b) => (a.bound === b.bound ? 0 : a.bound > b.bound ? -1 : 1));
  for (const { front, rear, bound } of boxPairs) {
    if (bound === Number.NEGATIVE_INFINITY || bound < list.worst()) break;
    joinBoxes(front, rear, setups, list);
  }
  if (list.plans.length < keep) addZeros(fronts, rears, setups, list);
  return list.plans;
}

/** Best first; negative when `a` ranks before `b`. */
export function comparePlans(a: JoinedPlan, b: JoinedPlan): number {
  if (a.worth !== b.worth) return a.worth > b.worth ? -1 : 1;
  return compareIndices(a.front, b.front) || compareIndices(a.rear, b.rear);
}

/** The best plans so far, each purchase by its best plan. */
export class PlanList {
  readonly plans: JoinedPlan[] = [];
  readonly #keep: number;

  constructor(keep: number) {
    this.#keep = keep;
  }

  get isFull(): boolean {
    return this.plans.length >= this.#keep;
  }

  /** Worth that a plan must reach to matter; -Infinity while there is room. */
  worst(): number {
    return this.isFull ? (this.plans.at(-1) as JoinedPlan).worth : Number.NEGATIVE_INFINITY;
  }

  has(purchase: string): boolean {
    return this.plans.some((plan) => plan.purchase === purchase);
  }

  offer(plan: JoinedPlan): void {
    const last = this.plans.at(-1);
    if (this.isFull && last && comparePlans(last, plan) <= 0) return;
    const same = this.plans.findIndex(({ purchase }) => purchase === plan.purchase);
    if (same >= 0) {
      if (comparePlans(this.plans[same] as JoinedPlan, plan) <= 0) return;
      this.plans.splice(same, 1);
    }
    const at = this.plans.findIndex((p) => comparePlans(plan, p) < 0);
    this.plans.splice(at < 0 ? this.plans.length : at, 0, plan);
    if (this.plans.length > this.#keep) this.plans.pop();
  }
}

interface Box {
  /** Best first. */
  readonly members: readonly AxleClass[];
  readonly best: number;
  /** Per setup. */
  readonly lowest: readonly number[];
  readonly highest: readonly number[];
}

/** At most about this many boxes a side: enough to separate frequencies, few enough to form all pairs of boxes. */
const MOST_BOXES = 256;

/** Halves the widest box at its middle member until there are enough. */
function boxesOf(classes: readonly AxleClass[], setups: number): Box[] {
  let groups: AxleClass[][] = classes.length > 0 ? [[...classes]] : [];
  while (groups.length < MOST_BOXES / 2 && groups.some((group) => group.length > 1)) {
    groups = groups.flatMap((group) => (group.length > 1 ? halved(group, setups) : [group]));
  }
  return groups.map((members) => {
    const { lowest, highest } = spansOf(members, setups);
    const sorted = members.sort((a, b) => compareAxlePlans(a.best, b.best));
    return { members: sorted, best: (sorted[0] as AxleClass).best.worth, lowest, highest };
  });
}

function halved(group: AxleClass[], setups: number): AxleClass[][] {
  const { lowest, highest } = spansOf(group, setups);
  const widths = lowest.map((low, s) => (highest[s] as number) / low);
  const widest = widths.indexOf(Math.max(...widths));
  const at = ({ best }: AxleClass) => (best.corners[widest] as Candidate).frequency;
  const rising = group.sort((a, b) => at(a) - at(b));
  const middle = rising.length >> 1;
  return [rising.slice(0, middle), rising.slice(middle)];
}

function spansOf(members: readonly AxleClass[], setups: number) {
  const lowest = new Array<number>(setups).fill(Number.POSITIVE_INFINITY);
  const highest = new Array<number>(setups).fill(0);
  for (const { best } of members) {
    for (const [s, { frequency }] of best.corners.entries()) {
      lowest[s] = Math.min(lowest[s] as number, frequency);
      highest[s] = Math.max(highest[s] as number, frequency);
    }
  }
  return { lowest, highest };
}

/** What no plan of two boxes is worth more than. */
function boundOf(front: Box, rear: Box, setups: readonly PlanSetup[]): number {
  return setups.reduce((sum, at, s) => {
    const lowest = (rear.lowest[s] as number) / (front.highest[s] as number);
    const highest = (rear.highest[s] as number) / (front.lowest[s] as number);
    return sum + mostPairWorth(lowest, highest, at);
  }, front.best + rear.best);
}

function joinBoxes(fronts: Box, rears: Box, setups: readonly PlanSetup[], list: PlanList): void {
  for (const front of fronts.members) {
    if (front.best.worth === Number.NEGATIVE_INFINITY || front.best.worth + rears.best < list.worst()) break;
    for (const rear of rears.members) {
      if (rear.best.worth === Number.NEGATIVE_INFINITY || front.best.worth + rear.best.worth < list.worst()) break;
      const plan = planOf(front, rear, front.best, rear.best, setups);
      if (plan !== null && plan.worth > Number.NEGATIVE_INFINITY) list.offer(plan);
    }
  }
}

/** Null where the plan is out of balance in some setup. */
export function planOf(
  fronts: Pick<AxleClass, 'purchase'>,
  rears: Pick<AxleClass, 'purchase'>,
  front: AxlePlan,
  rear: AxlePlan,
  setups: readonly PlanSetup[],
): JoinedPlan | null {
  let worth = front.worth + rear.worth;
  for (const [s, at] of setups.entries()) {
    const [f, r] = [front.corners[s] as Candidate, rear.corners[s] as Candidate];
    if (!isBalanced(f, r, at.setup)) return null;
    worth += pairWorth(f, r, at);
  }
  return { front, rear, worth, purchase: `${fronts.purchase}|${rears.purchase}` };
}

/** Fills the list with plans that score 0, lower indices first. Every purchase that scores more already stands in it. */
function addZeros(
  fronts: readonly AxleClass[],
  rears: readonly AxleClass[],
  setups: readonly PlanSetup[],
  list: PlanList,
): void {
  const inOrder = (classes: readonly AxleClass[]) => [...classes].sort((a, b) => compareIndices(a.first, b.first));
  const rearsInOrder = inOrder(rears);
  for (const front of inOrder(fronts)) {
    for (const rear of rearsInOrder) {
      if (list.isFull) return;
      if (list.has(`${front.purchase}|${rear.purchase}`)) continue;
      const plan = planOf(front, rear, front.first, rear.first, setups);
      if (plan !== null) list.offer({ ...plan, worth: Number.NEGATIVE_INFINITY });
    }
  }
}

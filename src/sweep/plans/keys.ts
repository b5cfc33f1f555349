/**
 * Front and rear of plans with some part families swapped between setups. Once the shared parts of both axles are
 * chosen, as a key of either, each setup chooses by itself: so the best plans of two keys are the best pairs of each
 * setup put together, and of no setup more pairs are needed than plans are wanted. Keys are taken two by two in the
 * order of what they are worth at most; the pairs of two lists are found once for all keys that have these lists.
 */
import type { Candidate } from '../../model/corner/score.ts';
import type { AxlePlan, PlanSetup } from '../axlePlan.ts';
import { boxOf, type Member, type Span, spanOver } from '../boxes.ts';
import { comparePlans, type JoinedPlan, joinBoxes, joinClasses, PlanList } from '../join.ts';

export interface Choice {
  readonly corner: Candidate;
  readonly worth: number;
}

/** A setup's choices for one key: of those bought and paired alike, the best and the first. */
export interface ChoiceClass {
  readonly stack: number;
  best: Choice;
  first: Choice;
}

/** What one setup may choose with a key. */
export interface ChoiceList {
  /** The same for lists of the setup that are alike, choice by choice, in all but their shared parts. */
  readonly number: number;
  readonly classes: readonly ChoiceClass[];
}

/** A key of an axle: per setup what it may choose, and a corner that is at least as good as all of that. */
export interface Keyed extends Member {
  readonly spans: readonly Span[];
  readonly lists: readonly ChoiceList[];
}

/** @param lists one a setup, none of them empty */
export function keyed(lists: readonly ChoiceList[]): Keyed {
  const corners = lists.map(({ classes }) => ({
    ...(classes[0] as ChoiceClass).first.corner,
    index: classes.reduce((least, { first }) => Math.min(least, first.corner.index), Number.POSITIVE_INFINITY),
  }));
  const best = lists.map(({ classes }) =>
    classes.reduce((most, { best: one }) => Math.max(most, one.worth), Number.NEGATIVE_INFINITY),
  );
  const spans = lists.map(({ classes }) => spanOver(classes.map((one) => one.best.corner)));
  return { corners, worth: best.reduce((sum, worth) => sum + worth, 0), spans, lists };
}

/** @param list the best plans, which may hold some that score */
export function joinKeys(
  fronts: readonly Keyed[],
  rears: readonly Keyed[],
  setups: readonly PlanSetup[],
  list: PlanList,
): void {
  if (fronts.length === 0 || rears.length === 0) return;
  const roots = [[boxOf([...fronts], false)], [boxOf([...rears], false)]] as const;
  const joinAll = (isZero: boolean) => {
    const pairs = new Pairs(setups, list, isZero);
    joinBoxes({ setups, rule: 'indices', list, isZero }, roots, 1, (front, rear) =>
      offerKeys(front, rear, pairs, list),
    );
  };
  joinAll(false);
  if (!list.isFull) joinAll(true);
}

/** Puts the setups' best pairs together, setup by setup, as many as could be wanted. */
function offerKeys(front: Keyed, rear: Keyed, pairs: Pairs, list: PlanList): void {
  const own = front.lists.map((ofFront, s) => pairs.between(ofFront, rear.lists[s] as ChoiceList, s));
  if (own.some((ofSetup) => ofSetup.length === 0)) return;
  const most = own.reduce((sum, [best]) => sum + (best as PlacedPair).worth, 0);
  if (most < list.worst()) return;
  let plans: JoinedPlan[] = [NOTHING];
  for (const [s, ofSetup] of own.entries()) {
    const [fronts, rears] = [front.lists[s] as ChoiceList, rear.lists[s] as ChoiceList];
    const longer = plans.flatMap((plan) => ofSetup.map((pair) => extended(plan, pair, fronts, rears, pairs.isZero)));
    plans = longer.sort(comparePlans).slice(0, pairs.count);
  }
  for (const plan of plans) list.offer(plan);
}

const NO_CORNERS: AxlePlan = { corners: [], worth: 0 };
const NOTHING: JoinedPlan = { front: NO_CORNERS, rear: NO_CORNERS, worth: 0, tie: 0 };

/** A pair of two lists, by the places of its choices in them. */
interface PlacedPair {
  readonly front: number;
  readonly rear: number;
  readonly worth: number;
}

function extended(
  plan: JoinedPlan,
  pair: PlacedPair,
  fronts: ChoiceList,
  rears: ChoiceList,
  isZero: boolean,
): JoinedPlan {
  const front = withCorner(plan.front, fronts.classes[pair.front] as ChoiceClass, isZero);
  const rear = withCorner(plan.rear, rears.classes[pair.rear] as ChoiceClass, isZero);
  return { front, rear, worth: plan.worth + pair.worth, tie: 0 };
}

function withCorner({ corners, worth }: AxlePlan, { best, first }: ChoiceClass, isZero: boolean): AxlePlan {
  const chosen = isZero ? first : best;
  return { corners: [...corners, chosen.corner], worth: worth + chosen.worth };
}

interface Placed extends AxlePlan {
  readonly place: number;
}

/** The pairs of two lists in one setup, the best or, where plans score 0, the first; found once for lists alike. */
class Pairs {
  readonly isZero: boolean;
  /** As many as could be wanted: of plans that score 0 also those whose purchase scores in another way. */
  readonly count: number;
  readonly #setups: readonly PlanSetup[];
  readonly #list: PlanList;
  readonly #known: Map<string, readonly PlacedPair[]>[];

  constructor(setups: readonly PlanSetup[], list: PlanList, isZero: boolean) {
    this.isZero = isZero;
    this.count = list.count + (isZero ? list.plans.length : 0);
    this.#setups = setups;
    this.#list = list;
    this.#known = setups.map(() => new Map());
  }

  between(front: ChoiceList, rear: ChoiceList, s: number): readonly PlacedPair[] {
    const ofSetup = this.#known[s] as Map<string, readonly PlacedPair[]>;
    const key = `${front.number} ${rear.number}`;
    const known = ofSetup.get(key) ?? this.#find(front, rear, this.#setups[s] as PlanSetup);
    ofSetup.set(key, known);
    return known;
  }

  #find(front: ChoiceList, rear: ChoiceList, at: PlanSetup): PlacedPair[] {
    const list = new PlanList(this.count, this.#list.stacks);
    joinClasses({ setups: [at], rule: 'indices', list, isZero: this.isZero }, placed(front), placed(rear));
    return list.plans.map((plan) => ({
      front: (plan.front as Placed).place,
      rear: (plan.rear as Placed).place,
      worth: plan.worth,
    }));
  }
}

function placed({ classes }: ChoiceList) {
  return classes.map(({ best, first }, place) => {
    const planOf = ({ corner, worth }: Choice): Placed => ({ corners: [corner], worth, place });
    return { best: planOf(best), first: planOf(first) };
  });
}

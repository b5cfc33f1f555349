/**
 * Plans to start from: what each setup alone would choose, its shared parts kept, and the best of the swapped parts
 * found for the other setups. Good plans known early spare most of the search; they decide nothing.
 */
import { firstFailure } from '../../model/corner/findings.ts';
import { cornerAt, type SubProduct } from '../../model/corner/options.ts';
import { type Candidate, candidateOf, isBalanced } from '../../model/corner/score.ts';
import { cornerState } from '../../model/corner/state.ts';
import { heightWindow } from '../../model/corner/window.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import { axlePlanOf, type JoinedPlan, type PlanList, type PlanSetup, pairWorth, planOf, worthOf } from '../join.ts';
import type { AxleLayout } from '../layout.ts';
import type { SplitParts } from './swapped.ts';

export type Layouts = Readonly<Record<AxleName, readonly AxleLayout[]>>;
export type Keys = Readonly<Record<AxleName, SplitParts>>;
export type Indices = Readonly<Record<AxleName, number>>;

/** More siblings than this a corner, and a start costs more than it spares. */
const MOST_SIBLINGS = 1000;

/** Offers the list a few plans for each of these pairs of combinations. */
export function offerStarts(
  list: PlanList,
  count: number,
  starts: readonly Indices[],
  layouts: Layouts,
  keys: Keys,
  setups: readonly PlanSetup[],
): void {
  if (AXLE_NAMES.some((axle) => keys[axle].swapped.count > MOST_SIBLINGS)) return;
  const seen = new Set<string>();
  for (const start of starts) {
    const name = AXLE_NAMES.map((axle) => keys[axle].shared.numberOf(start[axle])).join(' ');
    if (seen.has(name)) continue;
    seen.add(name);
    const pairs = setups.map((at, s) => bestPairs(at, s, count, start, layouts, keys));
    if (pairs.every((found) => found.length > 0)) offerCombined(list, pairs, setups);
  }
}

interface StartPair {
  readonly front: Candidate;
  readonly rear: Candidate;
  readonly worth: number;
}

/** The setup's best pairs with the shared parts of the start. */
function bestPairs(at: PlanSetup, s: number, count: number, start: Indices, layouts: Layouts, keys: Keys): StartPair[] {
  const ofAxle = (axle: AxleName) => workable(layouts[axle][s] as AxleLayout, keys[axle].swapped, start[axle]);
  const rears = ofAxle('rear');
  const pairs = ofAxle('front').flatMap((front) =>
    rears.flatMap((rear) => {
      if (!isBalanced(front, rear, at.setup)) return [];
      const worth = worthOf(front.logScore, at) + worthOf(rear.logScore, at) + pairWorth(front, rear, at);
      return worth > Number.NEGATIVE_INFINITY ? [{ front, rear, worth }] : [];
    }),
  );
  return pairs.sort((a, b) => b.worth - a.worth).slice(0, count);
}

function workable({ site, options, ranking }: AxleLayout, { variantsOf }: SubProduct, start: number): Candidate[] {
  return variantsOf(start).flatMap((index) => {
    const state = cornerState(site, cornerAt(options, index));
    return firstFailure(state) === null ? [candidateOf(index, { state, window: heightWindow(state) }, ranking)] : [];
  });
}

/** Each setup in turn runs through its best pairs while the others count their very best. */
function offerCombined(list: PlanList, pairs: readonly (readonly StartPair[])[], setups: readonly PlanSetup[]): void {
  for (const [turn, own] of pairs.entries()) {
    for (const pair of own) {
      const chosen = pairs.map((others, s) => (s === turn ? pair : (others[0] as StartPair)));
      const ofAxle = (axle: AxleName) =>
        axlePlanOf(
          chosen.map((one) => one[axle]),
          setups,
        );
      // Each setup's pair is balanced by itself, so there is a plan.
      list.offer(planOf(ofAxle('front'), ofAxle('rear'), setups, 'indices') as JoinedPlan);
    }
  }
}

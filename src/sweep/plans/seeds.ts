/**
 * Plans to start from: what each setup alone would choose, its shared parts kept, and the best of the swapped parts
 * found for the other setups. Good plans known early spare most of the search; they decide nothing.
 */
import { firstFailure } from '../../domain/corner/findings.ts';
import { cornerState } from '../../domain/corner/state.ts';
import { heightWindow } from '../../domain/corner/window.ts';
import { type Candidate, candidateOf, isBalanced } from '../../domain/ranking/criteria.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import type { AxleLayout } from '../layout.ts';
import { cornerAt } from '../options.ts';
import { type JoinedPlan, type PlanList, planOf } from './join.ts';
import type { KeyReader } from './keys.ts';
import { type PlanSetup, pairWorth, worthOf } from './worth.ts';

export type Layouts = Readonly<Record<AxleName, readonly AxleLayout[]>>;
export type Keys = Readonly<Record<AxleName, KeyReader>>;
export type Indices = Readonly<Record<AxleName, number>>;

/** More siblings than this a corner, and a start costs more than it spares. */
const MOST_SIBLINGS = 1000;

/** Offers the list a few plans for each of these pairs of combinations. */
export function offerSeeds(
  list: PlanList,
  keep: number,
  starts: readonly Indices[],
  layouts: Layouts,
  keys: Keys,
  setups: readonly PlanSetup[],
): void {
  if (AXLE_NAMES.some((axle) => keys[axle].siblings > MOST_SIBLINGS)) return;
  const seen = new Set<string>();
  for (const start of starts) {
    const name = AXLE_NAMES.map((axle) => keys[axle].keyOf(start[axle])).join(' ');
    if (seen.has(name)) continue;
    seen.add(name);
    const pairs = setups.map((at, s) => bestPairs(at, s, keep, start, layouts, keys));
    if (pairs.every((found) => found.length > 0)) offerCombined(list, pairs, layouts, setups);
  }
}

interface SeedPair {
  readonly front: Candidate;
  readonly rear: Candidate;
  readonly worth: number;
}

/** The setup's best pairs with the shared parts of the start. */
function bestPairs(at: PlanSetup, s: number, keep: number, start: Indices, layouts: Layouts, keys: Keys): SeedPair[] {
  const ofAxle = (axle: AxleName) => workable(layouts[axle][s] as AxleLayout, keys[axle], start[axle]);
  const rears = ofAxle('rear');
  const pairs = ofAxle('front').flatMap((front) =>
    rears.flatMap((rear) => {
      if (!isBalanced(front, rear, at.setup)) return [];
      const worth = worthOf(front.logScore, at) + worthOf(rear.logScore, at) + pairWorth(front, rear, at);
      return worth > Number.NEGATIVE_INFINITY ? [{ front, rear, worth }] : [];
    }),
  );
  return pairs.sort((a, b) => b.worth - a.worth).slice(0, keep);
}

function workable({ site, options, ranking }: AxleLayout, { siblingsOf }: KeyReader, start: number): Candidate[] {
  return siblingsOf(start).flatMap((index) => {
    const state = cornerState(site, cornerAt(options, index));
    return firstFailure(state) === null ? [candidateOf(index, { state, window: heightWindow(state) }, ranking)] : [];
  });
}

/** Each setup in turn runs through its best pairs while the others keep their very best. */
function offerCombined(
  list: PlanList,
  pairs: readonly (readonly SeedPair[])[],
  layouts: Layouts,
  setups: readonly PlanSetup[],
): void {
  for (const [turn, own] of pairs.entries()) {
    for (const pair of own) {
      const chosen = pairs.map((others, s) => (s === turn ? pair : (others[0] as SeedPair)));
      const ofAxle = (axle: AxleName) => {
        const corners = chosen.map((one) => one[axle]);
        const worth = corners.reduce((sum, c, s) => sum + worthOf(c.logScore, setups[s] as PlanSetup), 0);
        const stacks = (layouts[axle][0] as AxleLayout).stacks.count;
        return { purchase: corners.map(({ index }) => index % stacks).join(' '), plan: { corners, worth } };
      };
      const [front, rear] = [ofAxle('front'), ofAxle('rear')];
      // Each setup's pair is balanced by itself, so there is a plan.
      list.offer(planOf(front, rear, front.plan, rear.plan, setups) as JoinedPlan);
    }
  }
}

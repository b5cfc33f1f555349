/**
 * Plans to start from: what each setup alone would choose, its shared parts kept, and the best of the swapped parts
 * found for the other setups. Good plans known early spare most of the search; they decide nothing.
 */
import { firstFailure } from '../../model/corner/findings.ts';
import { cornerAt } from '../../model/corner/options.ts';
import { type Candidate, candidateOf, isBalanced } from '../../model/corner/score.ts';
import { cornerState } from '../../model/corner/state.ts';
import { heightWindow } from '../../model/corner/window.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import { axlePlanOf, type PlanSetup, pairWorth, worthOf } from '../axlePlan.ts';
import { type JoinedPlan, type PlanList, planOf, type ScoredPair } from '../join.ts';
import type { AxleLayout } from '../layout.ts';
import type { SplitParts } from './swapped.ts';

export type Layouts = Readonly<Record<AxleName, readonly AxleLayout[]>>;
export type Keys = Readonly<Record<AxleName, SplitParts>>;
export type Indices = Readonly<Record<AxleName, number>>;

/** What a setup's own sweep found, as far as plans need it. */
export interface SetupBests {
  readonly axles: Readonly<Record<AxleName, { readonly candidates: readonly Candidate[] }>>;
  readonly pairs: { readonly best: readonly ScoredPair[] };
}

/** Swapped parts that are all tried with a start; of more the most promising. */
const MOST_TRIED = { all: 1000, promising: 60 } as const;

/** Offers the list a few plans for each of the setups' own best pairs. */
export function offerStarts(
  list: PlanList,
  count: number,
  bests: readonly SetupBests[],
  layouts: Layouts,
  keys: Keys,
  setups: readonly PlanSetup[],
): void {
  const starts = bests.flatMap(({ pairs }) => pairs.best.map((p) => ({ front: p.front.index, rear: p.rear.index })));
  const triedIn = bests.map((own) => ({ front: triedOn('front', own, keys), rear: triedOn('rear', own, keys) }));
  const seen = new Set<string>();
  const known = new Map<string, readonly Candidate[]>();
  for (const start of starts) {
    const name = AXLE_NAMES.map((axle) => keys[axle].shared.numberOf(start[axle])).join(' ');
    if (seen.has(name)) continue;
    seen.add(name);
    const pairs = setups.map((at, s) => bestPairs(at, count, (axle) => workableIn(s, axle, start[axle])));
    if (pairs.every((found) => found.length > 0)) offerCombined(list, pairs, setups);
  }

  /** What works in a setup with the shared parts of the start; starts share axles. */
  function workableIn(s: number, axle: AxleName, start: number): readonly Candidate[] {
    const name = `${s} ${axle} ${keys[axle].shared.numberOf(start)}`;
    const found = known.get(name) ?? workable(layouts[axle][s] as AxleLayout, (triedIn[s] as Siblings)[axle](start));
    known.set(name, found);
    return found;
  }
}

/** The combinations with the shared parts of one that are tried. */
type Siblings = Readonly<Record<AxleName, (start: number) => readonly number[]>>;

function triedOn(axle: AxleName, { axles, pairs }: SetupBests, keys: Keys): (start: number) => readonly number[] {
  const { count, partOf, variantsOf } = keys[axle].swapped;
  if (count <= MOST_TRIED.all) return variantsOf;
  const best = [...axles[axle].candidates].sort((a, b) => (a.logScore === b.logScore ? 0 : b.logScore - a.logScore));
  const parts = new Set<number>();
  for (const { index } of [...pairs.best.map((pair) => pair[axle]), ...best]) {
    if (parts.size < MOST_TRIED.promising) parts.add(partOf(index));
  }
  return (start) => [...parts].map((part) => start - partOf(start) + part);
}

interface StartPair {
  readonly front: Candidate;
  readonly rear: Candidate;
  readonly worth: number;
}

/** The best pairs in a setup of what works on its axles. */
function bestPairs(at: PlanSetup, count: number, ofAxle: (axle: AxleName) => readonly Candidate[]): StartPair[] {
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

function workable({ site, options, ranking }: AxleLayout, indices: readonly number[]): Candidate[] {
  return indices.flatMap((index) => {
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

/** One axle of a plan: what it is worth, what is bought for it, and which of two comes first. */
import { stackOf } from '../model/corner/options.ts';
import { type Candidate, logSum, pairCriteria, toGrid, totalWeight } from '../model/corner/score.ts';
import type { Ranking, Setup } from '../model/scenario.ts';

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

export function isSamePurchase(a: AxlePlan, b: AxlePlan, stacks: number): boolean {
  return a.corners.every(
    ({ index }, s) => stackOf(index, stacks) === stackOf((b.corners[s] as Candidate).index, stacks),
  );
}

/** Indices compared setup by setup; negative when `a` comes first. */
export function compareIndices(a: AxlePlan, b: AxlePlan): number {
  for (let s = 0; s < a.corners.length; s++) {
    const difference = (a.corners[s] as Candidate).index - (b.corners[s] as Candidate).index;
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Negative when `a` is better: more worth, or as much and lower indices. */
export function compareAxlePlans(a: AxlePlan, b: AxlePlan): number {
  if (a.worth !== b.worth) return a.worth > b.worth ? -1 : 1;
  return compareIndices(a, b);
}

/** What is bought: the stack of every setup. */
export function purchaseOf({ corners }: AxlePlan, stacks: number): string {
  return corners.map(({ index }) => stackOf(index, stacks)).join(' ');
}

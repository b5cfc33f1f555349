/**
 * What corners and pairs are worth to a plan. The plan's score is the geometric mean of its setups' scores, and a
 * setup's score is exp(log sum / total weight); so each log sum counts divided by its own setup's total weight.
 * Every term is rounded to the grid of the log scores, which makes sums exact and independent of their order.
 */
import { type Candidate, logSum, pairCriteria, toGrid, upperBalance } from '../../domain/ranking/criteria.ts';
import type { Ranking, Setup } from '../../domain/scenario.ts';

/** A setup as plans see it. */
export interface PlanSetup {
  readonly setup: Setup;
  readonly ranking: Ranking;
  /** Sum of the weights of all criteria a pair of this setup is judged by. */
  readonly weight: number;
}

export function planSetupOf(setup: Setup, ranking: Ranking): PlanSetup {
  const { weights } = ranking;
  const clearance = ranking.goodClearance === null ? 0 : weights.clearance;
  const wanted = setup.axles.front.wantedFrequency === null ? 0 : weights.front_frequency;
  const price = ranking.price === null ? 0 : weights.price;
  const total = weights.bump_travel + weights.height_coverage + weights.balance + clearance + wanted + price;
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

/** What `pairWorth` is at most for frequency ratios between two values; -Infinity where none is balanced. */
export function mostPairWorth(lowest: number, highest: number, at: PlanSetup): number {
  return upperBalance(lowest, highest, at.setup, at.ranking) / at.weight + HAIR;
}

/** Bounds are made a hair too high, so that rounding never drops a plan: far above the grid, far below any difference. */
export const HAIR = 2 ** -32;

/**
 * Desirabilities of a corner and of a pair, between 0 and 1, and their weighted geometric mean
 * (Derringer & Suich 1980, "Simultaneous optimization of several response variables", J. Quality Technology 12(4)).
 *
 * A criterion that both axles have gives half its weight to each.
 */
import { judgedFrequency } from '../corner/findings.ts';
import { balanceDesirability, balanceLimits, isWithinLimits } from '../corner/pairBalance.ts';
import type { Site } from '../corner/site.ts';
import { thinnestContact } from '../corner/state.ts';
import { coveredShare } from '../corner/window.ts';
import { largerIsBetter, smallerIsBetter, targetIsBest } from '../formula/desirability.ts';
import type { Working } from '../quantities/quantity.ts';
import type { CriterionScore } from '../result.ts';
import type { Ranking, Setup } from '../scenario.ts';
import { cornerPrice } from './price.ts';

/** What ranking and pairing need to know of a workable corner. */
export interface Candidate {
  /** Position in the product of options. */
  readonly index: number;
  readonly frequency: number;
  /** Price of one corner; null when a part has none. */
  readonly price: number | null;
  /** Sum of weight x ln(desirability) over the corner's own criteria; -Infinity when one of them is 0. */
  readonly logScore: number;
}

export function candidateOf(index: number, working: Working, ranking: Ranking): Candidate {
  return {
    index,
    frequency: judgedFrequency(working.state),
    price: cornerPrice(working.state.corner),
    logScore: logSum(cornerCriteria(working, ranking)),
  };
}

/** The criteria one corner decides alone, in a fixed order. */
export function cornerCriteria({ state, window }: Working, ranking: Ranking): CriterionScore[] {
  const { target, axle } = state.site;
  const { weights } = ranking;
  const scores: CriterionScore[] = [
    score(
      'bump_travel',
      weights.bump_travel / 2,
      largerIsBetter(state.bumpTravel, target.leastBumpTravel, target.goodBumpTravel),
    ),
    score('height_coverage', weights.height_coverage / 2, coveredShare(window, target.wantedFrom, target.wantedTo)),
  ];
  if (ranking.goodClearance !== null) {
    const thin = thinnestContact(state);
    scores.push(
      score('clearance', weights.clearance / 2, largerIsBetter(thin.clearance - thin.margin, 0, ranking.goodClearance)),
    );
  }
  if (axle === 'front' && target.wantedFrequency !== null) {
    const { frequencyFrom, wantedFrequency, frequencyTo } = target;
    const desirability = targetIsBest(judgedFrequency(state), frequencyFrom, wantedFrequency, frequencyTo);
    scores.push(score('front_frequency', weights.front_frequency, desirability));
  }
  return scores.filter((s) => s.weight > 0);

  function score(criterion: CriterionScore['criterion'], weight: number, desirability: number): CriterionScore {
    return { criterion, axle, weight, desirability };
  }
}

/**
 * What a corner's log score is at most: the parts that bump travel and frequency decide, full coverage of the wanted
 * heights and no thin clearance taken for granted.
 */
export function upperLogScore(travelLog: number, wantedLog: number): number {
  return toGrid(travelLog + wantedLog);
}

/** The bump travel's part of a corner's log score. */
export function travelLogOf({ target }: Site, bumpTravel: number, { weights }: Ranking): number {
  if (weights.bump_travel === 0) return 0;
  const desirability = largerIsBetter(bumpTravel, target.leastBumpTravel, target.goodBumpTravel);
  return (weights.bump_travel / 2) * Math.log(desirability);
}

/** The wanted frequency's part of a corner's log score; 0 at the rear and where none is wanted. */
export function wantedLogOf({ target, axle }: Site, frequency: number, { weights }: Ranking): number {
  const { frequencyFrom, wantedFrequency, frequencyTo } = target;
  if (axle !== 'front' || wantedFrequency === null || weights.front_frequency === 0) return 0;
  return weights.front_frequency * Math.log(targetIsBest(frequency, frequencyFrom, wantedFrequency, frequencyTo));
}

/** The criteria only the pair decides, in a fixed order. */
export function pairCriteria(front: Candidate, rear: Candidate, setup: Setup, ranking: Ranking): CriterionScore[] {
  const { weights } = ranking;
  const ratio = rear.frequency / front.frequency;
  const scores: CriterionScore[] = [
    {
      criterion: 'balance',
      axle: null,
      weight: weights.balance,
      desirability: balanceDesirability(ratio, setup.balance),
    },
  ];
  const price = pairPrice(front, rear);
  if (ranking.price !== null && price !== null) {
    const desirability = smallerIsBetter(price, ranking.price.good, ranking.price.worst);
    scores.push({ criterion: 'price', axle: null, weight: weights.price, desirability });
  }
  return scores.filter((s) => s.weight > 0);
}

/**
 * What balance takes away at least, for pairs whose frequency ratio lies between two values, a hair less for rounding;
 * -Infinity where none of them reaches the limits.
 */
export function upperBalance(lowest: number, highest: number, setup: Setup, ranking: Ranking): number {
  const { from, to } = balanceLimits(setup.balance);
  if (highest < from * (1 - HAIR) || lowest > to * (1 + HAIR)) return Number.NEGATIVE_INFINITY;
  if (ranking.weights.balance === 0) return 0;
  const nearest = Math.min(highest, Math.max(lowest, setup.balance.target));
  return Math.min(0, ranking.weights.balance * Math.log(balanceDesirability(nearest, setup.balance) + HAIR) + HAIR);
}

/** Far above rounding, far below any difference that matters. */
const HAIR = 1e-10;

/** Two corners an axle. */
export function pairPrice(front: Candidate, rear: Candidate): number | null {
  return front.price === null || rear.price === null ? null : 2 * (front.price + rear.price);
}

/** Whether the ratio of the two frequencies lies within the setup's limits. */
export function isBalanced(front: Candidate, rear: Candidate, setup: Setup): boolean {
  return isWithinLimits(rear.frequency / front.frequency, setup.balance);
}

/** Weighted log score of a pair before it is divided by the weights: what pairs are compared by. */
export function pairLogScore(front: Candidate, rear: Candidate, setup: Setup, ranking: Ranking): number {
  return front.logScore + rear.logScore + logSum(pairCriteria(front, rear, setup, ranking));
}

/** The score shown: weighted geometric mean of all desirabilities, 0 to 1. */
export function scoreOf(criteria: readonly CriterionScore[]): number {
  const total = criteria.reduce((sum, c) => sum + c.weight, 0);
  return total === 0 ? 1 : Math.exp(logSum(criteria) / total);
}

/** Weighted geometric mean over the corner's own criteria, 0 to 1, from its log score. */
export function cornerScore(site: Site, ranking: Ranking, logScore: number): number {
  const { weights } = ranking;
  const clearance = ranking.goodClearance === null ? 0 : weights.clearance / 2;
  const wanted = site.axle === 'front' && site.target.wantedFrequency !== null ? weights.front_frequency : 0;
  const total = weights.bump_travel / 2 + weights.height_coverage / 2 + clearance + wanted;
  return total === 0 ? 1 : Math.exp(logScore / total);
}

/**
 * Logarithms are rounded to multiples of 2^-40 (about 1e-12, far below any difference that matters), so that sums of
 * a few of them are exact: a pair's score then doesn't depend on the order of adding, and better corners never make
 * a worse pair by rounding.
 */
export function logSum(criteria: readonly CriterionScore[]): number {
  return toGrid(criteria.reduce((sum, c) => sum + c.weight * Math.log(c.desirability), 0));
}

const GRID = 2 ** 40;

export function toGrid(value: number): number {
  return Math.round(value * GRID) / GRID;
}

/**
 * Desirabilities of a corner and of a pair, between 0 and 1, and their weighted geometric mean
 * (Derringer & Suich 1980, "Simultaneous optimization of several response variables", J. Quality Technology 12(4)).
 *
 * A criterion that both axles have gives half its weight to each.
 */

import {
  CORNER_CRITERIA,
  type CornerCriterion,
  CRITERIA,
  type CriterionName,
  PAIR_CRITERIA,
  type PairCriterion,
} from '../criteria.ts';
import { largerIsBetter, smallerIsBetter, targetIsBest } from '../formula/desirability.ts';
import { AXLE_NAMES, type AxleName, type AxleTarget, FAMILIES, type Ranking, type Setup } from '../scenario.ts';
import type { Share } from '../units.ts';
import { balanceDesirability, balanceLimits, isWithinLimits } from './pairBalance.ts';
import { judgedFrequency } from './rates.ts';
import type { Corner, Site } from './site.ts';
import { thinnestContact } from './state.ts';
import { coveredShare, type Working } from './window.ts';

/** Desirability of the numbers a criterion is judged on, 0 to 1; its least over a box of them lies at a corner of the box. */
type Scale = (...numbers: readonly number[]) => number;

/** A corner's value that criteria are judged on, with its unit. */
export type JudgedKey =
  | `${'bump_travel' | 'lowest_height' | 'highest_height' | 'thinnest_spare'}_mm`
  | `${Setup['frequencyBasis']}_frequency_hz`;

/** How a criterion is judged. */
interface Judgement<Judged extends readonly unknown[], Aim> {
  /** What it is judged on; null: this pair cannot be judged by it. */
  readonly numbers: (...judged: Judged) => readonly number[] | null;
  /** The same among a corner's values - of a pair: for each key the front's and the rear's; none: no tolerance moves it. */
  readonly keys: (setup: Pick<Setup, 'frequencyBasis'>) => readonly JudgedKey[];
  /** Null: the setup or the ranking has no use for it. */
  readonly scale: (aim: Aim, ranking: Ranking) => Scale | null;
}

const frequencyKeys = ({ frequencyBasis }: Pick<Setup, 'frequencyBasis'>) => [
  `${frequencyBasis}_frequency_hz` as const,
];

const OF_CORNER: Readonly<Record<CornerCriterion, Judgement<[Working], AxleTarget>>> = {
  bump_travel: {
    numbers: ({ state }) => [state.bumpTravel],
    keys: () => ['bump_travel_mm'],
    scale:
      ({ leastBumpTravel, goodBumpTravel }) =>
      (travel) =>
        largerIsBetter(travel, leastBumpTravel, goodBumpTravel),
  },
  height_coverage: {
    numbers: ({ window }) => (window === null ? [Number.NaN, Number.NaN] : [window.low.height, window.high.height]),
    keys: () => ['lowest_height_mm', 'highest_height_mm'],
    scale:
      ({ wantedFrom, wantedTo }) =>
      (low, high) =>
        coveredShare(windowOver(low, high), wantedFrom, wantedTo),
  },
  clearance: {
    numbers: ({ state }) => {
      const { clearance, margin } = thinnestContact(state);
      return [clearance - margin];
    },
    keys: () => ['thinnest_spare_mm'],
    scale: (_, { goodClearance }) =>
      goodClearance === null ? null : (spare) => largerIsBetter(spare, 0, goodClearance),
  },
  front_frequency: {
    numbers: ({ state }) => [judgedFrequency(state)],
    keys: frequencyKeys,
    scale: ({ frequencyFrom, wantedFrequency, frequencyTo }) =>
      wantedFrequency === null ? null : (hertz) => targetIsBest(hertz, frequencyFrom, wantedFrequency, frequencyTo),
  },
};

const OF_PAIR: Readonly<Record<PairCriterion, Judgement<[front: Candidate, rear: Candidate], Setup>>> = {
  balance: {
    numbers: (front, rear) => [front.frequency, rear.frequency],
    keys: frequencyKeys,
    scale:
      ({ balance }) =>
      (front, rear) =>
        balanceDesirability(rear / front, balance),
  },
  price: {
    numbers: (front, rear) => {
      const price = pairPrice(front, rear);
      return price === null ? null : [price];
    },
    keys: () => [],
    scale: (_, { price }) => price && ((total) => smallerIsBetter(total, price.good, price.worst)),
  },
};

function windowOver(low: number, high: number) {
  const end = (height: number) => ({ height, perch: Number.NaN, limit: '' });
  return { low: end(low), high: end(high), usable: high >= low };
}

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

/** A criterion in use: how much it weighs, and how it judges. */
interface Use {
  readonly weight: number;
  readonly scale: Scale;
}

function useOnCorner(
  name: CornerCriterion,
  { axle, target }: Pick<Site, 'axle' | 'target'>,
  ranking: Ranking,
): Use | null {
  const { scope } = CRITERIA[name];
  const weight = scope === 'corner' ? ranking.weights[name] / 2 : axle === scope ? ranking.weights[name] : 0;
  const scale = weight > 0 ? OF_CORNER[name].scale(target, ranking) : null;
  return scale && { weight, scale };
}

function useOnPair(name: PairCriterion, setup: Setup, ranking: Ranking): Use | null {
  const weight = ranking.weights[name];
  const scale = weight > 0 ? OF_PAIR[name].scale(setup, ranking) : null;
  return scale && { weight, scale };
}

/** The criteria one corner decides alone, in a fixed order. */
export function cornerCriteria(working: Working, ranking: Ranking): CriterionScore[] {
  const { site } = working.state;
  return CORNER_CRITERIA.flatMap((name) =>
    scoresBy(name, site.axle, useOnCorner(name, site, ranking), OF_CORNER[name].numbers(working)),
  );
}

function scoresBy(
  criterion: CriterionName,
  axle: AxleName | null,
  use: Use | null,
  numbers: readonly number[] | null,
): CriterionScore[] {
  return use && numbers ? [{ criterion, axle, weight: use.weight, desirability: use.scale(...numbers) }] : [];
}

/** Weights of the criteria that count for a corner. */
export function cornerWeights(site: Pick<Site, 'axle' | 'target'>, ranking: Ranking): number[] {
  return CORNER_CRITERIA.map((name) => useOnCorner(name, site, ranking)?.weight ?? 0);
}

/** Sum of the weights of all criteria that a pair of the setup is judged by. */
export function totalWeight(setup: Setup, ranking: Ranking): number {
  const corners = AXLE_NAMES.flatMap((axle) => cornerWeights({ axle, target: setup.axles[axle] }, ranking));
  return sumOf([...corners, ...PAIR_CRITERIA.map((name) => useOnPair(name, setup, ranking)?.weight ?? 0)]);
}

const sumOf = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0);

/**
 * The least that is left of a criterion's desirability with everything it is judged on anywhere in its band; 0 where one
 * of them does not exist.
 */
export function leastDesirability(
  { criterion, axle, desirability }: CriterionScore,
  setup: Setup,
  ranking: Ranking,
  bandOf: (axle: AxleName, key: JudgedKey) => readonly [low: number, high: number] | null,
): number {
  const { keys, scale } =
    axle === null ? ofPair(criterion as PairCriterion) : ofCorner(criterion as CornerCriterion, axle);
  const bands = keys.flatMap((key) => (axle === null ? AXLE_NAMES : [axle]).map((one) => bandOf(one, key)));
  if (bands.length === 0) return desirability;
  const known = bands.flatMap((band) => (band === null ? [] : [band]));
  if (known.length < bands.length) return 0;
  const ends = known.reduce<number[][]>((some, band) => some.flatMap((one) => band.map((end) => [...one, end])), [[]]);
  return Math.min(...ends.map((numbers) => (scale as Scale)(...numbers)));

  function ofPair(name: PairCriterion) {
    return { keys: OF_PAIR[name].keys(setup), scale: OF_PAIR[name].scale(setup, ranking) };
  }
  function ofCorner(name: CornerCriterion, one: AxleName) {
    return { keys: OF_CORNER[name].keys(setup), scale: OF_CORNER[name].scale(setup.axles[one], ranking) };
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
export function travelLogOf(site: Site, bumpTravel: number, ranking: Ranking): number {
  return logOf(useOnCorner('bump_travel', site, ranking), bumpTravel);
}

/** The wanted frequency's part of a corner's log score; 0 at the rear and where none is wanted. */
export function wantedLogOf(site: Site, frequency: number, ranking: Ranking): number {
  return logOf(useOnCorner('front_frequency', site, ranking), frequency);
}

function logOf(use: Use | null, number: number): number {
  return use ? use.weight * Math.log(use.scale(number)) : 0;
}

/** The criteria only the pair decides, in a fixed order. */
export function pairCriteria(front: Candidate, rear: Candidate, setup: Setup, ranking: Ranking): CriterionScore[] {
  return judgePair(usesOnPair(setup, ranking), front, rear);
}

type PairUse = Use & { readonly name: PairCriterion };

function usesOnPair(setup: Setup, ranking: Ranking): PairUse[] {
  return PAIR_CRITERIA.flatMap((name) => {
    const use = useOnPair(name, setup, ranking);
    return use ? [{ name, ...use }] : [];
  });
}

function judgePair(uses: readonly PairUse[], front: Candidate, rear: Candidate): CriterionScore[] {
  return uses.flatMap(({ name, ...use }) => scoresBy(name, null, use, OF_PAIR[name].numbers(front, rear)));
}

/** Scores pairs of corners that work from their log scores, as all their criteria together do, 0 to 1. */
export function pairScorer(setup: Setup, ranking: Ranking): (front: Candidate, rear: Candidate) => number {
  const uses = usesOnPair(setup, ranking);
  const corners = AXLE_NAMES.flatMap((axle) => cornerWeights({ axle, target: setup.axles[axle] }, ranking));
  return (front, rear) => {
    const ofPair = judgePair(uses, front, rear);
    const total = sumOf([...corners, ...ofPair.map(({ weight }) => weight)]);
    return total === 0 ? 1 : Math.exp((front.logScore + rear.logScore + logSum(ofPair)) / total);
  };
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

/** What price takes away at least, for corners that cost no less than these; -Infinity where a price is not known. */
export function upperPrice(front: number, rear: number, ranking: Ranking): number {
  const weight = ranking.weights.price;
  if (weight === 0 || ranking.price === null) return 0;
  return weight * Math.log(smallerIsBetter(2 * (front + rear), ranking.price.good, ranking.price.worst));
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

/** The score shown: weighted geometric mean of all desirabilities, 0 to 1. */
export function scoreOf(criteria: readonly CriterionScore[]): number {
  const total = sumOf(criteria.map(({ weight }) => weight));
  return total === 0 ? 1 : Math.exp(logSum(criteria) / total);
}

/** Weighted geometric mean over the corner's own criteria, 0 to 1, from its log score. */
export function cornerScore(site: Site, ranking: Ranking, logScore: number): number {
  const total = sumOf(cornerWeights(site, ranking));
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

export interface CriterionScore {
  readonly criterion: CriterionName;
  readonly axle: AxleName | null;
  /** @minimum 0 */
  readonly weight: number;
  /** Derringer & Suich 1980. */
  readonly desirability: Share;
}

// What a corner costs.

/** Price of the parts of one corner, in the scenario's currency; null as soon as one part has none. */
export function cornerPrice(corner: Corner): number | null {
  let total = 0;
  for (const family of FAMILIES) {
    const part = corner[family];
    if (part === null) continue;
    if (part.price === null) return null;
    total += part.price;
  }
  return total;
}

/** Parts that have no price, by name: the reader is told that the total leaves them out. */
export function unpricedParts(corner: Corner): string[] {
  return FAMILIES.flatMap((family) => {
    const part = corner[family];
    return part !== null && part.price === null ? [part.name] : [];
  });
}

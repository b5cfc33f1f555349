import { expect, test } from 'vitest';
import {
  type Candidate,
  type CriterionScore,
  cornerCriteria,
  cornerScore,
  isBalanced,
  logSum,
  pairCriteria,
  pairPrice,
  scoreOf,
  travelLogOf,
  upperBalance,
  wantedLogOf,
} from '../../../src/model/corner/score.ts';
import type { Ranking, Setup } from '../../../src/model/scenario.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import { NO_WEIGHT, plainCorner, plainSite, plainTarget } from '../../setup/corners.ts';

const ranking = (weights: Partial<Ranking['weights']>, rest: Partial<Ranking> = {}): Ranking => {
  return { weights: { ...NO_WEIGHT, ...weights }, price: null, goodClearance: null, keep: 1, ...rest };
};
const setup = { balance: { from: 0.9, target: 1, to: 1.2 } } as unknown as Setup;
const candidate = (frequency: number, price: number | null = null): Candidate => {
  return { index: 0, frequency, price, logScore: 0 };
};
const score = (weight: number, desirability: number): CriterionScore => {
  return { criterion: 'price', axle: null, weight, desirability };
};

test('the score is the weighted geometric mean of the desirabilities, 1 where nothing is weighed', () => {
  expect(scoreOf([score(1, 0.25), score(1, 1)])).toBeCloseTo(0.5, 9);
  expect(scoreOf([score(3, 0.5), score(1, 1)])).toBeCloseTo(0.5 ** 0.75, 9);
  expect(scoreOf([])).toBe(1);
});

test('a criterion that both axles have gives half its weight to each; what weighs nothing is left out', () => {
  const site = plainSite({ target: { wantedFrequency: 1.8 } });
  const weights = ranking({ bump_travel: 2, clearance: 3, front_frequency: 5 }, { goodClearance: 12 });
  const told = (axle: 'front' | 'rear') =>
    cornerCriteria(workingOf({ ...site, axle }, plainCorner()), weights).map((c) => [c.criterion, c.weight]);
  expect(told('rear')).toEqual([
    ['bump_travel', 1],
    ['clearance', 1.5],
  ]);
  expect(told('front').at(-1)).toEqual(['front_frequency', 5]);
});

test('a corner’s score is that of its criteria alone', () => {
  // Room for the tyre, so that no desirability is 0 and hides the others.
  const site = plainSite({ tyreOnArchHeight: 225, target: { allowedSlack: 8, wantedFrequency: 1.8 } });
  for (const axle of ['front', 'rear'] as const) {
    for (const goodClearance of [null, 12]) {
      const weights = { bump_travel: 2, height_coverage: 1, clearance: 3, front_frequency: 5 };
      const ranked = ranking(weights, { goodClearance });
      const criteria = cornerCriteria(workingOf({ ...site, axle }, plainCorner()), ranked);
      expect(scoreOf(criteria)).toBeGreaterThan(0.1);
      expect(scoreOf(criteria)).toBeLessThan(0.99);
      expect(cornerScore({ ...site, axle }, ranked, logSum(criteria))).toBeCloseTo(scoreOf(criteria), 9);
    }
  }
  expect(cornerScore(site, ranking({}), 0)).toBe(1);
});

test('bump travel and wanted frequency take away what their curves say, nothing where they do not count', () => {
  // 35 at least, 60 good: 47.5 is half way.
  const site = plainSite({ target: { wantedFrequency: 1.8 } });
  expect(travelLogOf(site, 47.5, ranking({ bump_travel: 4 }))).toBeCloseTo(2 * Math.log(0.5), 12);
  expect(travelLogOf(site, 47.5, ranking({}))).toBe(0);
  // 1.2 to 1.8: 1.5 is half way.
  const wanted = ranking({ front_frequency: 3 });
  expect(wantedLogOf(site, 1.5, wanted)).toBeCloseTo(3 * Math.log(0.5), 9);
  expect(wantedLogOf({ ...site, axle: 'rear' }, 1.5, wanted)).toBe(0);
  expect(wantedLogOf({ ...site, target: plainTarget }, 1.5, wanted)).toBe(0);
  expect(wantedLogOf(site, 1.5, ranking({}))).toBe(0);
});

test('a pair is judged by balance, and by price where both axles have one; two corners an axle', () => {
  const ranked = ranking({ balance: 2, price: 1 }, { price: { good: 100, worst: 500 } });
  expect(pairPrice(candidate(1.8, 100), candidate(1.8, 50))).toBe(300);
  expect(pairPrice(candidate(1.8), candidate(1.8, 50))).toBeNull();
  expect(pairPrice(candidate(1.8, 50), candidate(1.8))).toBeNull();
  const both = pairCriteria(candidate(1.8, 100), candidate(1.8 * 1.1, 50), setup, ranked);
  expect(both.map((c) => [c.criterion, c.weight])).toEqual([
    ['balance', 2],
    ['price', 1],
  ]);
  expect(both.map((c) => c.desirability)).toEqual([expect.closeTo(0.5, 9), expect.closeTo(0.5, 9)]);
  expect(pairCriteria(candidate(1.8), candidate(1.8, 50), setup, ranked)).toHaveLength(1);
  expect(pairCriteria(candidate(1.8), candidate(1.8), setup, ranking({ price: 1 }))).toEqual([]);
});

test('the ends of the balance window belong to it', () => {
  const at = (ratio: number) => isBalanced(candidate(1), candidate(ratio), setup);
  expect([0.899, 0.9, 1, 1.2, 1.201].map(at)).toEqual([false, true, true, true, false]);
});

test('limits beyond the window let a pair pass that ranks lower, and bound what a range of ratios can give', () => {
  const balance = { target: 1, from: 0.9, to: 1.2, limits: { from: 0.8, to: 1.4 } };
  const wide = { ...setup, balance };
  const weighed = ranking({ balance: 2 });
  const of = (ratio: number) => pairCriteria(candidate(1), candidate(ratio), wide, weighed);
  expect(isBalanced(candidate(1), candidate(1.3), wide)).toBe(true);
  expect(of(1.3)[0]?.desirability).toBeCloseTo(0.25, 12);
  for (const [low, high] of [
    [0.7, 0.85],
    [0.82, 0.95],
    [1.1, 1.3],
    [1.25, 1.6],
  ] as const) {
    const best = upperBalance(low, high, wide, weighed);
    for (let ratio = Math.max(low, 0.801); ratio <= Math.min(high, 1.399); ratio += 0.007) {
      expect(best).toBeGreaterThanOrEqual(logSum(of(ratio)));
    }
  }
  expect(upperBalance(1.41, 1.5, wide, weighed)).toBe(Number.NEGATIVE_INFINITY);
});

test('for a range of ratios balance takes away what the nearest to the target does, and never less', () => {
  const weighed = ranking({ balance: 2 });
  const bound = (low: number, high: number) => upperBalance(low, high, setup, weighed);
  const log = (ratio: number) => logSum(pairCriteria(candidate(1), candidate(ratio), setup, weighed));
  expect(bound(0.95, 1.1)).toBe(0);
  for (const [low, high, nearest] of [
    [0.8, 0.95, 0.95],
    [1.1, 1.3, 1.1],
    [1.15, 1.15, 1.15],
  ] as const) {
    expect(bound(low, high)).toBeGreaterThanOrEqual(log(nearest));
    expect(bound(low, high)).toBeCloseTo(log(nearest), 8);
  }
  expect(bound(0.5, 0.89)).toBe(Number.NEGATIVE_INFINITY);
  expect(bound(1.21, 1.5)).toBe(Number.NEGATIVE_INFINITY);
  expect(upperBalance(0.8, 0.95, setup, ranking({}))).toBe(0);
  // A hair beyond either end may be rounding: such pairs are still looked at.
  expect(bound(0.5, 0.9 * (1 - 5e-11))).toBeGreaterThan(Number.NEGATIVE_INFINITY);
  expect(bound(1.2 * (1 + 5e-11), 1.5)).toBeGreaterThan(Number.NEGATIVE_INFINITY);
  expect(bound(0.5, 0.9)).toBeGreaterThan(Number.NEGATIVE_INFINITY);
  expect(bound(1.2, 1.5)).toBeGreaterThan(Number.NEGATIVE_INFINITY);
  expect(bound(0.5, 0.9 * (1 - 1e-8))).toBe(Number.NEGATIVE_INFINITY);
  expect(bound(1.2 * (1 + 1e-8), 1.5)).toBe(Number.NEGATIVE_INFINITY);
});

import { expect, test } from 'vitest';
import { workingShare, worstScore } from '../../../src/domain/advice/robustness.ts';
import type { Combination, CriterionScore } from '../../../src/domain/result.ts';
import type { Scenario, Setup } from '../../../src/domain/scenario.ts';
import { plainTarget } from '../../setup/corners.ts';

const scenario = { ranking: { goodClearance: 12 } } as unknown as Scenario;
const target = { ...plainTarget, wantedFrequency: 1.8 };
const setup = {
  axles: { front: target, rear: target },
  balance: { from: 0.9, target: 1, to: 1.2 },
  frequencyBasis: 'body',
} as unknown as Setup;

const band = (worst_low: number, worst_high: number) => ({ worst_low, worst_high });
const values = {
  bump_travel_mm: 47.5,
  thinnest_spare_mm: 6,
  lowest_height_mm: 322,
  highest_height_mm: 344,
  body_frequency_hz: 1.8,
};

function worst(
  criterion: CriterionScore['criterion'],
  axle: CriterionScore['axle'],
  front: object,
  rear: object = front,
) {
  const criteria = [{ criterion, axle, weight: 1, desirability: 0.9 }];
  return worstScore(scenario, setup, { criteria, axles: { front, rear } } as unknown as Combination);
}

test('each criterion is taken at the worst end of its band, by hand arithmetic', () => {
  // Least 35, good 60: at the low end of 40 a fifth of the way. Margins: 3 of 12.
  expect(worst('bump_travel', 'rear', { values, bands: { bump_travel_mm: band(40, 55) } })).toBeCloseTo(0.2, 12);
  expect(worst('clearance', 'front', { values, bands: { thinnest_spare_mm: band(3, 9) } })).toBeCloseTo(0.25, 12);
  // Window 326 to 341 at worst, of the 22 mm from 322 to 344.
  const window = { lowest_height_mm: band(318, 326), highest_height_mm: band(341, 350) };
  expect(worst('height_coverage', 'front', { values, bands: window })).toBeCloseTo(15 / 22, 12);
  // 1.8 wanted, 1.2 to 2.6 allowed: 1.5 is halfway down, 2.2 halfway up; the worse of the two counts.
  expect(worst('front_frequency', 'front', { values, bands: { body_frequency_hz: band(1.5, 1.9) } })).toBeCloseTo(0.5);
  expect(worst('front_frequency', 'front', { values, bands: { body_frequency_hz: band(1.8, 2.4) } })).toBeCloseTo(0.25);
  expect(worst('price', null, { values, bands: {} })).toBeCloseTo(0.9, 12);
});

test('balance is worst with one axle at its low and the other at its high end', () => {
  const front = { values, bands: { body_frequency_hz: band(1.8, 1.8) } };
  const rear = (low: number, high: number) => ({ values, bands: { body_frequency_hz: band(low, high) } });
  expect(worst('balance', null, front, rear(1.71, 1.8))).toBeCloseTo(0.5, 9);
  expect(worst('balance', null, front, rear(1.8, 1.98))).toBeCloseTo(0.5, 9);
  expect(worst('balance', null, rear(1.8, 2.25), front)).toBe(0);
});

test('a quantity that no tolerance moves is what it is', () => {
  expect(worst('bump_travel', 'front', { values, bands: {} })).toBeCloseTo(0.5, 12);
  expect(worst('height_coverage', 'front', { values, bands: {} })).toBeCloseTo(1, 12);
  expect(worst('balance', null, { values, bands: {} })).toBeCloseTo(1, 12);
});

test('where bands leave no window, or a corner has none, nothing is covered; without a frequency nothing is balanced', () => {
  const crossed = { lowest_height_mm: band(320, 340), highest_height_mm: band(338, 350) };
  expect(worst('height_coverage', 'front', { values, bands: crossed })).toBe(0);
  const none = { values: { ...values, lowest_height_mm: null, body_frequency_hz: null }, bands: {} };
  expect(worst('height_coverage', 'front', none)).toBe(0);
  expect(worst('balance', null, none)).toBe(0);
  expect(worst('front_frequency', 'front', none)).toBe(0);
});

test('a build works where both corners do and their frequencies are balanced', () => {
  const front = Float64Array.of(1.8, 1.8, 1.8, Number.NaN);
  const rear = Float64Array.of(1.8, 2.3, 1.62, 1.8);
  expect(workingShare(front, rear, setup)).toBe(0.5);
});

import { expect, test } from 'vitest';
import { drawnFrequencies, workingShare, worstScore } from '../../../src/domain/advice/robustness.ts';
import { judgedFrequency } from '../../../src/domain/corner/findings.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import type { Combination, CriterionScore } from '../../../src/domain/result.ts';
import type { Scenario, Setup } from '../../../src/domain/scenario.ts';
import { plainCorner, plainSite, plainTarget } from '../../setup/corners.ts';

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

const none = {
  ...{ freeLength: 0, rateShare: 0, solidHeight: 0, body: 0, damperLength: 0, sleeve: 0, perch: 0, stopLength: 0 },
  ...{ closedFraction: 0, mount: 0, isolator: 0, wheelLoadShare: 0, motionRatioShare: 0, gasShare: 0 },
};
const model = {
  site: plainSite({ tyreOnArchHeight: 240, target: { ...plainTarget, allowedSlack: 8 } }),
  corner: plainCorner(),
};

/** Nothing of it comes near a limit. */
const roomy = {
  site: plainSite({ tyreOnArchHeight: 225, target: { ...plainTarget, allowedSlack: 30 } }),
  corner: plainCorner({
    spring: { ...plainCorner().spring, solid: { ...plainCorner().spring.solid, height: 50, least: 50 } },
    perch: { ...plainCorner().perch, engagement: 30 },
  }),
};

test('draws spread over the tolerance, as wide as the frequency follows the rate, and the same every time', () => {
  const nominal = judgedFrequency(cornerState(roomy.site, roomy.corner));
  expect(new Set(drawnFrequencies(roomy, none))).toEqual(new Set([nominal]));
  const drawn = [...drawnFrequencies(roomy, { ...none, rateShare: 0.05 })];
  expect(drawn).toHaveLength(500);
  const rates = drawn.map((frequency) => (frequency / nominal) ** 2 - 1);
  // Gas and the slope of the ratio do not follow the spring, so the wheel rate moves by a little less or more.
  expect(Math.max(...rates)).toBeGreaterThan(0.045);
  expect(Math.max(...rates.map(Math.abs))).toBeLessThan(0.06);
  expect(Math.min(...rates)).toBeLessThan(-0.045);
  expect([...drawnFrequencies(roomy, { ...none, rateShare: 0.05 })]).toEqual(drawn);
  expect([
    ...drawnFrequencies({ ...roomy, site: { ...roomy.site, axle: 'rear' } }, { ...none, rateShare: 0.05 }),
  ]).not.toEqual(drawn);
});

test('a build that fails a check has no frequency', () => {
  // A spring a good deal shorter than chosen is loose at droop.
  const drawn = drawnFrequencies(model, { ...none, freeLength: 20 });
  const failed = drawn.filter(Number.isNaN).length;
  expect(failed).toBeGreaterThan(50);
  expect(failed).toBeLessThan(500);
});

import { expect, test } from 'vitest';
import { buildsOf, type Drawn, drawBuilds, worstScore } from '../../src/advice/randomBuilds.ts';
import { judgedFrequency } from '../../src/model/corner/rates.ts';
import type { CriterionScore } from '../../src/model/corner/score.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import type { Scenario, Setup } from '../../src/model/scenario.ts';
import type { Combination } from '../../src/result/result.ts';
import { noTolerances as none, plainCorner, plainSite, plainTarget } from '../setup/corners.ts';

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

const drawn = (frequency: number, failing: Drawn['failing'] = null): Drawn => ({ frequency, failing });

test('with limits a build out of the wanted window still works; beyond them it misses a wish', () => {
  const balance = { target: 1, from: 0.9, to: 1.2, limits: { from: 0.8, to: 1.4 } };
  const front = [drawn(1), drawn(1), drawn(1), drawn(1)];
  const rear = [drawn(1), drawn(1.3), drawn(1.5), drawn(0.7)];
  const builds = buildsOf(front, rear, { balance } as Setup);
  expect(builds).toMatchObject({ share: 0.5, fails: { wish_share: 0.5 } });
});

test('a build works where both corners do and their frequencies are balanced; else the worst of either corner counts', () => {
  const front = [
    drawn(1.8),
    drawn(1.8),
    drawn(1.8),
    drawn(1.8, 'wish'),
    drawn(1.8, 'margin'),
    drawn(Number.NaN, 'seat'),
  ];
  const rear = [drawn(1.8), drawn(2.3), drawn(1.62), drawn(1.8, 'metal'), drawn(1.8, 'wish'), drawn(1.8)];
  // 2.3/1.8 is above 1.2; 1.62/1.8 is 0.9, the limit itself.
  expect(buildsOf(front, rear, setup)).toEqual({
    share: 2 / 6,
    fails: { metal_share: 1 / 6, seat_share: 1 / 6, margin_share: 1 / 6, wish_share: 1 / 6 },
  });
});

test('the five shares of random builds are all of them', () => {
  const tolerances = { ...none, freeLength: 12, rateShare: 0.2, solidHeight: 15, stopLength: 4 };
  const plain = plainSite({ tyreOnArchHeight: 225 });
  const leastBumpTravel = cornerState(plain, plainCorner()).bumpTravel - 1;
  const site = { ...plain, target: { ...plainTarget, allowedSlack: 8, leastBumpTravel } };
  const front = drawBuilds({ site, corner: plainCorner() }, tolerances);
  const rear = drawBuilds({ site: { ...site, axle: 'rear' }, corner: plainCorner() }, tolerances);
  const { share, fails } = buildsOf(front, rear, setup);
  const shares = [share, ...Object.values(fails ?? {})];
  expect(shares.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
  for (const one of shares) expect(one).toBeGreaterThan(0);
});

test('an estimate that may be taller than it is judged at coil-binds in as many builds as its range holds', () => {
  // Clearance 8.7 mm above a solid height of 76: it is solid from 84.7 on, of an even draw from 66 to 96.
  const solid = { ...plainCorner().spring.solid, source: 'estimated' as const, least: 66, most: 96 };
  const site = plainSite({ tyreOnArchHeight: 225, target: { ...plainTarget, allowedSlack: 30 } });
  const clearance = cornerState(site, plainCorner()).contacts.find(({ name }) => name === 'coil_bind')?.clearance ?? 0;
  const builds = drawBuilds({ site, corner: plainCorner({ spring: { ...plainCorner().spring, solid } }) }, none);
  const metal = builds.filter(({ failing }) => failing === 'metal').length / builds.length;
  expect(metal).toBeCloseTo((96 - 76 - clearance) / 30, 1);
});

/** Nothing of it comes near a limit. */
const roomy = {
  site: plainSite({ tyreOnArchHeight: 225, target: { ...plainTarget, allowedSlack: 30 } }),
  corner: plainCorner({
    spring: { ...plainCorner().spring, solid: { ...plainCorner().spring.solid, height: 50, least: 50, most: 50 } },
    perch: { ...plainCorner().perch, engagement: 30 },
  }),
};

test('draws spread over the tolerance, as wide as the frequency follows the rate, and the same every time', () => {
  const nominal = judgedFrequency(cornerState(roomy.site, roomy.corner));
  const frequencies = (one: typeof roomy, rateShare: number) =>
    drawBuilds(one, { ...none, rateShare }).map(({ frequency }) => frequency);
  expect(new Set(frequencies(roomy, 0))).toEqual(new Set([nominal]));
  const drawn = frequencies(roomy, 0.05);
  expect(drawn).toHaveLength(512);
  const rates = drawn.map((frequency) => (frequency / nominal) ** 2 - 1);
  // Gas and the slope of the ratio do not follow the spring, so the wheel rate moves by a little less or more.
  expect(Math.max(...rates)).toBeGreaterThan(0.045);
  expect(Math.max(...rates.map(Math.abs))).toBeLessThan(0.06);
  expect(Math.min(...rates)).toBeLessThan(-0.045);
  expect(frequencies(roomy, 0.05)).toEqual(drawn);
  expect(frequencies({ ...roomy, site: { ...roomy.site, axle: 'rear' } }, 0.05)).not.toEqual(drawn);
});

test('a spring shorter than chosen has its perch higher, so that its clearance to coil bind is eaten up as much', () => {
  const clearance = cornerState(roomy.site, plainCorner()).contacts.find(({ name }) => name === 'coil_bind')?.clearance;
  const failings = drawBuilds({ ...roomy, corner: plainCorner() }, { ...none, freeLength: 20 });
  const share = (failing: Drawn['failing']) => failings.filter((one) => one.failing === failing).length / 512;
  // Off evenly by 20 mm either way: solid from the clearance on, the margin of 6 mm gone before.
  expect(share('metal')).toBeCloseTo((20 - (clearance ?? 0)) / 40, 1);
  expect(share('margin')).toBeCloseTo(6 / 40, 1);
});

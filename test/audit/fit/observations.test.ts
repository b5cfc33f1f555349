/** Predictions by hand on the plain corner: body 318, stop 38, ledge 160, ring 8, perch 11, sleeve 140 less 15. */

import { expect, test } from 'vitest';
import { type MeasuredUnit, unmeasured } from '../../../src/audit/fit/measured.ts';
import { type Marks, observationsOf, TRUE_MARKS, wasPreloaded } from '../../../src/audit/fit/observations.ts';
import { withParameter } from '../../../src/audit/fit/parameters.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { READINGS } from './builds.ts';

const model = { site: plainSite(), corner: plainCorner() };

function observed(measured: Partial<MeasuredUnit>, marks: Partial<Marks> = {}) {
  const [one] = observationsOf({ ...unmeasured('front', null), ...measured }, READINGS);
  if (!one) throw new Error('one measurement');
  return { ...one, predicted: one.predict(model, { ...TRUE_MARKS, ...marks }) };
}

test('nothing measured is nothing observed', () => {
  expect(observationsOf(unmeasured('front', null), READINGS)).toEqual([]);
});

test('solid height is wire times coils; both may be read high, and with them their product', () => {
  // 9.5 x 8, closed and ground; 0.05 mm on each of 8 coils, and 0.1 coils of 9.5 mm.
  const solid = observed({ coil: { wire: 9.5, coils: 8, ends: 'closed_ground' } });
  expect(solid).toMatchObject({ kind: 'solid_height', dimension: 'length', predicted: 76 });
  expect(solid.measured).toBeCloseTo(76, 12);
  expect(solid.reading).toBeCloseTo(0.05 * 8 + 0.1 * 9.5, 12);
  // EN 13906-1 (from memory): unground ends stand taller by one and a half wires.
  expect(observed({ coil: { wire: 10, coils: 8, ends: 'closed' } }).measured).toBe(95);
});

test('a rate is read to a share of itself, a load in kg', () => {
  expect(observed({ rate: 40 })).toMatchObject({ dimension: 'rate', predicted: 38, measured: 40, reading: 0.4 });
  expect(observed({ wheelLoad: 270 })).toMatchObject({ dimension: 'mass', predicted: 268, reading: 1 });
});

test('sleeve top to seat is the damper less what is above the seat and below the sleeve top', () => {
  // The shoulder 12 above the tower, the flange 6 below it, the isolator 6: the seat 24 below. Sleeve top 160 + 125.
  const seat = (damperLength: number | null) => observed({ sleeveToSeat: { distance: 170, damperLength } });
  expect(seat(null)).toMatchObject({ predicted: 474 - 24 - 285, damperLength: null, reading: 0.5 });
  expect(seat(450)).toMatchObject({ predicted: 450 - 24 - 285, damperLength: 450 });
});

test('a perch that reads high stands lower than it reads; gaps and heights read high by their own marks', () => {
  expect(observed({ lowestPerch: 180 }).predicted).toBe(179);
  expect(observed({ lowestPerch: 180 }, { perch: 5 }).predicted).toBe(184);
  expect(observed({ extendedGap: 120 }).predicted).toBe(118);
  expect(observed({ extendedGap: 120 }, { gap: 3 }).predicted).toBe(121);
  const snug = (marks: Partial<Marks>) => observed({ snugGaps: [{ perch: 200, gap: 80 }] }, marks).predicted as number;
  expect(snug({ perch: 5 })).toBeCloseTo(snug({}) - 5, 9);
  expect(snug({ gap: 5 })).toBeCloseTo(snug({}) + 5, 9);
  const standing = (marks: Partial<Marks>, perch = 222) =>
    observed({ standing: [{ perch, rideHeight: 332 }] }, marks).predicted as number;
  expect(standing({ rideHeight: 5 })).toBeCloseTo(standing({}) + 5, 9);
  expect(standing({ perch: 5 })).toBeCloseTo(standing({}, 217), 9);
  expect(standing({ perch: 5 })).toBeLessThan(standing({}));
});

test('a helper’s length is predicted only where there is one', () => {
  expect(observed({ helperFreeLength: 50 }).predicted).toBeNull();
});

test('a gap was read with the spring squeezed if the damper is all out and the model has it preloaded there', () => {
  // Just snug the corner is P + 24 + 220 long: as long as the damper at P = 230.
  const preloaded = (perch: number, measured: number) => wasPreloaded(model, { perch, measured }, 3);
  expect(preloaded(231, 118)).toBe(true);
  expect(preloaded(231, 115)).toBe(true);
  expect(preloaded(231, 114.9)).toBe(false);
  expect(preloaded(229, 118)).toBe(false);
  expect(preloaded(230, 118)).toBe(false);
});

test('a stop longer than it was bought was bought longer', () => {
  const stop = withParameter(model, 'stop_length', 65).corner.bumpStop;
  expect([stop.length, stop.uncutLength]).toEqual([65, 65]);
  const cut = withParameter(model, 'stop_length', 30).corner.bumpStop;
  expect([cut.length, cut.uncutLength]).toEqual([30, 60]);
});

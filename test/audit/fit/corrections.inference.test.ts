/** What a ride height says, on a corner without gas and with a straight motion, where it can be worked out by hand. */

import { describe, expect, test } from 'vitest';
import { blamedOf, infer } from '../../../src/audit/fit/corrections.ts';
import { unmeasured } from '../../../src/audit/fit/measured.ts';
import { perchFor } from '../../../src/model/corner/balance.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { motionCurve } from '../../../src/model/motion.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

const RATIO = 0.945;
const RATE = 38;
const GRAVITY = 9.80665;
const HEIGHT = 332;
const motion = motionCurve({ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: RATIO });
const site = plainSite({ motion });
/** So long that no load tried here closes it up. */
const spring = { ...plainCorner().spring, freeLength: 700 };
const corner = plainCorner({ spring, damper: { ...plainCorner().damper, gas: { kind: 'none' } } });
const model = { site, corner };
const perch = perchFor(site, corner, geometryOf(site, corner), HEIGHT, site.sprungLoad);

/** The spring carries W / MR and gives way by that over its rate: 237 kg sprung, 31 kg not. */
const squeeze = (237 * GRAVITY) / (RATIO * RATE);

/** The same ride height was reached with the perch this much higher than predicted. */
const from = (...higher: number[]) => higher.map((by) => ({ perch: perch + by, rideHeight: HEIGHT }));

describe('a ride height reached with the perch 10 mm higher', () => {
  test('says that the damper is 10 mm longer there', () => {
    expect(infer(model, from(10), 'motion_offset')).toBeCloseTo(10, 9);
  });

  test('or that the wheel carries what squeezes the spring by 10 mm more', () => {
    expect(infer(model, from(10), 'wheel_load')).toBeCloseTo(268 + (10 * RATE * RATIO) / GRAVITY, 9);
  });

  test('or that the spring is as soft as to be squeezed by 10 mm more', () => {
    expect(infer(model, from(10), 'rate')).toBeCloseTo((RATE * squeeze) / (squeeze + 10), 9);
  });
});

test('of several ride heights the mean is taken, and none says nothing', () => {
  expect(infer(model, from(10, 4, -2), 'motion_offset')).toBeCloseTo(4, 9);
  expect(infer(model, [], 'motion_offset')).toBeNull();
});

describe('what lies out of reach is no answer, whatever the others say', () => {
  test('a shift of more than 80 mm either way', () => {
    expect(infer(model, from(79.5), 'motion_offset')).toBeCloseTo(79.5, 9);
    expect(infer(model, from(-79.5), 'motion_offset')).toBeCloseTo(-79.5, 9);
    expect(infer(model, from(80.5), 'motion_offset')).toBeNull();
    expect(infer(model, from(-80.5), 'motion_offset')).toBeNull();
    expect(infer(model, from(0, 80.5), 'motion_offset')).toBeNull();
  });

  test('a wheel that carries less than its own unsprung mass, or more than three times what was given', () => {
    // No load at all leaves the spring free: the perch stands lower by the whole squeeze.
    expect(infer(model, from(0.5 - squeeze), 'wheel_load')).toBeCloseTo(31 + (0.5 * RATE * RATIO) / GRAVITY, 6);
    expect(infer(model, from(-0.5 - squeeze), 'wheel_load')).toBeNull();
    const most = ((3 * 268 - 268) * GRAVITY) / (RATE * RATIO);
    expect(infer(model, from(most - 0.5), 'wheel_load')).toBeLessThan(804);
    expect(infer(model, from(most + 0.5), 'wheel_load')).toBeNull();
  });

  test('a rate of less than a fifth, or more than five times what was given', () => {
    expect(infer(model, from(4 * squeeze - 0.5), 'rate')).toBeGreaterThan(RATE / 5);
    expect(infer(model, from(4 * squeeze + 0.5), 'rate')).toBeNull();
    expect(infer(model, from(0.5 - 0.8 * squeeze), 'rate')).toBeLessThan(5 * RATE);
    expect(infer(model, from(-0.5 - 0.8 * squeeze), 'rate')).toBeNull();
  });
});

test('what was not measured is taken to be off, the load before the rate; with both measured the motion', () => {
  const nothing = unmeasured('front', null);
  expect(blamedOf(nothing)).toBe('wheel_load');
  expect(blamedOf({ ...nothing, rate: 38 })).toBe('wheel_load');
  expect(blamedOf({ ...nothing, wheelLoad: 268 })).toBe('rate');
  expect(blamedOf({ ...nothing, wheelLoad: 268, rate: 38 })).toBe('motion_offset');
});

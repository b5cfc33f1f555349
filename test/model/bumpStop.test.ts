import { expect, test } from 'vitest';
import { closedLength, stopForce, stopRate } from '../../src/model/bumpStop.ts';
import { plainCorner, stopCurve } from '../setup/corners.ts';

const stop = { ...plainCorner().bumpStop, length: 60, curve: stopCurve };

test('the force follows the measured curve, straight between its points and beyond its last', () => {
  // 25 N/mm up to 10 mm, from the first touch on; then 55, and 140 from 20 mm.
  expect(stopForce(stop, 0.4)).toBeCloseTo(10, 12);
  expect(stopRate(stop, 0.4)).toBe(25);
  expect(stopForce(stop, 15)).toBe(525);
  expect(stopForce(stop, 10)).toBe(250);
  expect([stopRate(stop, 9.9), stopRate(stop, 10), stopRate(stop, 20)]).toEqual([25, 55, 140]);
  expect(stopForce(stop, 40)).toBeCloseTo(9000 + (3800 / 3) * 1, 9);
  expect(stopForce(stop, -1)).toBe(0);
  expect(stopRate(stop, 15)).toBe(55);
  expect(stopRate(stop, 0)).toBe(0);
});

test('a stop cut to half its length takes the same force at half the squeeze, and is twice as stiff', () => {
  const half = { ...stop, length: 30 };
  expect(stopForce(half, 10)).toBe(stopForce(stop, 20));
  expect(stopRate(half, 7)).toBe(2 * stopRate(stop, 14));
});

test('without a curve the stop has no known force, closed it keeps its closed fraction', () => {
  expect(stopForce({ ...stop, curve: null }, 20)).toBe(0);
  expect(stopRate({ ...stop, curve: null }, 20)).toBe(0);
  expect(closedLength({ ...stop, closedFraction: 0.35 })).toBe(21);
});

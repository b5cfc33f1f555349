import { expect, test } from 'vitest';
import { rootBetween } from '../../src/model/solve.ts';
import { between, forAny } from '../setup/random.ts';

test('finds roots of smooth, kinked and stepped functions to the tolerance', () => {
  expect(rootBetween((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 10);
  expect(rootBetween((x) => (x < 1 ? x - 1 : 50 * (x - 1)), -3, 9)).toBeCloseTo(1, 10);
  expect(rootBetween((x) => (x < 0.3 ? -1 : Number.POSITIVE_INFINITY), 0, 1)).toBeCloseTo(0.3, 10);
  expect(rootBetween((x) => x, 0, 5)).toBe(0);
  expect(rootBetween((x) => -x, 0, 5)).toBe(0);
  expect(rootBetween((x) => x - 5, 0, 5)).toBe(5);
  expect(rootBetween((x) => 5 - x, 0, 5)).toBe(5);
});

test('agrees with the closed root of random cubics', () => {
  const root = between(-50, 50);
  forAny([root, between(0.01, 100)], (r, scale) => {
    const f = (x: number) => scale * ((x - r) ** 3 + (x - r));
    expect(rootBetween(f, -100, 100)).toBeCloseTo(r, 8);
  });
});

test('refuses an interval without a sign change', () => {
  expect(() => rootBetween((x) => x * x + 1, -1, 1)).toThrow(RangeError);
});

test('a tolerance that no bracket reaches ends at the side nearer to 0', () => {
  const step = (below: number, above: number) => (x: number) => (x < 0.3 ? below : above);
  expect(step(-1, 2)(rootBetween(step(-1, 2), 0, 1, 0))).toBe(-1);
  expect(step(-2, 1)(rootBetween(step(-2, 1), 0, 1, 0))).toBe(1);
});

test('values too large to multiply are halved', () => {
  expect(rootBetween((x) => 1e200 * (x * x - 2), 0, 2)).toBeCloseTo(Math.SQRT2, 10);
});

test('a root close to an end is found in a handful of steps where the function is smooth', () => {
  // Halving 10 down to 1e-11 alone takes 40 steps.
  for (const root of [0.001, 0.37, 5, 9.999]) {
    let calls = 0;
    const f = (x: number) => {
      calls++;
      return Math.exp(x / 4) - Math.exp(root / 4);
    };
    expect(rootBetween(f, 0, 10)).toBeCloseTo(root, 10);
    expect(calls).toBeLessThan(20);
  }
});

/** Derringer & Suich (1980): the shapes of the curves and of the mean. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  largerIsBetter,
  smallerIsBetter,
  targetIsBest,
  weightedGeometricMean,
} from '../../../src/model/formula/desirability.ts';
import { between, forAny } from '../../setup/random.ts';

const number = between(-1000, 1000);
const exponent = between(0.2, 5);
const three = fc.tuple(number, number, number).map((v) => v.toSorted((a, b) => a - b) as [number, number, number]);

test('every desirability lies between 0 and 1, and is 1 at its target', () => {
  forAny([number, three, exponent], (y, [lower, target, upper], r) => {
    for (const d of [largerIsBetter(y, lower, target, r), smallerIsBetter(y, target, upper, r)]) {
      expect(d).toBeGreaterThanOrEqual(0);
      expect(d).toBeLessThanOrEqual(1);
    }
    expect(targetIsBest(target, lower, target, upper, r)).toBe(1);
  });
});

test('more of what should be large is never worse, and the mirror holds for what should be small', () => {
  forAny([number, number, three, exponent], (one, other, [lower, target], r) => {
    const [less, more] = [Math.min(one, other), Math.max(one, other)];
    expect(largerIsBetter(more, lower, target, r)).toBeGreaterThanOrEqual(largerIsBetter(less, lower, target, r));
    expect(smallerIsBetter(-one, -target, -lower, r)).toBe(largerIsBetter(one, lower, target, r));
  });
});

test('a tent falls on both sides of its target and is 0 outside', () => {
  const at = (y: number) => targetIsBest(y, 1, 2, 4);
  expect([0.5, 1, 1.5, 2, 3, 4, 5].map(at)).toEqual([0, 0, 0.5, 1, 0.5, 0, 0]);
});

test('an exponent above 1 makes the middle worth less, below 1 more', () => {
  expect(largerIsBetter(5, 0, 10, 2)).toBe(0.25);
  expect(largerIsBetter(5, 0, 10, 0.5)).toBeCloseTo(Math.SQRT1_2, 12);
});

test('limits that coincide make a step that counts as reached', () => {
  expect([9.9, 10, 10.1].map((y) => largerIsBetter(y, 10, 10))).toEqual([0, 1, 1]);
  expect([9.9, 10, 10.1].map((y) => smallerIsBetter(y, 10, 10))).toEqual([1, 1, 0]);
});

test('the mean of equals is the same value, and a 0 makes all 0 unless it has no weight', () => {
  expect(weightedGeometricMean([0.3, 0.3, 0.3], [1, 5, 2])).toBeCloseTo(0.3, 12);
  expect(weightedGeometricMean([0, 1], [0.1, 5])).toBe(0);
  expect(weightedGeometricMean([0, 0.5], [0, 2])).toBe(0.5);
});

test('a weight of two counts like the value standing there twice', () => {
  expect(weightedGeometricMean([0.2, 0.9], [2, 1])).toBeCloseTo(weightedGeometricMean([0.2, 0.2, 0.9], [1, 1, 1]), 12);
});

test('only the ratios of the weights count, however small they are', () => {
  expect(weightedGeometricMean([0.25, 1], [0.1, 0.1])).toBeCloseTo(0.5, 12);
});

test('without any weight there is nothing to judge by', () => {
  expect(() => weightedGeometricMean([0.5], [0])).toThrow(RangeError);
  expect(() => weightedGeometricMean([0.5, 0.5], [1])).toThrow(RangeError);
});

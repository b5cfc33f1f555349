import { expect, test } from 'vitest';
import { rounded, upToStep } from '../../src/result/advice.ts';

test.each([
  [12.344, 2, 12.34],
  [12.346, 2, 12.35],
  [1234.56, 0, 1235],
  [-2.6, 0, -3],
  [0.0449, 1, 0],
  [3, 3, 3],
  [0.1234, 3, 0.123],
])('%d to %d decimals is %d', (value, decimals, result) => {
  expect(rounded(value, decimals)).toBe(result);
});

test('there is no negative nothing', () => {
  expect(Object.is(rounded(-0.01, 1), 0)).toBe(true);
});

test.each([
  [7.3, 0.5, 7.5],
  [7.5, 0.5, 7.5],
  [7.5 + 1e-12, 0.5, 7.5],
  [7.501, 0.5, 8],
  [0.081, 0.01, 0.09],
  [0.3, 0.1, 0.3],
])('%d goes up to steps of %d at %d', (value, step, result) => {
  expect(upToStep(value, step)).toBe(result);
});

import { expect, test } from 'vitest';
import { chiSquareTail } from '../../../src/audit/fit/expectation.ts';

// Upper critical values, NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4, from memory.
test.each([
  [1, 0.05, 3.841],
  [1, 0.01, 6.635],
  [2, 0.05, 5.991],
  [2, 0.001, 13.816],
  [3, 0.05, 7.815],
  [5, 0.05, 11.07],
  [5, 0.01, 15.086],
  [10, 0.05, 18.307],
  [10, 0.001, 29.588],
  [15, 0.05, 24.996],
  [20, 0.01, 37.566],
])('with %i degrees the value that %f of all exceed is the printed one', (degrees, share, value) => {
  // A printed value of three decimals pins the tail to that of half its last digit either way.
  expect(chiSquareTail(value - 0.0006, degrees)).toBeGreaterThan(share);
  expect(chiSquareTail(value + 0.0006, degrees)).toBeLessThan(share);
});

test('nothing off is exceeded always, and far off never', () => {
  expect(chiSquareTail(0, 7)).toBe(1);
  expect(chiSquareTail(-1, 4)).toBe(1);
  expect(chiSquareTail(1e4, 5)).toBe(0);
});

import { expect, test } from 'vitest';
import { wilsonInterval } from '../../../src/model/formula/share.ts';

/**
 * Newcombe (1998), "Two-sided confidence intervals for the single proportion: comparison of seven methods", Statistics in
 * Medicine 17(8), pp. 857-872, table I, score method without continuity correction; from memory.
 */
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('%d of %d', (hits, count, low, high) => {
  const interval = wilsonInterval(hits / count, count);
  expect(interval.low).toBeCloseTo(low, 4);
  expect(interval.high).toBeCloseTo(high, 4);
});

test('its ends are where the counted share lies 1.96 standard errors of theirs away', () => {
  const { low, high } = wilsonInterval(0.3, 50);
  for (const end of [low, high])
    expect(Math.abs(0.3 - end) / Math.sqrt((end * (1 - end)) / 50)).toBeCloseTo(1.959964, 6);
});

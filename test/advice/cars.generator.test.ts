import { expect, test } from 'vitest';
import { nextState, symmetricDraws } from '../../src/advice/cars.ts';

test('the 10,000th value from 1 is that of Park & Miller (1988), CACM 31(10), p. 1195', () => {
  let state = 1;
  for (let k = 0; k < 10_000; k++) state = nextState(state);
  expect(state).toBe(1043618065);
});

test('draws lie between -1 and 1, with the mean and spread of an even distribution', () => {
  const draw = symmetricDraws(20011);
  const values = Array.from({ length: 20_000 }, draw);
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  const variance = values.reduce((a, b) => a + b * b, 0) / values.length;
  expect(Math.max(...values.map(Math.abs))).toBeLessThan(1);
  // Even over -1 to 1: mean 0, variance 1/3; four standard errors of 20,000 draws.
  expect(Math.abs(mean)).toBeLessThan(4 * Math.sqrt(1 / 3 / 20_000));
  expect(Math.abs(variance - 1 / 3)).toBeLessThan(4 * Math.sqrt(4 / 45 / 20_000));
});

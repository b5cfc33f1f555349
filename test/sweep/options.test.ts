import { expect, test } from 'vitest';
import { FAMILIES } from '../../src/domain/scenario.ts';
import { combinationCount, cornerAt, optionCounts } from '../../src/sweep/options.ts';
import { realScenario } from '../setup/scenarios.ts';

const { options } = (await realScenario('kit-two-seater')).axles.front;

test('the spring turns fastest, the first family slowest, and every index is another combination', () => {
  const counts = optionCounts(options);
  expect(FAMILIES.reduce((product, family) => product * counts[family], 1)).toBe(combinationCount(options));
  expect(cornerAt(options, 0).spring).toBe(options.spring[0]);
  expect(cornerAt(options, 1).spring).toBe(options.spring[1]);
  const last = cornerAt(options, combinationCount(options) - 1);
  for (const family of FAMILIES) expect(last[family]).toBe(options[family].at(-1));
});

test('an index outside the product is refused', () => {
  for (const index of [-1, 0.5, combinationCount(options), Number.NaN]) {
    expect(() => cornerAt(options, index)).toThrow(RangeError);
  }
});

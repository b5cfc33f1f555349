import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  ASSEMBLY_FAMILIES,
  combinationCount,
  cornerAt,
  digitsOf,
  indexOf,
  STACK_FAMILIES,
  subProduct,
} from '../../../src/model/corner/options.ts';
import { FAMILIES, type Family } from '../../../src/model/scenario.ts';
import { smallOptions } from '../../setup/planScenarios.ts';
import { forAny } from '../../setup/random.ts';
import { realScenario } from '../../setup/scenarios.ts';

const { options } = (await realScenario('kit-two-seater')).axles.front;

test('the spring turns fastest, the first family slowest, and every index is another combination', () => {
  expect(FAMILIES.reduce((product, family) => product * options[family].length, 1)).toBe(combinationCount(options));
  expect(digitsOf(options, 1)).toMatchObject({ damper: 0, helper: 0, spring: 1 });
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

/** Options told apart by identity, where a family has several. */
const named = smallOptions.map((options) => {
  const tagged = FAMILIES.map((f) => [f, options[f].map((part, k) => ({ ...part, name: `${f} ${k}` }))]);
  return Object.fromEntries(tagged) as unknown as typeof options;
});

test('combinations have one number of shared parts exactly when those parts are the same, and are each other’s variants', () => {
  forAny([named, fc.subarray<Family>([...FAMILIES])], 200, (options, swapped) => {
    const kept = FAMILIES.filter((f) => !swapped.includes(f));
    const [sharedPart, swappedPart] = [subProduct(options, kept), subProduct(options, swapped)];
    const shared = (index: number) => {
      const corner = cornerAt(options, index);
      return kept.map((f) => corner[f]?.name).join();
    };
    const all = Array.from({ length: combinationCount(options) }, (_, index) => index);
    const index = all[Math.floor(all.length / 2)] ?? 0;
    const same = all.filter((other) => shared(other) === shared(index));
    expect(all.filter((other) => sharedPart.numberOf(other) === sharedPart.numberOf(index))).toEqual(same);
    expect([...swappedPart.variantsOf(index)].sort((a, b) => a - b)).toEqual(same);
    expect(swappedPart.count).toBe(same.length);
    expect(new Set(same.map((other) => other - swappedPart.partOf(other))).size).toBe(1);
  });
});

test('damper assemblies, sleeves, perches and stacks make the whole product', () => {
  const families = [...ASSEMBLY_FAMILIES, 'sleeve', 'perch', ...STACK_FAMILIES];
  expect(families).toEqual(FAMILIES);
  const last = combinationCount(options) - 1;
  expect(indexOf(options, digitsOf(options, last))).toBe(last);
  expect(subProduct(options, STACK_FAMILIES).numberOf(last)).toBe(combinationCount(options, STACK_FAMILIES) - 1);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FAMILIES, type Family } from '../../../src/domain/scenario.ts';
import { combinationCount, cornerAt } from '../../../src/sweep/options.ts';
import { keyReader } from '../../../src/sweep/plans/keys.ts';
import { smallOptions } from '../../setup/planScenarios.ts';

/** Options told apart by identity, where a family has several. */
const named = smallOptions.map((options) => {
  const tagged = FAMILIES.map((f) => [f, options[f].map((part, k) => ({ ...part, name: `${f} ${k}` }))]);
  return Object.fromEntries(tagged) as unknown as typeof options;
});

test('combinations have one key exactly when their shared parts are the same, and are each other’s siblings', () => {
  fc.assert(
    fc.property(named, fc.subarray<Family>([...FAMILIES]), (options, swapped) => {
      const { keyOf, siblingsOf, siblings, freePartOf } = keyReader(options, swapped);
      const shared = (index: number) => {
        const corner = cornerAt(options, index);
        return FAMILIES.filter((f) => !swapped.includes(f))
          .map((f) => corner[f]?.name)
          .join();
      };
      const all = Array.from({ length: combinationCount(options) }, (_, index) => index);
      const index = all[Math.floor(all.length / 2)] ?? 0;
      const same = all.filter((other) => shared(other) === shared(index));
      expect(all.filter((other) => keyOf(other) === keyOf(index))).toEqual(same);
      expect([...siblingsOf(index)].sort((a, b) => a - b)).toEqual(same);
      expect(siblings).toBe(same.length);
      expect(new Set(same.map((other) => other - freePartOf(other))).size).toBe(1);
    }),
    { numRuns: 200 },
  );
});

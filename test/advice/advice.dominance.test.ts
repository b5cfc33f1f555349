import { expect, test } from 'vitest';
import { dominators } from '../../src/advice/advice.ts';
import type { Combination } from '../../src/result/result.ts';

const one = (id: string, ...desirabilities: number[]) =>
  ({
    id,
    criteria: desirabilities.map((desirability) => ({ criterion: 'price', axle: null, weight: 1, desirability })),
  }) as unknown as Combination;

test('dominated: another is at least as good on everything and better on one; trade-offs and equals stand', () => {
  const list = [one('a', 0.9, 0.2), one('b', 0.2, 0.9), one('c', 0.9, 0.1), one('d', 0.9, 0.2), one('e', 0.1, 0.1)];
  expect(dominators(list)).toEqual([null, null, 'a', null, 'a']);
});

test('a difference of rounding is no difference', () => {
  expect(dominators([one('a', 0.5, 0.5 + 1e-12), one('b', 0.5, 0.5)])).toEqual([null, null]);
});

test('combinations judged by other criteria are not compared', () => {
  expect(dominators([one('a', 0.9, 0.9), one('b', 0.5)])).toEqual([null, null]);
});

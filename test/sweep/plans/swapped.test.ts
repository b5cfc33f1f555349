import { expect, test } from 'vitest';
import { type ChoicesByKey, enterChoice } from '../../../src/sweep/plans/swapped.ts';

const choice = (index: number, worth: number, frequency = 1.8, price = 10) => ({
  corner: { index, frequency, price, logScore: worth },
  worth,
  most: worth,
});

/** Best and first index of every class after choices of one key and stack were entered in turn. */
function classesAfter(choices: readonly ReturnType<typeof choice>[], isPriced = true): number[][] {
  const found: ChoicesByKey = new Map();
  for (const one of choices) enterChoice(found, 7, 3, one, isPriced);
  return (found.get(7) ?? []).map(({ best, first }) => [best.corner.index, first.corner.index]);
}

test('of equal worths the lower index is the best of its class, whichever comes first', () => {
  expect(classesAfter([choice(20, -1), choice(10, -1)])).toEqual([[10, 10]]);
  expect(classesAfter([choice(10, -1), choice(20, -1)])).toEqual([[10, 10]]);
});

test('more worth is better whatever the index, and the lowest index stays the first', () => {
  expect(classesAfter([choice(10, -2), choice(20, -1), choice(30, -3)])).toEqual([[20, 10]]);
});

test('other frequencies are another class, and other prices where they are ranked', () => {
  expect(classesAfter([choice(10, -1), choice(20, -1, 1.9)])).toHaveLength(2);
  expect(classesAfter([choice(10, -1), choice(20, -1, 1.8, 12)])).toHaveLength(2);
  expect(classesAfter([choice(10, -1), choice(20, -1, 1.8, 12)], false)).toHaveLength(1);
});

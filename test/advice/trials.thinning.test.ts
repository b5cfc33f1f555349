import { expect, test } from 'vitest';
import { pickedDigits, thin } from '../../src/advice/trials.ts';
import { type AxleOptions, FAMILIES, type Scenario } from '../../src/model/scenario.ts';

/** Lists of so many options: damper, mount, isolator, bump stop, rod end, sleeve, perch, helper, spring. */
const optionsOf = (...sizes: readonly number[]) =>
  Object.fromEntries(
    FAMILIES.map((family, k) => [family, Array.from({ length: sizes[k] ?? 1 }, (_, n) => `${family} ${n}`)]),
  ) as unknown as AxleOptions;
const sizesOf = (digits: readonly (readonly number[])[]) => digits.map(({ length }) => length);
const all = (size: number) => Array.from({ length: size }, (_, k) => k);

test('lists that are few enough stay whole, the springs left aside', () => {
  const picked = pickedDigits(optionsOf(1, 3, 1, 4, 1, 2, 1, 1, 99), 24);
  expect(picked).toEqual([[0], all(3), [0], all(4), [0], all(2), [0], [0]]);
});

test('one too many thins the longest list, by an eighth, both ends kept', () => {
  expect(pickedDigits(optionsOf(1, 3, 1, 4, 1, 2), 23)).toEqual([[0], all(3), [0], [0, 2, 3], [0], all(2), [0], [0]]);
  // 16 become 14, then 12: an eighth of each, rounded up.
  expect(sizesOf(pickedDigits(optionsOf(1, 16), 15))[1]).toBe(14);
  expect(pickedDigits(optionsOf(1, 16), 12)[1]).toEqual([0, 1, 3, 4, 5, 7, 8, 10, 11, 12, 14, 15]);
});

test('where one combination is all that is left, it is the first of every list', () => {
  for (const most of [1, 0, -5]) {
    expect(pickedDigits(optionsOf(2, 3, 2), most)).toEqual(FAMILIES.slice(0, -1).map(() => [0]));
  }
});

test('a scenario is thinned by its share: two axles, all setups, all springs kept', () => {
  const axle = { options: optionsOf(1, 10, 1, 10, 1, 1, 1, 1, 5) };
  const scenario = { setups: [{}, {}], axles: { front: axle, rear: axle } } as unknown as Scenario;
  const countOf = (most: number) => {
    const { options } = thin(scenario, most).axles.rear;
    expect(options.spring).toHaveLength(5);
    return FAMILIES.reduce((n, family) => n * options[family].length, 1);
  };
  // 2 axles x 2 setups x 5 springs x 100 others = 2000.
  expect(countOf(2000)).toBe(500);
  expect(countOf(1999)).toBeLessThan(500);
  expect(4 * countOf(1000)).toBeLessThanOrEqual(1000);
  expect(4 * countOf(1000)).toBeGreaterThan(700);
  const { options } = thin(scenario, 1000).axles.front;
  expect([options.mount[0], options.mount.at(-1)]).toEqual(['mount 0', 'mount 9']);
});

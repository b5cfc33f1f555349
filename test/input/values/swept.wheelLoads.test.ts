import { expect, test } from 'vitest';
import { leastLoad, meanLoad, sideLoads } from '../../../src/input/values/swept.ts';
import { type Edit, edited, placeOf, problemsOf, readEdited, SCENARIO } from '../edit.ts';

const front = (value: string): Edit => ['wheel_load: 268 kg', `wheel_load: ${value}`];

test('one load stands for both sides; of two, the mean is swept', () => {
  expect([meanLoad(268), leastLoad(268), sideLoads(268)]).toEqual([268, 268, null]);
  const sides = { left: 280, right: 256 };
  expect([meanLoad(sides), leastLoad(sides), sideLoads(sides)]).toEqual([268, 256, sides]);
});

test('left and right may be given in different units, and the mean is said among what was assumed', async () => {
  const read = await readEdited([front('{ left: 280 kg, right: 600 lb }')]);
  if (!read.ok) throw new Error(read.problems.map(({ found }) => found).join('; '));
  const { axles, assumptions } = read.scenario;
  // 600 lb of 0.45359237 kg (NIST SP 811).
  expect(axles.front.wheelLoads?.right).toBeCloseTo(272.155422, 9);
  expect(axles.front.wheelLoad).toBeCloseTo((280 + 272.155422) / 2, 9);
  expect(axles.rear.wheelLoads).toBeNull();
  const said = assumptions.filter(({ field }) => field === 'axles.front.wheel_load');
  expect(said).toHaveLength(1);
  expect(said[0]?.value).toContain('280 kg left, 272.16 kg right');
  expect(said[0]?.value).toContain('their mean, 276.08 kg');
});

test.each<readonly [title: string, value: string, piece: string, found: string]>([
  ['a bare number', '268', '268\n', '`268` without a unit'],
  ['a missing side', '{ left: 280 kg }', 'wheel_load: { left', 'no field `right`'],
  ['a misspelt side', '{ left: 280 kg, rihgt: 256 kg }', 'rihgt', 'unknown field `rihgt`'],
  ['a side without a unit', '{ left: 280, right: 256 kg }', '280,', '`280` without a unit'],
  ['a side in the wrong unit', '{ left: 280 mm, right: 256 }', '280 mm', '`mm` does not fit'],
  ['a list', '[280 kg, 256 kg]', '[280', 'a list of 2'],
])('%s is refused at its place', async (_, value, piece, found) => {
  const problems = await problemsOf([front(value)]);
  const place = placeOf(edited(SCENARIO, [front(value)]), piece);
  expect(problems).toContainEqual(expect.objectContaining({ ...place, found: expect.stringContaining(found) }));
});

test('both sides of one mistake each are reported at once', async () => {
  const problems = await problemsOf([front('{ left: 280 mm, right: 256 }')]);
  expect(problems.map(({ found }) => found)).toHaveLength(2);
});

test('the lighter side must still outweigh the unsprung mass, and every load state', async () => {
  const tooLight = await problemsOf([front('{ left: 500 kg, right: 30 kg }')]);
  expect(tooLight.map(({ found }) => found)).toEqual(['an unsprung mass of 31 kg under a wheel load of 30 kg']);
});

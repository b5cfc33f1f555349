/** A few steps of the walk over every field; `npm run fuzz -- walk` takes them all. */
import { expect, test } from 'vitest';
import { STEPS, walk } from './walk.ts';

/** So many steps apart that each size and each scenario is met. */
const APART = 307;

test('no output of a scenario with one field made nothing, tiny, huge or negative holds what is no number', async () => {
  const { refused, clean, swept, failures } = await walk(APART);
  // How long a step takes is not asked here.
  expect(failures.filter((failure) => !/ took \d+ ms$/.test(failure))).toEqual([]);
  expect(refused + clean + swept + failures.length).toBe(Math.ceil(STEPS.length / APART));
  expect(refused).toBeGreaterThan(0);
  expect(swept).toBeGreaterThan(0);
});

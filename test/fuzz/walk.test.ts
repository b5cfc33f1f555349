/** A few steps of the walk over every number; `npm run fuzz -- walk` takes them all. */
import { expect, test } from 'vitest';
import { numberFields } from '../../src/measure/measurable.ts';
import { STEPS, walk } from './walk.ts';

/** So many steps apart that each size and each scenario is met. */
const APART = 491;

test('every number of the format is walked, whichever axle, end or entry it belongs to', () => {
  const fieldOf = (path: string) => path.replace(/\.(?:front|rear)\b/g, '.').replace(/\.(?:from|to|step)$|\[\]$/, '');
  const walked = new Set(
    STEPS.map(({ path }) => {
      const keys = path.map((key) => (typeof key === 'number' ? '[]' : key)).join('.');
      return fieldOf(keys.replaceAll('.[]', '[]').replace(/^axles\.(?:front|rear)\./, ''));
    }),
  );
  const fields = numberFields().map(({ path }) => fieldOf(path));
  expect(fields.length).toBeGreaterThan(150);
  expect(fields.filter((field) => !walked.has(field))).toEqual([]);
});

test('no output of a scenario with one number made nothing, tiny, huge or negative holds what is no number', async () => {
  const { refused, clean, swept, failures } = await walk(APART);
  // How long a step takes is not asked here.
  expect(failures.filter((failure) => !/ took \d+ ms$/.test(failure))).toEqual([]);
  expect(refused + clean + swept + failures.length).toBe(Math.ceil(STEPS.length / APART));
  expect(refused).toBeGreaterThan(0);
  expect(swept).toBeGreaterThan(0);
});

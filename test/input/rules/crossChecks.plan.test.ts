/** The plan over several setups as people write it: each mistake found at the place to change. */

import { expect, test } from 'vitest';
import { type Edit, edited, placeOf, problemsOf, readEdited, SCENARIO } from '../edit.ts';

/** A second setup, the same but for its name, and a plan. */
const street: Edit = [
  '\nsetups:',
  `\nsetups:\n  - name: street${(/- name: low\n([\s\S]*)$/.exec(SCENARIO)?.[0] ?? '').replace('- name: low', '')}`,
];
const plan = (text: string): Edit => ['\nsetups:', `\nplan: ${text}\n\nsetups:`];

test('with two setups and no plan, all share everything, and the list of assumptions says so', async () => {
  const read = await readEdited([street]);
  if (!read.ok) throw new Error(read.problems[0]?.found);
  expect(read.scenario.plan).toEqual({ setups: ['street', 'low'], swapped: [], keep: 5 });
  expect(read.scenario.assumptions.find(({ field }) => field === 'plan')?.value).toContain('share every part');
});

test('a plan names its setups, what is swapped, and how many are kept', async () => {
  const read = await readEdited([street, plan('{ setups: [low, street], swapped: [springs, bump_stops], keep: 2 }')]);
  if (!read.ok) throw new Error(read.problems[0]?.found);
  expect(read.scenario.plan).toEqual({ setups: ['low', 'street'], swapped: ['spring', 'bumpStop'], keep: 2 });
});

test('what a plan leaves out is listed among the assumptions', async () => {
  const read = await readEdited([street, plan('{ swapped: [springs] }')]);
  if (!read.ok) throw new Error(read.problems[0]?.found);
  const fields = read.scenario.assumptions.map(({ field }) => field).filter((field) => field.startsWith('plan'));
  expect(fields).toEqual(['plan.setups', 'plan.keep']);
});

test('`none`, and a single setup, make no plan', async () => {
  const [none, single] = [await readEdited([street, plan('none')]), await readEdited([])];
  expect([none.ok && none.scenario.plan, single.ok && single.scenario.plan]).toEqual([null, null]);
});

test.each([
  ['an unknown setup', '{ setups: [low, stret] }', 'stret]', 'the unknown setup `stret`', 'did you mean `street`?'],
  ['a setup twice', '{ setups: [low, street, low] }', 'low] }', '`low` a second time', 'remove one of the two'],
  ['a single name', '{ setups: [low] }', '[low]', '', ''],
  ['an unknown list', '{ swapped: [spring] }', 'spring] }', '`spring`', 'did you mean `springs`?'],
  ['a list twice', '{ swapped: [springs, springs] }', 'springs] }', '`springs` a second time', 'remove one of the two'],
  ['no whole number', '{ keep: 1.5 }', '1.5 }', '`1.5`', ''],
  ['an unknown field', '{ share: [springs] }', 'share: [', 'the unknown field `share`', ''],
  ['a word', 'every', 'every', '`every`', ''],
])('%s is refused where it stands', async (_, text, piece, found, advice) => {
  const edits = [street, plan(text)];
  const problems = await problemsOf(edits);
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject(placeOf(edited(SCENARIO, edits), piece));
  expect(problems[0]?.found).toContain(found);
  expect(problems[0]?.advice).toContain(advice);
});

test('a plan for a single setup is refused at its key', async () => {
  const edits = [plan('{ keep: 3 }')];
  const [problem] = await problemsOf(edits);
  expect(problem).toMatchObject(placeOf(edited(SCENARIO, edits), 'plan: {'));
  expect(problem?.found).toBe('a plan for a single setup');
});

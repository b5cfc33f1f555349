/** Values that contradict each other, each found at the place to change. */

import { expect, test } from 'vitest';
import { type Edit, edited, placeOf, problemsOf, SCENARIO } from '../edit.ts';

const CURVE =
  'curve: { measured_length: 60 mm, points: [{ squeeze: 18 mm, force: 500 N }, { squeeze: 36 mm, force: 4 kN }] }';
const inSetup = (line: string): Edit => ['    balance:', `    ${line}\n    balance:`];

test('stops with curves allow full bump by load', async () => {
  expect(await problemsOf([inSetup('bump: { load: 3 }'), ['closed_fraction: 0.4', CURVE]])).toEqual([]);
});

test('two parts of one name in a family are a problem, `none` twice too', async () => {
  const problems = await problemsOf([
    ['perches: [*perch]', 'perches: [*perch, *perch]'],
    ['isolators: [none]', 'isolators: [none, none]'],
  ]);
  expect(problems.map((problem) => problem.found)).toEqual([
    'the name `plain` a second time',
    'the name `none` a second time',
  ]);
});

test('checks across entries still run where something else is wrong', async () => {
  const problems = await problemsOf([
    ['wheelbase: 2460 mm', 'wheelbase: 2460'],
    ['ledge_height: 130 mm', 'ledge_height: 300 mm'],
    ['    balance:', '    standing_on_stop: true\n    balance:'],
  ]);
  expect(problems).toHaveLength(3);
});

test('more alternatives than a family can hold are refused before they are written out', async () => {
  const wide = '{ from: 100 mm, to: 500 mm, step: 0.1 mm }';
  const problems = await problemsOf([
    ['length: 178 mm', `length: ${wide}`],
    ['to: 40 mm, step: 20 mm', 'to: 40 mm, step: 0.1 mm'],
  ]);
  expect(problems.map((problem) => problem.found)).toEqual(['1604401 alternatives']);
});

test('a least bump travel below 0 is for cars that may stand on their stops', async () => {
  const below: Edit = ['bump_travel: { least: 30 mm, good: 60 mm }', 'bump_travel: { least: -12 mm, good: 60 mm }'];
  const [problem, ...others] = await problemsOf([below]);
  expect(others).toEqual([]);
  expect(problem).toMatchObject(placeOf(edited(SCENARIO, [below]), '-12 mm'));
  expect(await problemsOf([below, inSetup('standing_on_stop: true'), ['closed_fraction: 0.4', CURVE]])).toEqual([]);
});

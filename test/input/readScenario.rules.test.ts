/** What a scenario must not say, rule by rule: what was found, where, and what to do about it. */

import { expect, test } from 'vitest';
import { CATALOGUE, type Edit, edited, editOf, placeOf, problemsOf, readTexts, SCENARIO, tableOf } from './edit.ts';

const PAIR = 'pairs: [{ hub_to_arch: 340 mm, damper_length: 400 mm }]';
const setup = (name: string) => SCENARIO.slice(SCENARIO.indexOf('  - name: low')).replace('name: low', name);

interface Mistake {
  readonly title: string;
  readonly edits: readonly (string | Edit)[];
  readonly at: string;
  readonly found: string;
  readonly advice?: string;
  readonly more?: number;
}

const many = (count: number, entry: (i: number) => string) =>
  `[${Array.from({ length: count }, (_, i) => entry(i)).join(', ')}]`;
const pair = (i: number) => `{ hub_to_arch: ${100 + i} mm, damper_length: ${200 + i} mm }`;

const MISTAKES: readonly Mistake[] = [
  ...tableOf('mistakes.yaml'),
  {
    title: 'a list of pairs beyond reason',
    edits: [[PAIR, `pairs: ${many(1001, pair)}`]],
    ...{ at: '[{ hub_to_arch: 100 mm', found: '1001 entries', advice: 'shorten the list' },
  },
  {
    title: 'a list of values beyond reason',
    edits: [['trim: 0 mm', `trim: ${many(10_001, (i) => `${i} mm`)}`]],
    ...{ at: '[0 mm, 1 mm', found: 'a range of 10001 values', advice: 'use a larger step' },
  },
];

test.each(MISTAKES)(
  '$title: said where it stands, with what to do',
  async ({ edits, at, found, advice = '', more = 0 }) => {
    const text = edits.reduce<string>((so, edit) => edited(so, [editOf(so, edit)]), SCENARIO);
    const read = await readTexts(text);
    const problems = read.ok ? [] : read.problems;
    const problem = problems.find((one) => one.found.includes(found));
    expect(problems.length, JSON.stringify(problems)).toBe(1 + more);
    expect(problem).toMatchObject(placeOf(text, at));
    expect(problem?.advice).toContain(advice);
  },
);

test('setups are named once', async () => {
  const problems = await problemsOf([[setup('name: low'), `${setup('name: low')}${setup('name: low')}`]]);
  expect(problems.map(({ found, advice }) => [found, advice])).toEqual([
    ['the name `low` a second time', 'rename one of the two: the report tells them apart by name'],
  ]);
});

test('where a setup’s own name is wrong, a plan that means it is not blamed as well', async () => {
  const edits: Edit[] = [
    ['setups:', 'plan: { setups: [low, 7] }\n\nsetups:'],
    [setup('name: low'), `${setup('name: low')}${setup('name: 7')}`],
  ];
  const problems = await problemsOf(edits);
  expect(problems.map(({ found }) => found).filter((found) => found.includes('unknown setup'))).toEqual([]);
});

test('of very many problems the first are reported and the rest counted', async () => {
  const bare = `[${Array.from({ length: 5100 }, (_, i) => i).join(', ')}]`;
  const problems = await problemsOf([
    ['spacer: [0 mm, 6 mm]', `spacer: ${bare}`],
    ['trim: 0 mm', `trim: ${bare}`],
  ]);
  expect(problems).toHaveLength(10_001);
  expect(problems.at(-1)?.found).toBe('200 further problems in this file');
});

test('a long text that was found is shortened where it is shown', async () => {
  const [problem] = await problemsOf([['wheelbase: 2460 mm', `wheelbase: ${'long '.repeat(100)}`]]);
  expect(problem?.found).toMatch(/\.\.\.`/);
  expect(problem?.found.length).toBeLessThan(200);
});

test('a price weighs only where every row of a catalogue has one', async () => {
  const weighed: Edit = ['setups:', 'ranking: { weights: { price: 1 }, price: { good: 300, worst: 900 } }\n\nsetups:'];
  expect(await problemsOf([weighed])).toEqual([]);
  const [problem] = await problemsOf(
    [weighed],
    CATALOGUE.replace('A 160-50,160,50,61,78,60', 'A 160-50,160,50,61,78,'),
  );
  expect(problem?.found).toContain('a weight for `price` without a `price` for every part');
});

test('a catalogue with prices needs a currency, also where no part of the scenario has one', async () => {
  const text = SCENARIO.replace('currency: EUR\n', '').replaceAll(/,? *\n? *price: \d+,?/g, '');
  const priced = text.match(/price/g);
  expect(priced).toBeNull();
  const read = await readTexts(text);
  const problems = read.ok ? [] : read.problems;
  expect(problems.map(({ found, line }) => [found, line])).toEqual([
    ['prices without a currency', placeOf(text, 'springs.csv').line],
  ]);
});

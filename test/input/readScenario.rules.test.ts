/** What a scenario must not say, rule by rule: what was found, where, and what to do about it. */
import { expect, test } from 'vitest';
import { CATALOGUE, type Edit, edited, placeOf, problemsOf, readTexts, SCENARIO } from './edit.ts';

const BODY = 'gas: { out: 180 N, in: 240 N }';
const PAIR = 'pairs: [{ hub_to_arch: 340 mm, damper_length: 400 mm }]';
const setup = (name: string) => SCENARIO.slice(SCENARIO.indexOf('  - name: low')).replace('name: low', name);

/** The edit, the piece of text at which the problem stands, what was found, what is advised. */
const RULES: readonly (readonly [name: string, edit: Edit, piece: string, found: string, advice: string])[] = [
  [
    'two forces at one damper velocity',
    [
      BODY,
      `${BODY}\n        force_velocity:\n          - { velocity: 0.1 m/s, bump: 300 N, rebound: 900 N }\n          - { velocity: 100 mm/s, bump: 310 N, rebound: 905 N }`,
    ],
    '100 mm/s',
    'the velocity 0.1 m/s a second time',
    'keep one row per velocity',
  ],
  [
    'a curve of the stop that ends where it begins',
    ['closed_fraction: 0.4', 'curve: { measured_length: 60 mm, points: [{ squeeze: 0 mm, force: 0 N }] }'],
    '[{ squeeze',
    'a curve of the point at 0 mm alone',
    'add the measured points',
  ],
  [
    'shares of the strength the wrong way round',
    [
      'bore: 61 mm\n        price: 55',
      'bore: 61 mm\n        estimate: { thin_stress_share: 0.5, thick_stress_share: 0.6 }\n        price: 55',
    ],
    '0.6 }',
    '0.6 at the thick end and 0.5 at the thin end',
    'exchange the two shares',
  ],
  [
    'a good price that is the worst',
    ['setups:', 'ranking: { price: { good: 900, worst: 400 } }\n\nsetups:'],
    '900',
    'a good price not below the worst price',
    'exchange the two',
  ],
  [
    'a damping window with its ends exchanged',
    ['droop_travel: { least: 30 mm }', 'droop_travel: { least: 30 mm }\n      damping_ratio: { from: 0.7, to: 0.3 }'],
    '0.3 }',
    'an upper end below the lower end',
    'exchange `from` and `to`',
  ],
  [
    'two pairs at one ride height',
    ['hub_to_arch: 320 mm, damper_length: 368 mm', 'hub_to_arch: 280 mm, damper_length: 368 mm'],
    '280 mm, damper_length: 368 mm',
    'the ride height 280 mm a second time',
    '',
  ],
  [
    'a pair without the raise it was taken with',
    ['      mount_raise: 0 mm\n', ''],
    '{ hub_to_arch: 340 mm',
    'mount_raise',
    '`mount_raise`',
  ],
  ['a single pair without a ratio', ['      ratio: 0.95\n', ''], '[{ hub_to_arch: 340 mm', 'pair', 'ratio'],
  [
    'a ratio beside several pairs',
    [PAIR, 'pairs: [{ hub_to_arch: 340 mm, damper_length: 400 mm }, { hub_to_arch: 380 mm, damper_length: 440 mm }]'],
    'ratio: 0.95\n    tyre',
    'a motion ratio beside 2 pairs',
    'remove',
  ],
  [
    'a plan that names a setup like none of the file',
    ['setups:', 'plan: { setups: [low, something_else] }\n\nsetups:'],
    'something_else',
    'the unknown setup `something_else`',
    'name a setup of this file',
  ],
  [
    'a list of pairs beyond reason',
    [
      PAIR,
      `pairs: [${Array.from({ length: 1001 }, (_, i) => `{ hub_to_arch: ${100 + i} mm, damper_length: ${200 + i} mm }`).join(', ')}]`,
    ],
    '[{ hub_to_arch: 100 mm',
    '1001 entries',
    'shorten the list',
  ],
  [
    'a span of one value',
    ['wanted_range: [315 mm, 345 mm]', 'wanted_range: [315 mm]'],
    '[315 mm]',
    'a list',
    'write the lower and the upper end',
  ],
  [
    'a span whose end has no unit',
    ['wanted_range: [315 mm, 345 mm]', 'wanted_range: [315 mm, 345]'],
    '345]',
    '`345` without a unit',
    'whichever was measured',
  ],
  [
    'a list of values beyond reason',
    ['trim: 0 mm', `trim: [${Array.from({ length: 10_001 }, (_, i) => `${i} mm`).join(', ')}]`],
    '[0 mm, 1 mm',
    'a range of 10001 values',
    'use a larger step',
  ],
  ['an alternative that is neither a word nor a mapping', ['isolators: [none]', 'isolators: [7]'], '7]', '`7`', ''],
];

test.each(RULES)('%s: said where it stands, with what to do', async (_, edit, piece, found, advice) => {
  const problems = await problemsOf([edit]);
  const problem = problems.find((one) => one.found.includes(found));
  expect(problem, JSON.stringify(problems)).toMatchObject(placeOf(edited(SCENARIO, [edit]), piece));
  expect(problem?.advice).toContain(advice);
});

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

test('of very many problems the first are told and the rest counted', async () => {
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

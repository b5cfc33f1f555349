/** Values that contradict each other, each found at the place to change. */
import { expect, test } from 'vitest';
import { type Edit, edited, placeOf, problemsOf, SCENARIO } from '../edit.ts';

type Case = readonly [title: string, edits: readonly Edit[], piece: string, found: string];

const CURVE =
  'curve: { measured_length: 60 mm, points: [{ squeeze: 18 mm, force: 500 N }, { squeeze: 36 mm, force: 4 kN }] }';
const curveOf = (points: string): Edit => [
  'closed_fraction: 0.4',
  `curve: { measured_length: 60 mm, points: [${points}] }`,
];
const inSetup = (line: string): Edit => ['    balance:', `    ${line}\n    balance:`];
const atTop = (line: string): Edit => ['\nsetups:', `\n${line}\n\nsetups:`];

test.each<Case>([
  [
    'a damper not longer out than in',
    [['extended: 455 mm', 'extended: 310 mm']],
    '320 mm\n        body',
    'a compressed length of 320 mm beside an extended length of 310 mm',
  ],
  [
    'a body longer than the compressed damper',
    [['body_length: 290 mm', 'body_length: [290 mm, 330 mm]']],
    '[290',
    'a body of 330 mm',
  ],
  ['a gas force that falls on the way in', [['in: 240 N', 'in: 140 N']], '140 N', 'a gas force of 140 N fully in'],
  ['a sleeve ledge above the body', [['ledge_height: 130 mm', 'ledge_height: 300 mm']], '300 mm', 'a ledge at 300 mm'],
  [
    'a trim that takes the whole sleeve',
    [['to: 40 mm, step: 20 mm', 'to: 180 mm, step: 20 mm']],
    '{ from: 0 mm, to: 180',
    'a trim of 180 mm on a sleeve of 178 mm',
  ],
  ['a groove below the eye', [['thread_pitch: 2 mm', 'groove_drop: 140 mm']], '140 mm', 'a groove lowered by 140 mm'],
  [
    'a groove on the axle of a single tube',
    [
      ['body_diameter: 48 mm', 'body: single_tube\n        body_diameter: 48 mm'],
      ['thread_pitch: 2 mm', 'groove_drop: [0 mm, 10 mm]'],
    ],
    '[0 mm, 10 mm]',
    'a groove lowered by 10 mm on the axle of the single-tube damper `short`',
  ],
  ['a sleeve bore as wide as the sleeve', [['bore: 49 mm', 'bore: 56 mm']], '56 mm', 'a bore of 56 mm'],
  [
    'a stop cut longer than bought',
    [['to: 60 mm, step: 10 mm', 'to: 70 mm, step: 10 mm']],
    '{ from: 30',
    'a cut length of 70 mm',
  ],
  [
    'a stop that never closes',
    [['closed_fraction: 0.4', 'closed_fraction: 1']],
    '1\n    diameter',
    'a closed fraction of 1',
  ],
  ['a stop of unknown closed length', [['    closed_fraction: 0.4\n', '']], 'name: cone', 'a stop without'],
  [
    'a packer of unknown diameter',
    [['closed_fraction: 0.4', 'closed_fraction: 0.4\n    packer: 8 mm']],
    '8 mm\n    diameter',
    'a packer without',
  ],
  [
    'squeezes out of order',
    [curveOf('{ squeeze: 8 mm, force: 1 N }, { squeeze: 7 mm, force: 2 N }')],
    '7 mm, force',
    '7 mm after 8 mm',
  ],
  [
    'a stop force that falls',
    [curveOf('{ squeeze: 8 mm, force: 5 N }, { squeeze: 9 mm, force: 2 N }')],
    '2 N',
    '2 N after 5 N',
  ],
  ['a stop squeezed to nothing', [curveOf('{ squeeze: 60 mm, force: 5 N }')], '60 mm, force', 'a squeeze of 60 mm'],
  [
    'a stop force without squeeze',
    [curveOf('{ squeeze: 0 mm, force: 5 N }, { squeeze: 9 mm, force: 9 N }')],
    '5 N',
    '5 N at no squeeze',
  ],
  [
    'a helper that is solid when free',
    [['block_height: 22 mm', 'block_height: 60 mm']],
    '60 mm,\n          rate',
    'a solid height of 60 mm',
  ],
  [
    'a spring that is solid when free',
    [['        bore: 61 mm\n        price: 55', '        bore: 61 mm\n        solid_height: 160 mm']],
    '160 mm',
    'a solid height of 160 mm',
  ],
  [
    'a spring without rate or wire',
    [['        rate: { from: 250 lbf/in, to: 350 lbf/in, step: 50 lbf/in }\n', '']],
    'name: grid',
    'a spring without `rate`',
  ],
  [
    'a damper that shortens as the wheel drops',
    [['damper_length: 406.5 mm', 'damper_length: 367 mm']],
    '367 mm',
    'a damper not longer at ride height 360 mm',
  ],
  [
    'a damper that shortens once the raise is taken out',
    [['damper_length: 406.5 mm', 'damper_length: 406.5 mm, mount_raise: 60 mm']],
    '406.5 mm',
    'mount raise taken out',
  ],
  [
    'one ride height twice',
    [['hub_to_arch: 360 mm', 'hub_to_arch: 320 mm']],
    '320 mm, damper_length: 406.5',
    'the ride height 320 mm a second time',
  ],
  ['a single pair without a ratio', [['      ratio: 0.95\n', '']], '[{ hub_to_arch: 340', 'a single pair'],
  [
    'several pairs with a ratio',
    [['      mount_raise: 12 mm\n', '      mount_raise: 12 mm\n      ratio: 0.9\n']],
    'ratio: 0.9\n',
    'a motion ratio beside 4 pairs',
  ],
  [
    'pairs of unknown mount raise',
    [['      mount_raise: 0 mm\n', '']],
    '{ hub_to_arch: 340',
    'a pair without `mount_raise`',
  ],
  [
    'an unsprung mass above the wheel load',
    [['unsprung_mass: 31 kg', 'unsprung_mass: 310 kg']],
    '310 kg',
    'an unsprung mass of 310 kg',
  ],
  [
    'a lowest wheel above the arch contact',
    [['lowest_wheel: 410 mm', 'lowest_wheel: 210 mm']],
    '210 mm',
    'the wheel lowest at ride height 210 mm',
  ],
  [
    'both raise and plate height',
    [['raise: 12 mm\n        spacer', 'raise: 12 mm\n        plate_height: 25 mm\n        spacer']],
    'name: alloy',
    'both or neither',
  ],
  [
    'a target outside its wanted range',
    [['target_height: 325 mm', 'target_height: 350 mm']],
    '350 mm',
    'a target height of 350 mm',
  ],
  ['a wanted range that runs backwards', [['[315 mm, 345 mm]', '[345 mm, 315 mm]']], '[345', 'an upper end below'],
  [
    'a frequency window that runs backwards',
    [['from: 1.6 Hz, to: 2.6 Hz', 'from: 2.7 Hz, to: 2.6 Hz']],
    '2.6 Hz',
    'an upper end below',
  ],
  [
    'a wanted frequency outside its window',
    [['to: 2.6 Hz', 'to: 2.6 Hz, wanted: 3 Hz']],
    '3 Hz',
    '3 outside 1.6 to 2.6',
  ],
  ['a balance target outside its window', [['target: 1.12', 'target: 1.5']], '1.5', '1.5 outside 1.02 to 1.25'],
  [
    'a good bump travel not above the least',
    [['least: 30 mm, good: 60 mm', 'least: 30 mm, good: 30 mm']],
    '30 mm }\n      droop',
    'good bump travel of 30 mm',
  ],
  [
    'full bump by load without stop curves',
    [inSetup('bump: { load: 3 }')],
    '{ load: 3 }',
    'no force-travel curve: `cone`',
  ],
  ['standing on stops without curves', [inSetup('standing_on_stop: true')], 'true', 'no force-travel curve: `cone`'],
  [
    'a load state that lifts the wheel',
    [['front: 20 kg', 'front: -240 kg']],
    '-240 kg',
    '-240 kg on a sprung mass of 237 kg',
  ],
  [
    'cornering without roll data',
    [inSetup('load_cases: [{ name: bend, lateral: 0.8 }]')],
    '0.8 }',
    'without `car.sprung_centre_height`, `axles.front.roll`, `axles.rear.roll`',
  ],
  ['prices without a currency', [['currency: EUR\n', '']], 'price: 0\n    mounts', 'prices without a currency'],
  ['a price weight without a scale', [atTop('ranking: { weights: { price: 1 } }')], '1 } }', 'without `ranking.price`'],
  [
    'a price weight with unpriced parts',
    [atTop('ranking: { price: { good: 100, worst: 900 }, weights: { price: 1 } }'), ['        price: 90\n', '']],
    '1 } }',
    'without a `price` for every part',
  ],
  [
    'a front frequency weight without a wanted one',
    [atTop('ranking: { weights: { front_frequency: 1 } }')],
    '1 } }',
    'a weight for `front_frequency`',
  ],
  [
    'weights that are all zero',
    [atTop('ranking: { weights: { bump_travel: 0, height_coverage: 0, balance: 0, clearance: 0 } }')],
    '{ bump_travel',
    'only weights of 0',
  ],
])('%s is found at the place to change', async (_, edits, piece, found) => {
  const text = edited(SCENARIO, edits);
  const problems = await problemsOf(edits);
  expect(problems.map((problem) => problem.found)).toEqual([expect.stringContaining(found)]);
  expect(problems[0]).toMatchObject(placeOf(text, piece));
});

test('two setups of one name are a problem', async () => {
  const setup = SCENARIO.slice(SCENARIO.indexOf('  - name: low'));
  const problems = await problemsOf([[setup, `${setup}${setup}`]]);
  expect(problems.map((problem) => problem.found)).toEqual(['the name `low` a second time']);
});

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

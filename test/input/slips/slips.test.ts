/** Slips of the pen in the demo: each is read, and each is told with its place, what is usual and what explains it. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { z } from 'zod';
import type { InputWarning } from '../../../src/domain/scenario.ts';
import { memoryFiles } from '../../../src/input/files.ts';
import { measured } from '../../../src/input/measured/schema.ts';
import { formatWarning } from '../../../src/input/problems.ts';
import { readScenario } from '../../../src/input/readScenario.ts';
import { DIMENSIONS, USUAL_BANDS } from '../../../src/input/schema/leaves.ts';
import { scenario } from '../../../src/input/schema/scenario.ts';
import { alternatives } from '../../../src/input/schema/walk.ts';
import { filesOf } from '../../setup/manual.ts';
import { readReal, SCENARIOS } from '../../setup/scenarios.ts';
import { ROOT } from '../../setup/source-tree.ts';
import { type Edit, edited, placeOf } from '../edit.ts';

const textOf = (name: string) => readFileSync(`${ROOT}/scenarios/${name}`, 'utf8');
/** The demo without the weights that need a price of every part and a wanted frequency in every setup. */
const DEMO = edited(textOf('hill-hatch/scenario.yaml'), [[' front_frequency: 1, price: 1,', '']]);
const SPRINGS = textOf('hill-hatch/springs.csv');

async function warningsIn(text: string, catalogue = SPRINGS): Promise<readonly InputWarning[]> {
  const files = [
    { path: 'scenario.yaml', text },
    { path: 'springs.csv', text: catalogue },
  ];
  const read = await readScenario('scenario.yaml', memoryFiles(files));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.warnings;
}

const ofDemo = (edits: readonly Edit[]) => warningsIn(edited(DEMO, edits));
const ofSprings = (edits: readonly Edit[]) => warningsIn(DEMO, edited(SPRINGS, edits));

type Slip = readonly [
  title: string,
  edit: Edit,
  piece: string,
  found: string,
  usual: string | RegExp,
  advice: string | RegExp,
];

/** Conversions: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 lbf/in = 0.175127 N/mm (NIST SP 811, App. B.8). */
test.each<Slip>([
  [
    'a ledge of 155 mm written as 15.5 mm',
    ['ledge_height: 150 mm', 'ledge_height: 15.5 mm'],
    '15.5 mm',
    '`ledge_height` of `15.5 mm`',
    '40 mm to 350 mm (common practice, no source)',
    /^a factor of ten, `155 mm`\?/,
  ],
  [
    // 590.8 lb are 268 kg.
    'a load in pounds without saying so',
    ['wheel_load: 268 kg', 'wheel_load: 590.8 kg'],
    '590.8 kg',
    '`wheel_load` of `590.8 kg`',
    /^80 kg to 550 kg/,
    /^lb meant as kg, `590.8 lb`\?/,
  ],
  [
    // 0.15 in are 3.8 mm.
    'a coupler of 0.15 in written as 0.15 mm',
    ['thickness: 4 mm, bore: 60 mm', 'thickness: 0.15 mm, bore: 60 mm'],
    '0.15 mm',
    '`thickness` of `0.15 mm`',
    /^1 mm to 20 mm/,
    /^inches meant as mm, `0.15 in` or a factor of ten, `1.5 mm`\?/,
  ],
  [
    'a frequency that no slip explains',
    ['frequency: { from: 1.6 Hz, to: 2.2 Hz, wanted: 1.85 Hz }', 'frequency: { from: 1.6 Hz, to: 4.2 Hz }'],
    '4.2 Hz',
    '`to` of `4.2 Hz`',
    /^0.8 Hz to 3.5 Hz/,
    /^check the figure/,
  ],
  [
    'a tolerance of a share, whose band is in per cent',
    ['ranking:', 'tolerances: { gas: 45 % }\n\nranking:'],
    '45 %',
    '`gas` of `45 %`',
    /^0 % to 30 %/,
    /^a factor of ten, `4.5 %`\?/,
  ],
  [
    'a bare number',
    ['closed_fraction: 0.36', 'closed_fraction: 0.036'],
    '0.036',
    '`closed_fraction` of `0.036`',
    /^0.15 to 0.6/,
    /^a factor of ten, `0.36`\?/,
  ],
  [
    'one value of a list',
    ['spacer: [0 mm, 3 mm, 6 mm, 9 mm]', 'spacer: [0 mm, 3 mm, 60.5 mm, 90 mm]'],
    '60.5 mm',
    '`spacer` of `60.5 mm`, and 1 more of its values',
    /^0 mm to 60 mm/,
    /^a factor of ten, `6.05 mm`\?/,
  ],
  [
    'the end of a range',
    ['trim: { from: 0 mm, to: 40 mm, step: 5 mm }', 'trim: { from: 0 mm, to: 150 mm, step: 5 mm }'],
    '150 mm, step',
    '`trim` of `150 mm`',
    /^0 mm to 120 mm/,
    /^a factor of ten, `15 mm`\?/,
  ],
  [
    'a stop cut to far less than it was bought',
    ['cut_length: [38 mm, 48 mm]', 'cut_length: [12 mm, 48 mm]'],
    '12 mm, 48',
    '`cut_length` of `12 mm`',
    /^18 mm to 60 mm beside a stop of 60 mm/,
    /^check the figure/,
  ],
  [
    'a sleeve that ends below half of the body',
    [
      'ledge_height: 150 mm     # lower eye to the ring the sleeve stands on\n        length: 160 mm',
      'ledge_height: 60 mm\n        length: 80 mm',
    ],
    '60 mm\n        length: 80',
    '`ledge_height` of `60 mm`',
    // Half of the body's 318 mm less the sleeve's 80 mm.
    /^79 mm to 318 mm beside a sleeve of 80 mm and a body of 318 mm/,
    /^check the figure/,
  ],
  [
    'a compressed length far from the extended one',
    ['compressed: 324 mm\n        body_length: 318 mm', 'compressed: 204 mm\n        body_length: 198 mm'],
    '204 mm',
    '`compressed` of `204 mm`',
    // 0.45 and 0.9 of 474 mm.
    /^213 mm to 427 mm beside an extended length of 474 mm/,
    /^check the figure/,
  ],
  [
    'a body that is half of the compressed damper',
    ['body_length: 318 mm', 'body_length: 181 mm'],
    '181 mm',
    '`body_length` of `181 mm`',
    /^194 mm to 324 mm beside a compressed length of 324 mm/,
    /^check the figure/,
  ],
  [
    'a gas force that rises tenfold',
    ['gas: { out: 160 N, in: 215 N }', 'gas: { out: 21.5 N, in: 215 N }'],
    '215 N',
    '`in` of `215 N`',
    /^21.5 N to 64.5 N beside a force fully out of 21.5 N/,
    /^a factor of ten, `21.5 N`\?/,
  ],
  [
    'a left wheel load far from the right one',
    ['wheel_load: 268 kg', 'wheel_load: { left: 182 kg, right: 268 kg }'],
    '182 kg',
    '`left` of `182 kg`',
    /^201 kg to 356 kg beside a right wheel load of 268 kg/,
    /^check the figure/,
  ],
  [
    // 207 kg are 456 lb.
    'a rear load in pounds beside a front one in kilograms',
    ['wheel_load: 207 kg', 'wheel_load: 488 kg'],
    '488 kg',
    '`wheel_load` of `488 kg`',
    /^147 kg to 482 kg beside a front wheel load of 268 kg/,
    /^lb meant as kg, `488 lb`\?/,
  ],
  [
    'an unsprung mass that is a third of the load',
    ['unsprung_mass: 26 kg', 'unsprung_mass: 65 kg'],
    '65 kg',
    '`unsprung_mass` of `65 kg`',
    /^10.4 kg to 62.1 kg beside a wheel load of 207 kg/,
    /^lb meant as kg, `65 lb`\?/,
  ],
  [
    'a rear track of another car',
    ['track: 1450 mm', 'track: 1150 mm'],
    '1150 mm',
    '`track` of `1150 mm`',
    // 0.85 and 1.18 of 1460 mm.
    /^1240 mm to 1720 mm beside a front track of 1460 mm/,
    /^check the figure/,
  ],
  [
    'a motion pair off the line of the pairs beside it',
    ['damper_length: 381.0 mm', 'damper_length: 391.0 mm'],
    '391.0 mm',
    '`damper_length` of `391 mm`',
    // Half way from 352.5 to 409.5 mm, 1.5 mm and a twentieth of the 60 mm between their heights to either side.
    /^377 mm to 386 mm beside the pairs next to it/,
    /^check the figure/,
  ],
  [
    'a target height that stands on the arch',
    [
      'target_height: 332 mm\n      wanted_range: [322 mm, 344 mm]',
      'target_height: 532 mm\n      wanted_range: [522 mm, 544 mm]',
    ],
    '532 mm',
    '`target_height` of `532 mm`',
    /^232 mm to 510 mm beside a tyre that meets the arch at 232 mm/,
    /^check the figure/,
  ],
])('%s', async (_, edit, piece, found, usual, advice) => {
  const text = edited(DEMO, [edit]);
  const warnings = await warningsIn(text);
  expect(warnings).toHaveLength(1);
  expect(warnings[0]).toMatchObject({ file: 'scenario.yaml', ...placeOf(text, piece), found });
  expect(warnings[0]?.usual).toMatch(usual);
  expect(warnings[0]?.advice).toMatch(advice);
});

const GRID = (free: string, rest = '') =>
  edited(DEMO, [
    [
      '      - catalogue: springs.csv',
      `      - { name: grid, free_length: ${free}, rate: 30 N/mm, bore: 60 mm${rest} }`,
    ],
  ]);

test('a spring of 254 inches is one of 254 mm', async () => {
  const text = GRID('254 in');
  const [warning, ...others] = await warningsIn(text);
  expect(others).toEqual([]);
  expect(warning).toMatchObject({ ...placeOf(text, '254 in'), found: '`free_length` of `254 in`' });
  // 80 mm and 500 mm in inches.
  expect(warning?.usual).toMatch(/^3.15 in to 19.7 in/);
  expect(warning?.advice).toMatch(/^mm meant as inches, `254 mm`\?/);
});

test('a solid height is held against the free length, and a free length that is unusual itself is no measure', async () => {
  const [beside, ...none] = await warningsIn(GRID('220 mm', ', solid_height: 30 mm'));
  expect(none).toEqual([]);
  expect(beside?.found).toBe('`solid_height` of `30 mm`');
  // 0.2 and 0.75 of 220 mm.
  expect(beside?.usual).toMatch(/^44 mm to 165 mm beside a free length of 220 mm/);
  const found = (await warningsIn(GRID('254 in', ', solid_height: 90 mm'))).map((warning) => warning.found);
  expect(found).toEqual(['`free_length` of `254 in`']);
  const both = await warningsIn(GRID('[220 mm, 260 mm]', ', solid_height: 30 mm'));
  // 0.2 of the shorter, 0.75 of the longer.
  expect(both[0]?.usual).toMatch(/^44 mm to 195 mm beside a free length of 220 mm to 260 mm/);
});

test('what is unusual itself is not held against its neighbours as well', async () => {
  // Above 70 kg, and above 0.3 of the wheel load.
  const warnings = await ofDemo([['unsprung_mass: 26 kg', 'unsprung_mass: 75 kg']]);
  expect(warnings.map(({ usual }) => usual)).toEqual(['10 kg to 70 kg (common practice, no source)']);
});

test.each<readonly [title: string, edit: Edit, piece: string, found: string, usual: string | RegExp, advice: RegExp]>([
  [
    'a solid height of 105 mm written as 10.5 mm',
    ['HS260-34,260,34,105.2', 'HS260-34,260,34,10.5'],
    '10.5,10.0',
    '`solid_height_mm, HS260-34` of `10.5 mm`',
    /^20 mm to 260 mm/,
    /^a factor of ten, `105 mm`\?/,
  ],
  [
    'two digits of a solid height exchanged, which falls out of its neighbours in rate and length',
    ['HS200-46,200,46,91.0', 'HS200-46,200,46,41.0'],
    '41.0,10.25',
    '`solid_height_mm, HS200-46` of `41 mm`',
    // The rows at 42 and 58 N/mm, and at 180 and 220 mm: 75.6 / 1.2 to 91.0 x 1.2; the row at 52 has no solid height.
    /^63 mm to 109 mm beside rows 8, 17, 20, 28/,
    /^check the figure/,
  ],
  [
    'a solid height beyond three quarters of the free length',
    ['HS240-46,240,46,109.1', 'HS240-46,240,46,190.1'],
    '190.1',
    '`solid_height_mm, HS240-46` of `190.1 mm`',
    /^48 mm to 180 mm beside a free length of 240 mm/,
    /^check the figure/,
  ],
  [
    'a wire that falls out of its neighbours',
    ['HS280-34,280,34,115.9,10.25', 'HS280-34,280,34,115.9,12.05'],
    '12.05',
    '`wire_mm, HS280-34` of `12.05 mm`',
    /beside rows/,
    /^check the figure/,
  ],
])('in a catalogue: %s', async (_, edit, piece, found, usual, advice) => {
  const text = edited(SPRINGS, [edit]);
  const warnings = await warningsIn(DEMO, text);
  expect(warnings).toHaveLength(1);
  expect(warnings[0]).toMatchObject({ file: 'springs.csv', ...placeOf(text, piece), found });
  expect(warnings[0]?.usual).toMatch(usual);
  expect(warnings[0]?.advice).toMatch(advice);
});

test('rates of 200 lbf/in under rate_n_per_mm are one warning for the column, not one a row', async () => {
  // 125.6 to 365 lbf/in, as 22 to 64 N/mm are (1 N/mm = 5.71015 lbf/in).
  const text = SPRINGS.replace(/^(HS\d+-\d+,\d+),(\d+),/gm, (_, head: string, rate: string) => {
    return `${head},${(Number(rate) * 5.71015).toFixed(1)},`;
  });
  const own = (await warningsIn(DEMO, text)).filter(({ found }) => found.includes('rate_n_per_mm'));
  expect(own).toHaveLength(1);
  expect(own[0]).toMatchObject({ file: 'springs.csv', line: 4 });
  // 30 to 64 N/mm at six lengths: 48 of the 60 rows lie above 160.
  expect(own[0]?.found).toBe('`rate_n_per_mm, HS180-30` of `171.3 N/mm`, and 47 more of its values');
  expect(own[0]?.advice).toMatch(/^lbf\/in meant as N\/mm, `171.3 lbf\/in` or a factor of ten, `17.13 N\/mm`\?/);
});

test('a row that the scenario does not take is not told of, nor is one without two neighbours', async () => {
  const edit: Edit = ['HS260-34,260,34,105.2', 'HS260-34,260,34,10.5'];
  const only: Edit = [
    '      - catalogue: springs.csv',
    '      - { catalogue: springs.csv, only: { rate: { from: 36 N/mm, to: 70 N/mm } } }',
  ];
  const scenarioText = edited(edited(DEMO, [only]), [only]);
  expect(await warningsIn(scenarioText, edited(SPRINGS, [edit]))).toEqual([]);
  const alone =
    'free_length_mm,rate_n_per_mm,bore_mm,solid_height_mm,wire_mm,coils\n200,40,60,41,,\n200,46,60,91,,\n180,,60,,9,8\n';
  expect(await warningsIn(DEMO, alone)).toEqual([]);
});

test('a catalogue in inches is told in inches, at the column of the cell, quoted cells with line breaks before it', async () => {
  const text = 'name,free_length_in,rate_lbf_per_in,bore_in,solid_height_in\n"two\nlines",10,200,2.36,0.41\n';
  const [warning] = await warningsIn(DEMO, text);
  expect(warning).toMatchObject({ line: 3, column: 20 });
  expect(warning?.found).toBe('`solid_height_in, two lines` of `0.41 in`');
  expect(warning?.advice).toMatch(/^feet meant as inches, `0.41 ft` or a factor of ten, `4.1 in`\?/);
});

test('what both axles share through an anchor is told once', async () => {
  const fixture = readFileSync(new URL('../fixture/scenario.yaml', import.meta.url), 'utf8');
  const text = edited(fixture, [['lock_ring: 8 mm', 'lock_ring: 80 mm']]);
  const springs = readFileSync(new URL('../fixture/springs.csv', import.meta.url), 'utf8');
  const rings = (await warningsIn(text, springs)).filter(({ found }) => found.includes('lock_ring'));
  expect(rings).toEqual([expect.objectContaining(placeOf(text, '80 mm'))]);
});

const CHARGED: Edit = [
  'gas: { out: 160 N, in: 215 N }',
  'gas: { charge: 14 bar, temperature: 20 degC, rod_diameter: 12 mm, volume: 100 cm3 }',
];

test('gas given as a charge pressure suggests a single tube, unless the body is said to be one', async () => {
  const text = edited(DEMO, [CHARGED]);
  const [warning, ...others] = await warningsIn(text);
  expect(others).toEqual([]);
  expect(warning).toMatchObject({
    ...placeOf(text, '{ charge'),
    found: 'gas given as a charge pressure beside `body: unknown`',
  });
  expect(warning?.advice).toMatch(/piston.*inside of the body’s wall.*never grooved or welded/);
  const as = (body: string): Edit => ['body_diameter: 50 mm', `body_diameter: 50 mm\n        body: ${body}`];
  expect((await ofDemo([CHARGED, as('twin_tube')]))[0]?.found).toContain('`body: twin_tube`');
  expect(await ofDemo([CHARGED, as('single_tube')])).toEqual([]);
});

test.each(SCENARIOS)('the demo %s gives no warning', async (name) => {
  expect((await readReal(name)).warnings).toEqual([]);
});

test('the scenarios of the manual give no warning', async () => {
  const files = filesOf(readFileSync(`${ROOT}/README.md`, 'utf8'));
  const read = await Promise.all(
    files
      .filter(({ path }) => path.endsWith('scenario.yaml'))
      .map(({ path }) => readScenario(path, memoryFiles(files))),
  );
  expect(read.length).toBeGreaterThan(0);
  for (const one of read) expect(one).toMatchObject({ ok: true, warnings: [] });
});

test('a warning names place, value, what is usual and advice, and no more than 200 are told', async () => {
  const [warning] = await ofSprings([['HS260-34,260,34,105.2', 'HS260-34,260,34,10.5']]);
  expect(formatWarning(warning as InputWarning)).toBe(
    'springs.csv:45:17: warning: found `solid_height_mm, HS260-34` of `10.5 mm`\n' +
      '  usual: 20 mm to 260 mm (common practice, no source)\n' +
      '  advice: a factor of ten, `105 mm`? A figure that is right may stay',
  );
  const perches = Array.from(
    { length: 250 },
    (_, k) => `\n      - { name: perch ${k}, lock_ring: 8 mm, height: 1${k} mm, engagement: 80 mm }`,
  );
  const text = edited(DEMO, [['    perches:', `    perches:${perches.join('')}`]]);
  expect(await warningsIn(text)).toHaveLength(200);
});

/** Numbers for which nothing is usual. */
const WITHOUT_BAND: Readonly<Record<string, string>> = {
  money: 'prices are in any currency',
  count: 'how many are kept is a choice',
  'ranking.weights.': 'a weight only means something beside the others',
  'springs[].only.': 'a filter may be as wide as one likes',
};

test('every dimension of the scenario and of the measurements has a usual band, but for those listed with a reason', () => {
  const numbers = [...leavesOf(scenario, ''), ...leavesOf(measured, '')];
  expect(numbers.length).toBeGreaterThan(150);
  const exempt = ({ path, dimension }: Leaf) =>
    Object.keys(WITHOUT_BAND).some((reason) => dimension === reason || path.includes(reason));
  expect(numbers.filter((leaf) => leaf.usual === undefined && !exempt(leaf)).map(({ path }) => path)).toEqual([]);
  // A reason that nothing needs is no reason.
  for (const reason of Object.keys(WITHOUT_BAND)) {
    expect(numbers.some(({ path, dimension }) => dimension === reason || path.includes(reason))).toBe(true);
  }
  for (const { usual } of numbers) if (usual) expect(usual.least).toBeLessThan(usual.most);
});

interface Leaf {
  readonly path: string;
  readonly dimension: string;
  readonly usual: { readonly least: number; readonly most: number } | undefined;
}

function* leavesOf(node: z.core.$ZodType, path: string): Generator<Leaf> {
  for (const option of alternatives(node)) {
    const dimension = DIMENSIONS.get(option)?.dimension;
    if (dimension !== undefined) yield { path, dimension, usual: USUAL_BANDS.get(option)?.usual };
    if (option instanceof z.ZodArray) yield* leavesOf(option.element, `${path}[]`);
    if (!(option instanceof z.ZodObject)) continue;
    for (const [key, child] of Object.entries(option.shape))
      yield* leavesOf(child, path === '' ? key : `${path}.${key}`);
  }
}

/** Slips of the pen in the demo: each is read, and each is reported with its place, what is common and what explains it. */

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { measured } from '../../../src/audit/read/schema.ts';
import { formatWarning } from '../../../src/input/problems/problems.ts';
import { readAnyLevel, readScenario } from '../../../src/input/readScenario.ts';
import { alternatives } from '../../../src/input/schema/issues.ts';
import { COMMON_BANDS, DIMENSIONS } from '../../../src/input/schema/leaves.ts';
import { scenario } from '../../../src/input/schema/scenario.ts';
import { memoryFiles } from '../../../src/input/source/files.ts';
import type { InputWarning } from '../../../src/model/scenario.ts';
import { filesOf } from '../../setup/manual.ts';
import { readReal, SCENARIOS } from '../../setup/scenarios.ts';
import { ROOT } from '../../setup/source-tree.ts';
import { type Edit, edited, editOf, placeOf, tableOf } from '../edit.ts';

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

type Slip = Readonly<Record<'title' | 'at' | 'found' | 'band' | 'advice', string>> & { readonly edit: string | Edit };
const SLIPS: Readonly<Record<'scenario' | 'catalogue', readonly Slip[]>> = tableOf('slips.yaml');

async function expectSlip(file: string, text: string, { at, found, band, advice }: Slip): Promise<void> {
  const warnings = file === 'springs.csv' ? await warningsIn(DEMO, text) : await warningsIn(text);
  expect(warnings).toHaveLength(1);
  expect(warnings[0]).toMatchObject({ file, ...placeOf(text, at), found });
  expect(warnings[0]?.usual).toMatch(new RegExp(band));
  expect(warnings[0]?.advice).toMatch(new RegExp(advice));
}

test.each(SLIPS.scenario)('$title', (slip) => {
  return expectSlip('scenario.yaml', edited(DEMO, [editOf(DEMO, slip.edit)]), slip);
});

test.each(SLIPS.catalogue)('in a catalogue: $title', (slip) => {
  return expectSlip('springs.csv', edited(SPRINGS, [editOf(SPRINGS, slip.edit)]), slip);
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

test('rates of 200 lbf/in under rate_n_per_mm are one warning for the column, not one a row', async () => {
  // 125.6 to 365 lbf/in, as 22 to 64 N/mm are (1 N/mm = 5.71015 lbf/in).
  const text = SPRINGS.replace(/^(HS\d+-\d+,\d+),(\d+),/gm, (_, start: string, rate: string) => {
    return `${start},${(Number(rate) * 5.71015).toFixed(1)},`;
  });
  const own = (await warningsIn(DEMO, text)).filter(({ found }) => found.includes('rate_n_per_mm'));
  expect(own).toHaveLength(1);
  expect(own[0]).toMatchObject({ file: 'springs.csv', line: 4 });
  // 30 to 64 N/mm at six lengths: 48 of the 60 rows lie above 160.
  expect(own[0]?.found).toBe('`rate_n_per_mm, HS180-30` of `171.3 N/mm`, and 47 more of its values');
  expect(own[0]?.advice).toMatch(/^lbf\/in meant as N\/mm, `171.3 lbf\/in` or a factor of ten, `17.13 N\/mm`\?/);
});

test('a row that the scenario does not take is not warned of, nor is one without two neighbours', async () => {
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

test('a catalogue in inches is reported in inches, at the column of the cell, quoted cells with line breaks before it', async () => {
  const text = 'name,free_length_in,rate_lbf_per_in,bore_in,solid_height_in\n"two\nlines",10,200,2.36,0.41\n';
  const [warning] = await warningsIn(DEMO, text);
  expect(warning).toMatchObject({ line: 3, column: 20 });
  expect(warning?.found).toBe('`solid_height_in, two lines` of `0.41 in`');
  expect(warning?.advice).toMatch(/^feet meant as inches, `0.41 ft` or a factor of ten, `4.1 in`\?/);
});

test('what both axles share through an anchor is reported once', async () => {
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
      .map(({ path }) => readAnyLevel(path, memoryFiles(files))),
  );
  expect(read.length).toBeGreaterThan(0);
  for (const one of read) expect(one).toMatchObject({ ok: true, warnings: [] });
});

test('a warning names place, value, what is usual and advice, and no more than 200 are given', async () => {
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
    if (dimension !== undefined) yield { path, dimension, usual: COMMON_BANDS.get(option)?.usual };
    if (option instanceof z.ZodArray) yield* leavesOf(option.element, `${path}[]`);
    if (!(option instanceof z.ZodObject)) continue;
    for (const [key, child] of Object.entries(option.shape))
      yield* leavesOf(child, path === '' ? key : `${path}.${key}`);
  }
}

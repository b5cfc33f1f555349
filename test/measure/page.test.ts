import { expect, test } from 'vitest';
import { FIGURES } from '../../src/measure/figures.ts';
import { type MeasureSheet, numberFields } from '../../src/measure/measurable.ts';
import { blankSheet } from '../../src/measure/measure.ts';
import { lettersOf, leverLoad, measureHtml, sheetView, withoutRow } from '../../src/measure/page.ts';
import { type GroupName, isPrice, NOT_MEASURED, ROWS } from '../../src/result/measuring.ts';
import { TOLERANCE_INPUTS } from '../../src/result/tolerance/inputs.ts';
import { PITCH_INERTIA } from '../../src/result/tolerance/settling.ts';
import { HIDDEN, HOSTILE } from '../report/fixture.ts';

const sheet = blankSheet('test');
const rows = Object.values(ROWS).flat();
const paths = rows.flatMap((row) => row.paths);

test('every number of the scenario format is on the sheet, or on the list of exceptions with a reason', () => {
  const fields = numberFields();
  const measurable = fields.filter(({ dimension }) => ['length', 'force', 'mass', 'rate'].includes(dimension));
  expect(measurable.length).toBeGreaterThan(90);
  expect(withoutRow(sheet.fields).map(({ path }) => path)).toEqual([]);
  for (const { start, why } of NOT_MEASURED) {
    expect(why).toMatch(/\w+ \w+/);
    expect(
      fields.some(({ path }) => path.startsWith(start)),
      start,
    ).toBe(true);
  }
});

test('a number the format gains is asked for in the words of its description', () => {
  const added = {
    path: 'dampers[].shaft_play',
    dimension: 'length' as const,
    text: 'play of the shaft',
    isNeeded: true,
  };
  const fields = [...sheet.fields, { ...added, values: { front: [], rear: [] } }];
  const damper = sheetView({ ...sheet, fields }).groups.find(({ name }) => name === 'damper');
  expect(damper?.rows.at(-1)).toMatchObject({ fields: 'shaft_play', how: 'play of the shaft', isNeeded: true });
});

test('no row names a field that the format does not have, and none is on both lists', () => {
  const known = new Set(numberFields().map(({ path }) => path));
  expect(paths.filter((path) => !known.has(path))).toEqual([]);
  expect(new Set(paths).size).toBe(paths.length);
  expect(paths.filter((path) => isPrice(path) || NOT_MEASURED.some(({ start }) => path.startsWith(start)))).toEqual([]);
});

test('every input of the tolerance study is settled by some row, and every row says how sure it is', () => {
  const settled = new Set(rows.flatMap((row) => row.inputs ?? []));
  expect(TOLERANCE_INPUTS.map(({ id }) => id).filter((id) => !settled.has(id))).toEqual([]);
  const inputs = [...TOLERANCE_INPUTS, PITCH_INERTIA];
  expect([...settled].filter((id) => !inputs.some((input) => input.id === id))).toEqual([]);
  expect(rows.filter((row) => row.tolerance === undefined && row.accuracy === undefined)).toEqual([]);
});

test('every letter of a figure stands in the table beside it, once', () => {
  for (const name of Object.keys(FIGURES) as GroupName[]) {
    const letter = lettersOf(name);
    const letters = FIGURES[name].dims.map(({ path }) => letter(path));
    expect(letters, name).not.toContain('');
    expect(new Set(letters).size, name).toBe(letters.length);
  }
});

test('the lever worked on the sheet is moments about the pivot', async () => {
  // 88 kg at 1500 mm balance a wheel at 500 mm: 88 x 1500 = 132000 = 264 x 500.
  expect(leverLoad(95, 7, 500, 1500) * 500).toBe(88 * 1500);
  expect(await measureHtml(sheet)).toContain('88 × 1500 / 500 = <b>264 kg</b>');
});

test('what a measurement decides is named with its amount and its part, the greatest of several setups', () => {
  const effect = { input: 'rate', key: 'clearance_coil_bind_mm', dimension: 'length' as const };
  const shown: MeasureSheet = {
    ...sheet,
    scenario: 'Car',
    bests: [{ setup: 'low', id: 'low-F0-R0-24' }],
    effects: [
      { setup: 'low', axle: 'front', effects: [{ ...effect, by: 4, share: 0.31 }] },
      { setup: 'street', axle: 'front', effects: [{ ...effect, by: 5, share: 0.4 }] },
    ],
  };
  const spring = sheetView(shown).groups.find(({ name }) => name === 'spring');
  expect(spring?.rows.find(({ fields }) => fields === 'rate')?.effects).toBe('front coil bind 5.0 mm (40 %)');
});

test('the page has no script but that of its form, asks for nothing, and hides no hostile character', async () => {
  const whole = await measureHtml({ ...sheet, scenario: HOSTILE });
  expect(whole.match(/^<script.*?>/gm)).toEqual(['<script type="application/json" id="springsift-form">', '<script>']);
  const html = whole.slice(0, whole.indexOf('<script'));
  expect(html).not.toMatch(/<script|\son\w+=|\sstyle=|url\(|@import/);
  expect(html).toMatch(/Content-Security-Policy" content="default-src &#x27;none&#x27;/);
  for (const character of HIDDEN) expect(html).not.toContain(character);
  expect(await measureHtml(sheet)).toBe(await measureHtml(sheet));
});

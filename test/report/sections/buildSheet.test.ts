import { expect, test } from 'vitest';
import { reportHtml } from '../../../src/report/html.ts';
import { buildSheetViews } from '../../../src/report/sections/buildSheet.ts';
import { withCorner } from '../../compare/pages.ts';
import { sweptScenario } from '../../setup/scenarios.ts';
import { combination, result, SHEET, setup } from '../fixture.ts';

const hill = await sweptScenario('hill-hatch');

/** What a row says, column by column: the figures in mm with the words between. */
function said(id: string): string[] {
  const [sheet] = buildSheetViews(hill);
  const row = sheet?.rows.find((one) => one.id === id);
  return (row?.cells ?? []).map(({ readings }) =>
    readings
      .flatMap(({ pieces }) => pieces.flatMap(({ text, measure }) => [text ?? [], measure?.metric ?? []].flat()))
      .join(' '),
  );
}

/** Millimetres to a tenth, as the sheet shows them. */
const mm = (value: number) => value.toFixed(1);

/*
 * By hand from the scenario and the table of springs, front and rear of the plan over both setups:
 *
 * front: HS280-34, L 280, S 115.9; sleeve ledge 150, length 160, trimmed by 20; lock ring 8, perch 11; body 318; stop cut to 38,
 *        closed at 0.36 x 38 = 13.68; damper 474 out; flat mount 12 raise + 3 spacer, flange 6, isolator 6.
 *   sleeve left 160 - 20 = 140, top 150 + 140 = 290; lowest seat 150 + 8 + 11 = 169
 *   upper seat below shoulder, fixed at the tower: (12 + 3) + 6 + 6 = 27
 *   stop met at 318 + 38 = 356, closed at 331.68
 *   gap, damper out: 474 - 356 = 118; snug to solid: 280 - 115.9 = 164.1
 * rear:  HS240-52, L 240, S 108, helper 50 (block 12), coupler 4; ledge 112, length 160, trimmed by 5; body 286; stop cut to 34,
 *        closed 12.24; damper 416 out; raise 10, flange 4, isolator 6.
 *   sleeve left 155, top 267; lowest seat 131; upper seat 20; stop met at 320, closed 298.24
 *   L0 = 240 + 50 + 4 = 294; S0 = 108 + 12 + 4 = 124; gap, damper out: 96; snug to solid 170
 */
// biome-ignore format: one axle a line
const FRONT = { top: 290, lowest: 169, snug: 27 + 280 - 356, out: 474 - 27, closing: 38 - 13.68, solid: 164.1, free: 280 };
const REAR = { top: 267, lowest: 131, snug: 20 + 294 - 320, out: 416 - 20, closing: 34 - 12.24, solid: 170, free: 294 };
const COLUMNS = [FRONT, REAR, FRONT, REAR];

test('the sheet of the demo is one build for both setups, with the plan’s perch heights', () => {
  const [sheet, ...others] = buildSheetViews(hill);
  expect(others).toEqual([]);
  expect(sheet?.id).toBe(hill.plans?.plans[0]?.id);
  expect(sheet?.columns).toEqual(
    ['low', 'street'].flatMap((name) => ['front', 'rear'].map((axle) => ({ setup: name, axle }))),
  );
  const perches = hill.plans?.plans[0]?.setups.flatMap(({ id }) => {
    const all = [
      ...hill.setups.flatMap(({ shortlist }) => shortlist),
      ...(hill.plans?.combinations ?? []).map((c) => c.combination),
    ];
    const found = all.find((one) => one.id === id);
    return [found?.axles.front.values.perch_mm, found?.axles.rear.values.perch_mm].map((value) =>
      mm(value ?? Number.NaN),
    );
  });
  expect(said('perch')).toEqual(perches);
});

test('what only the parts decide is as by hand', () => {
  expect(said('out')).toEqual(['118.0', '96.0', '118.0', '96.0']);
  expect(
    buildSheetViews(hill)[0]
      ?.parts.find(({ label }) => label === 'sleeve')
      ?.cells.map(({ entries }) =>
        entries.map(({ figures }) => figures.map(({ label, measure }) => `${label} ${measure.metric}`)),
      ),
  ).toEqual([[['trim 20.0', 'left 140.0']], [['trim 5.0', 'left 155.0']]]);
});

test('what hangs on the perch follows from its height by adding and taking away', () => {
  // The sheet shows tenths: figures made of a shown perch may differ by one.
  const near = (id: string, expected: (perch: number, k: (typeof COLUMNS)[number]) => readonly number[]) => {
    const rows = said(id).map((text) => (text.match(/\d+\.\d/g) ?? []).map(Number));
    for (const [k, column] of COLUMNS.entries()) {
      const wanted = expected(Number(said('perch')[k]), column);
      for (const [n, value] of wanted.entries())
        expect(Math.abs((rows[k]?.[n] ?? 0) - value), `${id} ${k} ${n}`).toBeLessThan(0.11);
    }
  };
  near('thread', (perch, { top, lowest }) => [top - perch, perch - lowest]);
  near('turns', (perch, { lowest }) => [(perch - lowest) / 2]);
  near('seats', (perch, { out }) => [out - perch]);
  near('slack', (perch, { out, free }) => [Math.abs(out - perch - free)]);
  near('snug', (perch, { snug }) => [perch + snug]);
  near('spare', (perch, { snug, closing, solid }) => [solid, perch + snug + closing, solid - (perch + snug + closing)]);
});

test('the window’s ends are the lowest and the highest place, and the gap goes with them', () => {
  const numbers = (id: string) => said(id).map((text) => text.split(' to ').map(Number));
  for (const [k, { snug }] of COLUMNS.entries()) {
    const [low = 0, high = 0] = numbers('range')[k] ?? [];
    const [least = 0, most = 0] = numbers('snug-range')[k] ?? [];
    expect(Math.abs(least - (low + snug))).toBeLessThan(0.11);
    expect(Math.abs(most - (high + snug))).toBeLessThan(0.11);
    const perch = Number(said('perch')[k]);
    expect(perch).toBeGreaterThanOrEqual(low);
    expect(perch).toBeLessThanOrEqual(high);
  }
});

test('steps that a build does not need are left out, and estimates are called estimates', async () => {
  const [sheet] = buildSheetViews(result());
  expect(sheet?.work).toMatchObject({
    cutsSleeve: true,
    lowersGroove: false,
    hasHelper: false,
    isLoose: true,
    isPreloaded: false,
    isEstimated: true,
  });
  const html = await reportHtml(result());
  const section = html.slice(html.indexOf('<section id="build-sheet"'), html.indexOf('<section id="workshop"'));
  expect(section).toContain('(solid height: an estimate)');
  expect(section).toContain('rests on an estimated solid height');
  expect(section).not.toContain('New grooves');
  expect(section).not.toContain('compressor that fits it');
  expect(section).toContain('A squeezed spring can kill.');
  expect(section).toContain('built by');
});

test('without a pitch no turns are told, and left and right stand apart where they differ', () => {
  const whole = combination('low', 1, { sheet: SHEET });
  const { values } = whole.axles.front;
  const side = (perch: number) => ({ values: { perch_mm: perch, collar_turns: null }, words: {}, failures: [] });
  const sides = { left: side(210), right: side(213.5) };
  const uneven = withCorner(whole, 'front', { values: { ...values, collar_turns: null }, sides });
  const given = result({ setups: [setup('low', { shortlist: [uneven] })] });
  const rows = buildSheetViews(given)[0]?.rows ?? [];
  const cell = (id: string) => rows.find((row) => row.id === id)?.cells[0]?.readings;
  expect(cell('perch')?.map(({ side: name, pieces }) => [name, pieces[0]?.measure?.metric])).toEqual([
    ['left', '210.0'],
    ['right', '213.5'],
  ]);
  expect(cell('turns')).toEqual([{ side: null, pieces: [{ text: 'pitch not given', measure: null }] }]);
  expect(cell('spring')).toHaveLength(1);
});

test('a lowered groove and a packer stand among the cuts, and the groove among the steps', async () => {
  const whole = combination('low', 1);
  const { front } = whole.axles;
  const parts = {
    ...front.parts,
    sleeve: { ...front.parts.sleeve, choice: { trim_mm: 0, groove_drop_mm: 12, length_mm: 150 } },
    bumpStop: { ...front.parts.bumpStop, choice: { cut_length_mm: 60, uncut_length_mm: 60, packer_mm: 5 } },
  };
  const values = { ...front.values, sleeve_left_mm: 150 };
  const given = result({ setups: [setup('low', { shortlist: [withCorner(whole, 'front', { parts, values })] })] });
  const [sheet] = buildSheetViews(given);
  const figures = (label: string) =>
    sheet?.parts
      .find((row) => row.label === label)
      ?.cells[0]?.entries.flatMap((entry) => entry.figures.map((one) => `${one.label} ${one.measure.metric}`));
  expect(figures('sleeve')).toEqual(['untrimmed 150.0', 'new groove lower by 12.0']);
  expect(figures('bump stop')).toEqual(['uncut, as bought 60.0', 'packer above it 5.0']);
  const html = await reportHtml(given);
  expect(html).toContain('New grooves only where');
  expect(html).toContain('Who machined the lowered groove');
});

import { expect, test } from 'vitest';
import { reportHtml } from '../../../src/report/html.ts';
import { drawingsView, type drawnCorner } from '../../../src/report/sections/drawing.ts';
import type { CornerReport, Result } from '../../../src/result/result.ts';
import { plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';
import { judged } from '../drawing/corners.ts';
import { combination, firstAnswer, HOSTILE, result, setup } from '../fixture.ts';

const { report } = judged(plainSite(), plainCorner());
/** The made-up combination with corners that have lengths. */
function drawn(change: Partial<CornerReport> = {}): Result {
  const base = combination('low', 1);
  const corner = (own: CornerReport): CornerReport => ({
    ...own,
    ...change,
    values: { ...own.values, ...(change.values ?? report.values) },
    words: { ...own.words, ...report.words, ...change.words },
  });
  const axles = { front: corner(base.axles.front), rear: corner(base.axles.rear) };
  return result({ setups: [setup('low', { shortlist: [{ ...base, axles }] })] });
}
const viewOf = (given: Result) => drawingsView(given, firstAnswer(given));

test('judged under a load every clearance stands twice, the second with the stop fully closed', () => {
  const curved = plainCorner({ bumpStop: { ...plainCorner().bumpStop, curve: stopCurve } });
  const under = judged(plainSite({ bump: { kind: 'load', multiple: 2 } }), curved).report;
  const view = viewOf(drawn({ values: under.values }))?.corners[0];
  const of = (corner: ReturnType<typeof drawnCorner> | undefined) =>
    corner?.rows.map(({ closed }) => closed?.metric ?? null);
  // 333.2 - 320, see below.
  expect(of(view)?.[1]).toBe('13.2');
  expect(of(view)).not.toContain(null);
  expect(view?.isUnderLoad).toBe(true);
  expect(view?.svg).toMatch(/in brackets: with the stop fully closed/);
  expect(view?.svg).toMatch(/>[\d.]+ \(13\.2\), [\d.]+ spare</);
  const plain = viewOf(drawn())?.corners[0];
  expect(of(plain)).toEqual([null, null, null, null]);
  expect(plain?.isUnderLoad).toBe(false);
  expect(plain?.svg).not.toMatch(/stop fully closed|\(13/);
});

test('a record without lengths brings no drawing, and no heading for one', async () => {
  expect(drawingsView(result(), firstAnswer(result()))).toBeNull();
  expect(await reportHtml(result())).not.toContain('id="drawing"');
});

test('the table repeats every clearance of the drawing with its margin, and marks the thinnest in words', () => {
  const rows = viewOf(drawn())?.corners[0]?.rows ?? [];
  // Of the plain corner: coil bind, damper, sleeve on isolator, tyre.
  expect(rows.map(({ name }) => name)).toEqual([
    'coil bind',
    'damper bottoming inside',
    'sleeve on isolator',
    'tyre on arch',
  ]);
  expect(rows.map(({ margin }) => margin.metric)).toEqual(['6.0', '3.0', '4.0', '8.0']);
  // Hand arithmetic: full bump at 318 + 0.4 x 38 = 333.2, the damper in at 320.
  expect(rows[1]?.clearance.metric).toBe('13.2');
  expect(rows.filter(({ isThinnest }) => isThinnest)).toHaveLength(1);
});

test('a failing check that has no place in the picture is said in the caption', async () => {
  const failures = [
    { check: 'frequency', message: 'Body frequency 2.9 Hz, above 2.6 Hz.', shortfall: 0.3, unit: 'Hz' } as const,
  ];
  const view = viewOf(drawn({ failures }));
  expect(view?.corners[0]?.unplaced).toEqual([
    { check: 'frequency outside its window', message: 'Body frequency 2.9 Hz, above 2.6 Hz.' },
  ]);
  expect(await reportHtml(drawn({ failures }))).toContain('Fails, not in the picture: frequency outside its window.');
});

test('coils of unknown wire are called so', () => {
  expect(viewOf(drawn())?.corners[0]?.coils).toEqual({ isEstimated: false, isUnknown: true });
});

test('names from files do no harm in the picture', async () => {
  const given = drawn();
  const html = await reportHtml({ ...given, setups: given.setups.map((one) => ({ ...one, name: HOSTILE })) });
  const svgs = html.match(/<svg class="drawing"[\s\S]*?<\/title>/g) ?? [];
  expect(svgs).toHaveLength(2);
  for (const svg of svgs) expect(svg).not.toMatch(/<script|<b |\u202e/i);
});

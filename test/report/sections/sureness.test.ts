import { expect, test } from 'vitest';
import { reportHtml } from '../../../src/report/html.ts';
import { answerView } from '../../../src/report/sections/answer.ts';
import { bandRows, bandsViews, surenessView } from '../../../src/report/sections/sureness.ts';
import { keyOf } from '../../../src/result/quantities/quantity.ts';
import type { CornerReport } from '../../../src/result/result.ts';
import { STUDIED, STUDIED_KEYS } from '../../../src/result/tolerance/bands.ts';
import { withCorner } from '../../compare/pages.ts';
import { combination, result, setup } from '../fixture.ts';

const low = setup('low');
const best = combination('low', 1);
const withFront = (change: Partial<CornerReport>) => withCorner(best, 'front', change);
const view = surenessView(low, best);
const row = (label: RegExp) => view.axles[0]?.rows.find((r) => label.test(r.label));

test('a row says value, both bands in both worlds, what moves it most and what to measure', () => {
  expect(row(/^bump travel/)).toMatchObject({
    value: { metric: '46.3', imperial: '1.82' },
    likely: { metric: '44.1 to 48.4', imperial: '1.74 to 1.91' },
    worst: { metric: '41.3 to 51.3', imperial: '1.62 to 2.02' },
    contributor: 'wheel load',
    by: { metric: '1.9', unit: 'mm' },
    measure: 'the corner on scales, driver aboard',
    isTight: false,
  });
});

test('a clearance whose worst case is below 0 is tight', () => {
  expect(row(/damper bottoming/)?.isTight).toBe(true);
  expect(row(/damper bottoming/)?.worst.metric).toBe('\u22120.6 to 8.8');
  expect(view.tight.map((t) => [t.axle, t.contact, t.worst.metric])).toEqual([
    ['Front', 'damper bottoming inside', '\u22120.6'],
  ]);
});

test('only the frequency that the setup is judged by has a row', () => {
  expect(row(/frequency/)).toBeUndefined();
  const ride = surenessView(setup('low', { frequency_basis: 'ride' }), best);
  expect(ride.axles[0]?.rows.map((r) => r.label)).toContain('body frequency on the tyre');
});

test('every quantity that can have a band has a description', () => {
  const bands = Object.fromEntries(STUDIED_KEYS.map((key) => [key, Object.values(best.axles.front.bands)[0]]));
  const values = Object.fromEntries(STUDIED_KEYS.map((key) => [key, 1]));
  const all = surenessView(low, withFront({ bands, values } as Partial<CornerReport>));
  expect(all.axles[0]?.rows.length).toBe(STUDIED_KEYS.length - 1);
  expect(STUDIED.map(keyOf).filter((key) => !STUDIED_KEYS.includes(key))).toEqual([]);
});

test('what lies outside its range of validity is said once', () => {
  const flag = { kind: 'note', topic: 'range', message: 'Front: wire 10.3 mm lies outside the range.' } as const;
  const flags = [...best.axles.front.flags, flag, flag];
  expect(surenessView(low, withFront({ flags })).ranges).toEqual([flag.message]);
  expect(view.ranges).toEqual([]);
});

test('a tight clearance stands among what to measure first, and is not called thin as well', () => {
  const found = answerView(result(), low).best;
  expect(found?.tight.map((t) => t.contact)).toEqual(['damper bottoming inside']);
  expect(found?.thin.map((t) => t.axle)).toEqual(['Front', 'Rear']);
  const tight = best.axles.front.tight.map((t) => ({ ...t, contact: 'coil bind' }));
  const same = setup('low', { shortlist: [withFront({ tight })] });
  expect(answerView(result(), same).best?.thin.map((t) => t.axle)).toEqual(['Rear']);
});

test('the page has the section, and says so where nothing is tight', async () => {
  const html = await reportHtml(result());
  expect(html).toContain('id="sureness"');
  expect(html).toMatch(/could be −0\.6&nbsp;mm/);
  const calm = setup('low', { shortlist: [withFront({ tight: [] })] });
  expect(await reportHtml(result({ setups: [calm] }))).toContain('No clearance is tight');
});

test('clearances and travels are drawn, with the bands of the table', () => {
  const rows = bandRows(best.axles.front);
  const band = best.axles.front.bands.bump_travel_mm;
  expect(rows.find(({ name }) => name.startsWith('bump travel'))).toMatchObject({
    value: best.axles.front.values.bump_travel_mm,
    likely: [band?.rss_low, band?.rss_high],
    worst: [band?.worst_low, band?.worst_high],
  });
  expect(rows.some(({ name }) => name.startsWith('clearance'))).toBe(true);
  expect(rows.some(({ name }) => /frequency|perch/.test(name))).toBe(false);
});

test('an axle without bands has no chart', async () => {
  const views = await bandsViews(withFront({ bands: {} }));
  expect(views.map(({ title }) => title)).not.toContain('Front');
});

import { expect, test } from 'vitest';
import { bandRows, bandsViews } from '../../../src/report/sections/bands.ts';
import { combination } from '../fixture.ts';

const best = combination('low', 1);

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
  const { front, rear } = best.axles;
  const views = await bandsViews({ ...best, axles: { front: { ...front, bands: {} }, rear } });
  expect(views.map(({ title }) => title)).not.toContain('Front');
});

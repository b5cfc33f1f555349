import { expect, test } from 'vitest';
import type { ForceCurve } from '../../../src/model/corner/forceCurve.ts';
import { drawChart } from '../../../src/report/charts/draw.ts';
import { below, forceChart, SERIES } from '../../../src/report/charts/forceTravel.ts';

const zero = [0, 0, 0, 0, 0];
const CURVE: ForceCurve = {
  stop_known: true,
  knee_height_mm: null,
  height_mm: [260, 280, 300, 320, 340],
  spring_n: [4000, 3500, 3000, 2500, 2000],
  gas_n: [200, 200, 200, 200, 200],
  stop_n: [9000, 1000, 0, 0, 0],
  bush_n: zero,
  total_n: [13_200, 4700, 3200, 2700, 2200],
};
const MARKS = [
  { name: 'standing', at: 300, kind: 'wanted' },
  { name: 'coil bind', at: 252, kind: 'limit' },
  { name: 'other metal', at: 251, kind: 'limit' },
] as const;
const draw = (curve: ForceCurve) =>
  drawChart(forceChart({ curve, standing: 300, stopAt: 290, load: 2700, marks: MARKS }));

test('the parts that push are named, those that never do are not', async () => {
  const { body } = await draw(CURVE);
  for (const name of ['total', 'spring', 'gas', 'bump stop']) expect(body).toContain(`>${name}</text>`);
  expect(body).not.toContain('twisted bushes');
  expect((await draw({ ...CURVE, bush_n: [9, 5, 0, -5, -9] })).body).toContain('>twisted bushes</text>');
});

test('each part has dashes of its own, so that grey is enough', async () => {
  const dashes = SERIES.map(({ dash }) => dash.join(','));
  expect(new Set(dashes).size).toBe(SERIES.length);
  const { body } = await draw(CURVE);
  for (const dash of dashes.slice(0, 4)) expect(body).toContain(`stroke-dasharray="${dash}"`);
});

test('every mark is named once, and nothing refers to another place of the page', async () => {
  const { body } = await draw(CURVE);
  for (const { name } of MARKS) expect(body.split(`>${name}</text>`)).toHaveLength(2);
  expect(body).not.toMatch(/url\(|clip|href|NaN/);
});

test('a line that leaves the chart ends on its edge', () => {
  const points = [
    { travel: 0, force: 100 },
    { travel: 10, force: 300 },
    { travel: 20, force: 900 },
  ];
  // Hand arithmetic: 400 lies a sixth of the way from 300 to 900.
  expect(below(points, 400)).toEqual([points[0], points[1], { travel: 10 + 10 / 6, force: 400 }]);
  expect(below(points, 1000)).toEqual(points);
  expect(below([...points].reverse(), 400)[0]).toEqual({ travel: 10 + 10 / 6, force: 400 });
});

test('past a stop of unknown force the total ends where the stop is met', async () => {
  const spec = forceChart({
    curve: { ...CURVE, stop_known: false, stop_n: zero },
    standing: 300,
    stopAt: 290,
    load: 2700,
    marks: MARKS,
  });
  const [lines] = (spec as unknown as { layer: { data: { values: { part: string; travel: number }[] } }[] }).layer;
  const ends = (part: string) =>
    Math.max(...(lines?.data.values ?? []).filter((row) => row.part === part).map(({ travel }) => travel));
  expect(ends('total')).toBe(0);
  expect(ends('spring')).toBe(40);
});

test('a total that is not known past the stop is left out there, whatever stands beside it', () => {
  const unknown = { stop_n: [null, null, 0, 0, 0], total_n: [null, null, 3200, 2700, 2200] };
  const spec = forceChart({ curve: { ...CURVE, ...unknown }, standing: 300, stopAt: 290, load: 2700, marks: MARKS });
  const [lines] = (spec as unknown as { layer: { data: { values: { part: string; force: number }[] } }[] }).layer;
  const rows = (lines?.data.values ?? []).filter(({ part }) => part === 'total');
  expect(rows.map(({ force }) => force)).toEqual([3200, 2700, 2200]);
  expect(JSON.stringify(lines)).not.toMatch(/"part":"bump stop"/);
});

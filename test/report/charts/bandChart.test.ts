import { expect, test } from 'vitest';
import { type BandRow, bandChart } from '../../../src/report/charts/bandChart.ts';
import { drawChart } from '../../../src/report/charts/draw.ts';

const ROWS: readonly BandRow[] = [
  { name: 'bump travel left', value: 56, likely: [50, 60], worst: [46, 66] },
  { name: 'clearance, coil bind', value: 12, likely: [7, 17], worst: [-1, 27] },
];
const draw = async (rows = ROWS) => (await drawChart(bandChart(rows))).body;
/** Starts and widths of the bars, px; bars of one look share a path. */
const barsOf = (body: string) => {
  const path = /d="([^"]*)"[^>]*fill="var\(--accent\)"/.exec(body)?.[1] ?? '';
  return [...path.matchAll(/M([\d.]+),[\d.]+h([\d.]+)/g)].map(([, from, width]) => ({
    from: Number(from),
    width: Number(width),
  }));
};

test('equal likely bands are bars of equal width, as far apart as their lengths', async () => {
  const [first, second] = barsOf(await draw());
  expect(first?.width).toBeGreaterThan(0);
  expect(second?.width).toBeCloseTo(first?.width ?? 0, 1);
  // Both are 10 mm wide; they begin 43 mm apart.
  expect((first?.from ?? 0) - (second?.from ?? 0)).toBeCloseTo(4.3 * (first?.width ?? 0), 0);
});

test('every row has its name, and nothing refers to another place of the page', async () => {
  const body = await draw();
  for (const { name } of ROWS) expect(body).toContain(`>${name}</text>`);
  expect(body).not.toMatch(/url\(|clip|href|NaN/);
});

test('zero is always in the picture, with its broken line', async () => {
  const far = await draw([{ name: 'far', value: 90, likely: [88, 92], worst: [85, 95] }]);
  expect(far).toContain('stroke-dasharray="4,3"');
  expect(far).toMatch(/>0<\/text>|>0<\/tspan>/);
});

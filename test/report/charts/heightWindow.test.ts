import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawChart } from '../../../src/report/charts/draw.ts';
import { placeEnds, type WindowRow, windowChart } from '../../../src/report/charts/heightWindow.ts';

const ROW: WindowRow = {
  name: 'low-F1',
  window: { low: 330, high: 350 },
  lowLimit: 'full droop',
  highLimit: 'coil bind',
};
const draw = (rows: readonly WindowRow[]) =>
  drawChart(windowChart({ rows, target: 345, wantedFrom: 335, wantedTo: 355 }));

test('a bar is as wide against the band as its heights are', async () => {
  const { body } = await draw([ROW]);
  const widthOf = (fill: string) =>
    Number(new RegExp(`<path[^>]*d="M[\\d.]+,[\\d.]+h([\\d.]+)[^"]*"[^>]*fill="var\\(--${fill}\\)"`).exec(body)?.[1]);
  // Both are 20 mm wide.
  expect(widthOf('accent')).toBeGreaterThan(0);
  expect(widthOf('accent')).toBeCloseTo(widthOf('band'), 6);
});

test('a row without a window says so in words', async () => {
  expect((await draw([{ ...ROW, window: null }])).body).toContain('no usable height');
});

test('short limits share a line, long ones get one each, so the chart grows', async () => {
  const heightOf = async (row: WindowRow) => Number((await draw([row])).viewBox.split(' ')[3]);
  const long = { ...ROW, lowLimit: 'least bump travel (two up, luggage)', highLimit: 'spring loose at droop' };
  expect(await heightOf(long)).toBe((await heightOf(ROW)) + 15);
});

test('labels at the two ends never overlap and never leave the chart', () => {
  const label = fc.record({
    at: fc.double({ min: 0, max: 340, noNaN: true }),
    width: fc.double({ min: 5, max: 160, noNaN: true }),
  });
  fc.assert(
    fc.property(label, label, (a, b) => {
      const [low, high] = a.at < b.at ? [a, b] : [b, a];
      const [left, right] = placeEnds(low, high);
      expect(left).toBeGreaterThanOrEqual(0);
      expect(right).toBeLessThanOrEqual(340 + 1e-9);
      expect(left + low.width).toBeLessThanOrEqual(right - high.width + 1e-9);
    }),
  );
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { TYPE_SIZE } from '../../../src/report/charts/draw.ts';
import { mergePoints, type PlotFrame, placeLabels } from '../../../src/report/charts/points.ts';
import { textWidth } from '../../../src/report/text/textWidth.ts';

const FRAME: PlotFrame = { x: [0, 10], y: [0, 10], width: 200, height: 200 };
const point = (rank: number, x: number, y: number, kind = 'other') => ({ rank, x, y, kind });

test('points on one another share one with all their ranks; other kinds stay', () => {
  const merged = mergePoints([point(3, 5, 5), point(1, 5, 5.01), point(2, 5, 5, 'front'), point(4, 9, 9)], FRAME);
  expect(merged.map(({ label }) => label)).toEqual(['1, 3', '2', '4']);
});

test('labels never overlap one another nor leave the plot', () => {
  const coordinate = fc.double({ min: 0, max: 10, noNaN: true });
  fc.assert(
    fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 12 }), (places) => {
      const labels = placeLabels(
        mergePoints(
          places.map(([x, y], k) => point(k + 1, x, y)),
          FRAME,
        ),
        FRAME,
      );
      const boxes = labels.map(({ x, y, text, align }) => {
        const width = textWidth(text, TYPE_SIZE);
        const left = align === 'left' ? x : x - width;
        return { left, right: left + width, top: y - TYPE_SIZE / 2, bottom: y + TYPE_SIZE / 2 };
      });
      for (const [k, a] of boxes.entries()) {
        expect(a.left).toBeGreaterThanOrEqual(0);
        expect(a.right).toBeLessThanOrEqual(200);
        for (const b of boxes.slice(k + 1)) {
          const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
          expect(apart).toBe(true);
        }
      }
    }),
  );
});

test('the best rank gets its label where not all have room', () => {
  const crowd = Array.from({ length: 6 }, (_, k) => point(k + 1, 5 + k * 0.15, 5));
  expect(placeLabels(mergePoints(crowd, FRAME), FRAME).map(({ text }) => text)).toContain('1');
});

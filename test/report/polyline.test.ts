import fc from 'fast-check';
import { expect, test } from 'vitest';
import { straightPath } from '../../src/report/polyline.ts';

test('points on the straight way go, corners stay', () => {
  expect(straightPath('M0,0L1,1L2,2.1L3,3L3,9L3,10')).toBe('M0,0L3,3L3,10');
});

test('paths of another kind stay as they are', () => {
  for (const d of ['M0,0L1,1', 'M0,0L1,0L2,0L3,0Z', 'M0,0h1h1h1h1', 'M0,0L1,0L2,0L3,0M5,5L6,6', '']) {
    expect(straightPath(d)).toBe(d);
  }
});

test('no point of the line is farther than a tenth of a pixel from what is drawn', () => {
  const coordinate = fc
    .double({ min: -200, max: 200, noNaN: true, noDefaultInfinity: true })
    .map((v) => Math.round(v * 100) / 100 + 0);
  fc.assert(
    fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 4, maxLength: 30 }), (points) => {
      const drawn = [...straightPath(`M${points.map((p) => p.join()).join('L')}`).matchAll(/(-?[\d.]+),(-?[\d.]+)/g)];
      const ends = drawn.map(([, x, y]) => [Number(x), Number(y)] as const);
      expect(ends[0]).toEqual(points[0]);
      expect(ends.at(-1)).toEqual(points.at(-1));
      for (const [x, y] of points) {
        const nearest = Math.min(
          ...ends.slice(1).map(([x2, y2], k) => {
            const [x1, y1] = ends[k] as readonly [number, number];
            // Least distance over many places of the piece: independent of the formula under test.
            const places = Array.from({ length: 401 }, (_, n) => n / 400);
            const away = places.map((t) => Math.hypot(x1 + t * (x2 - x1) - x, y1 + t * (y2 - y1) - y));
            return Math.min(...away) - Math.hypot(x2 - x1, y2 - y1) / 800;
          }),
        );
        expect(nearest).toBeLessThanOrEqual(0.1001);
      }
    }),
    { numRuns: 100 },
  );
});

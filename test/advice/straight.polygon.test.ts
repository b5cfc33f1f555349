/** Least changes under straight margins: by hand, and against every point of a fine grid. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { amountOf, type Box, type HalfPlane, mostIn, nearestIn, type Point } from '../../src/advice/straight.ts';

const box: Box = [
  [0, 10],
  [0, 20],
];
const start: Point = [4, 6];

describe('by hand', () => {
  test.each<[claim: string, sides: readonly HalfPlane[], found: Point | null]>([
    ['where nothing is lacking nothing changes', [], start],
    ['nor where a margin is met', [[1, 0, 0]], start],
    ['one margin along one axis is made up along that axis: x >= 7', [[1, 0, -7]], [7, 6]],
    ['x <= 1', [[-1, 0, 1]], [1, 6]],
    ['y >= 9.5', [[0, 2, -19]], [4, 9.5]],
    ['y <= 2', [[0, -1, 2]], [4, 2]],
    // 18 are there; x alone takes 2, y alone 6.
    ['the steeper way is the shorter one: 3 x + y >= 24', [[3, 1, -24]], [6, 6]],
    ['x + 3 y >= 31', [[1, 3, -31]], [4, 9]],
    ['x ends at 10: the rest has to come from y', [[3, 1, -40]], [10, 10]],
    ['what lies outside the limits is not there: x', [[1, 0, -10.1]], null],
    ['below x', [[-1, 0, -0.1]], null],
    ['y', [[0, 1, -20.1]], null],
    ['below y', [[0, -1, -0.1]], null],
    ['beyond both', [[1, 1, -30.1]], null],
    ['in the very corner', [[1, 1, -30]], [10, 20]],
    [
      'what lies in no point at all is not there',
      [
        [1, 0, -7],
        [-1, 0, 6],
      ],
      null,
    ],
  ])('%s', (_, sides, found) => {
    expect(nearestIn(sides, start, box)).toEqual(found);
  });

  test('two margins meet in their crossing', () => {
    // x >= 6 and x + y >= 15.
    const found = nearestIn(
      [
        [1, 0, -6],
        [1, 1, -15],
      ],
      start,
      box,
    ) as Point;
    expect(amountOf(found, start)).toBeCloseTo(5, 12);
    expect(found[0]).toBeGreaterThanOrEqual(6 - 1e-9);
    // x - y >= 1 and y >= 8: the crossing is (9, 8).
    const crossed = nearestIn(
      [
        [1, -1, -1],
        [0, 1, -8],
      ],
      start,
      box,
    );
    expect(crossed).toEqual([expect.closeTo(9, 12), expect.closeTo(8, 12)]);
  });

  test('a start outside the limits comes back to them', () => {
    const back = (from: Point) => nearestIn([], from, box)?.map((value) => value + 0);
    expect(back([-3, 25])).toEqual([0, 20]);
    expect(back([12, -1])).toEqual([10, 0]);
  });

  test('what a margin is at most stands in the corner it rises to', () => {
    expect(mostIn([2, -1, 3], box)).toBe(23);
    expect(mostIn([-2, 1, 3], box)).toBe(23);
    expect(mostIn([-1, -1, -2], box)).toBe(-2);
  });

  test('changes count along both axes, either way', () => {
    expect(amountOf([1, 9], [4, 5])).toBe(7);
    expect(amountOf([4, 5], [1, 9])).toBe(7);
    expect(amountOf([4, 5], [4, 5])).toBe(0);
  });
});

test('no point of a fine grid that keeps all margins is nearer, and the one found keeps them', () => {
  const coefficient = fc.integer({ min: -3, max: 3 });
  const side = fc.tuple(coefficient, coefficient, fc.integer({ min: -25, max: 25 }));
  let met = 0;
  fc.assert(
    fc.property(fc.array(side, { minLength: 1, maxLength: 4 }), (margins) => {
      const found = nearestIn(margins, start, box);
      const keeps = ([x, y]: Point) => margins.every(([a, b, c]) => a * x + b * y + c >= -1e-6);
      if (found !== null) {
        met++;
        expect(keeps(found)).toBe(true);
        expect(found[0] >= -1e-9 && found[0] <= 10 + 1e-9 && found[1] >= -1e-9 && found[1] <= 20 + 1e-9).toBe(true);
      }
      const amount = found === null ? Number.POSITIVE_INFINITY : amountOf(found, start);
      for (let x = 0; x <= 10; x += 0.5) {
        for (let y = 0; y <= 20; y += 0.5) {
          if (keeps([x, y])) expect(amount).toBeLessThanOrEqual(amountOf([x, y], start) + 1e-6);
        }
      }
    }),
    { numRuns: 300, seed: 7 },
  );
  expect(met).toBeGreaterThan(100);
});

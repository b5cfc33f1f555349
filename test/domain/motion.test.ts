import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  baseAt,
  heightAt,
  isMeasured,
  leastRatio,
  monotoneSlopes,
  motionCurve,
  ratioAt,
  ratioSlopeAt,
} from '../../src/domain/motion.ts';

const pairsOf = (points: readonly (readonly [number, number])[], raise = 0) =>
  points.map(([hubToArch, damperLength]) => ({ hubToArch, damperLength, raise }));

test('the cubic keeps to the Fritsch-Carlson slopes of their RPN 14 data', () => {
  // Fritsch & Carlson (1980), RPN 14 data (from memory): the data their paper shows overshooting with other splines.
  const x = [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20];
  const y = [0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.94374, 0.998636, 0.999919, 0.999994];
  const slopes = monotoneSlopes(x, y);
  for (let k = 0; k + 1 < x.length; k++) {
    const secant = ((y[k + 1] as number) - (y[k] as number)) / ((x[k + 1] as number) - (x[k] as number));
    const [a, b] = [(slopes[k] as number) / secant, (slopes[k + 1] as number) / secant];
    expect(a * a + b * b).toBeLessThanOrEqual(9 + 1e-9);
    expect(Math.min(a, b)).toBeGreaterThanOrEqual(0);
  }
});

test('points of a parabola, however spaced, have its own slopes at every point', () => {
  // x^2 at 0, 1, 3 and 6, and the same falling away: 2x is the slope, at the ends as well.
  const near = (slopes: readonly number[]) => slopes.map((slope) => expect.closeTo(slope, 12));
  expect(monotoneSlopes([0, 1, 3, 6], [0, 1, 9, 36])).toEqual(near([0, 2, 6, 12]));
  expect(monotoneSlopes([0, 3, 5, 6], [0, 27, 35, 36])).toEqual(near([12, 6, 2, 0]));
  expect(monotoneSlopes([1, 2, 4], [1, 4, 16])).toEqual(near([2, 4, 8]));
  expect(monotoneSlopes([1, 3], [2, 8])).toEqual([3, 3]);
  // A parabola through the first three points that would fall at its end stays level there.
  expect(monotoneSlopes([0, 1, 2], [0, 0.1, 2])[0]).toBe(0);
});

test('the curve goes through its pairs, rises between them, and is undone by heightAt', () => {
  const steps = fc.array(
    fc.tuple(fc.double({ min: 5, max: 60, noNaN: true }), fc.double({ min: 2, max: 60, noNaN: true })),
    {
      minLength: 2,
      maxLength: 8,
    },
  );
  fc.assert(
    fc.property(steps, fc.double({ min: 0, max: 1, noNaN: true }), (increments, share) => {
      let at: [number, number] = [250, 300];
      const points = increments.map(([dh, dl]) => {
        at = [at[0] + dh, at[1] + dl];
        return at;
      });
      const curve = motionCurve({ pairs: pairsOf(points, 12), ratio: null });
      fc.pre(leastRatio(curve) > 0.05);
      for (const [height, length] of points) expect(baseAt(curve, height)).toBeCloseTo(length - 12, 9);
      const [low, high] = [(points[0] as [number, number])[0], at[0]];
      const height = low - 30 + share * (high - low + 60);
      expect(heightAt(curve, baseAt(curve, height))).toBeCloseTo(height, 7);
      expect(baseAt(curve, height + 0.5)).toBeGreaterThan(baseAt(curve, height));
    }),
  );
});

test('a quadratic motion gives back its own ratio and slope, and a straight line beyond the measured range', () => {
  const exact = (h: number) => 400 + 0.9 * (h - 330) + 2e-4 * (h - 330) ** 2;
  const curve = motionCurve({ pairs: pairsOf([290, 310, 330, 350, 370].map((h) => [h, exact(h)])), ratio: null });
  expect(ratioAt(curve, 330)).toBeCloseTo(0.9, 9);
  expect(ratioSlopeAt(curve, 330)).toBeCloseTo(4e-4, 9);
  expect(ratioAt(curve, 500)).toBeCloseTo(0.9 + 4e-4 * 40, 9);
  expect(ratioSlopeAt(curve, 500)).toBe(0);
  expect(baseAt(curve, 390) - baseAt(curve, 380)).toBeCloseTo(10 * ratioAt(curve, 400), 9);
  expect([isMeasured(curve, 290), isMeasured(curve, 289.9)]).toEqual([true, false]);
});

test('three pairs give a least-squares ratio and no slope, one pair gives the ratio stated', () => {
  const three = motionCurve({
    pairs: pairsOf([
      [300, 380],
      [330, 409],
      [360, 437],
    ]),
    ratio: null,
  });
  expect(ratioAt(three, 330)).toBeCloseTo((437 - 380) / 60, 12);
  expect(ratioSlopeAt(three, 330)).toBe(0);
  const one = motionCurve({ pairs: pairsOf([[330, 409]], 9), ratio: 0.95 });
  expect(baseAt(one, 340)).toBeCloseTo(400 + 9.5, 12);
  expect(heightAt(one, 390.5)).toBeCloseTo(320, 12);
  expect(() => motionCurve({ pairs: pairsOf([[330, 409]]), ratio: null })).toThrow(RangeError);
});

test('half a millimetre of reading error turns neither the sign of the ratio nor the wheel rate by much', () => {
  const error = fc.array(fc.double({ min: -0.5, max: 0.5, noNaN: true }), { minLength: 5, maxLength: 5 });
  fc.assert(
    fc.property(error, (errors) => {
      const points = [275, 305, 335, 365, 395].map(
        (h, k) => [h, 350 + 0.94 * (h - 275) + (errors[k] as number)] as const,
      );
      const curve = motionCurve({ pairs: pairsOf(points), ratio: null });
      expect(Math.abs(ratioAt(curve, 335) - 0.94)).toBeLessThan(0.02);
      // 2500 N times the slope error is the error of the wheel rate.
      expect(2500 * Math.abs(curve.ratioSlope)).toBeLessThan(3);
    }),
  );
});

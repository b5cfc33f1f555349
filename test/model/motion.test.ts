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
} from '../../src/model/motion.ts';
import { between, forAny } from '../setup/random.ts';

const pairsOf = (points: readonly (readonly [number, number])[], raise = 0) =>
  points.map(([hubToArch, damperLength]) => ({ hubToArch, damperLength, raise }));

const ofThree = (...lengths: [number, number, number]) =>
  motionCurve({ pairs: pairsOf(lengths.map((length, k) => [300 + 30 * k, length])), ratio: null });

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
  const steps = fc.array(fc.tuple(between(5, 60), between(2, 60)), { minLength: 2, maxLength: 8 });
  forAny([steps, between(0, 1)], (increments, share) => {
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
  });
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
  const three = ofThree(380, 409, 437);
  expect(ratioAt(three, 330)).toBeCloseTo((437 - 380) / 60, 12);
  expect(ratioSlopeAt(three, 330)).toBe(0);
  const one = motionCurve({ pairs: pairsOf([[330, 409]], 9), ratio: 0.95 });
  expect(baseAt(one, 340)).toBeCloseTo(400 + 9.5, 12);
  expect(heightAt(one, 390.5)).toBeCloseTo(320, 12);
  expect(() => motionCurve({ pairs: pairsOf([[330, 409]]), ratio: null })).toThrow(RangeError);
});

test('half a millimetre of reading error turns neither the sign of the ratio nor the wheel rate by much', () => {
  const error = fc.array(between(-0.5, 0.5), { minLength: 5, maxLength: 5 });
  forAny([error], (errors) => {
    const points = [275, 305, 335, 365, 395].map(
      (h, k) => [h, 350 + 0.94 * (h - 275) + (errors[k] as number)] as const,
    );
    const curve = motionCurve({ pairs: pairsOf(points), ratio: null });
    expect(Math.abs(ratioAt(curve, 335) - 0.94)).toBeLessThan(0.02);
    // 2500 N times the slope error is the error of the wheel rate.
    expect(2500 * Math.abs(curve.ratioSlope)).toBeLessThan(3);
  });
});

/**
 * Swing arms in exact plane geometry: an arm of length `arm` from a pivot 350 mm below the arch lip to the hub, the damper's lower
 * eye on it `eye` out, its upper end fixed to the body at `top`. Nothing of it is fitted.
 */
const ARMS = [
  { arm: 380, eye: 250, top: [170, 400] },
  { arm: 340, eye: 200, top: [230, 380] },
  { arm: 420, eye: 330, top: [260, 420] },
] as const;

function armLength({ arm, eye, top: [x, y] }: (typeof ARMS)[number], hubToArch: number): number {
  const angle = Math.asin((350 - hubToArch) / arm);
  return Math.hypot(x - eye * Math.cos(angle), y - eye * Math.sin(angle));
}

/** Root mean square errors of the length 20 and 40 mm beyond either end: as the curve goes on, by ratio, by end slope. */
function errorsBeyond(count: number, readingError: () => number, runs = 1) {
  const squares = { curve: 0, ratio: 0, slope: 0 };
  for (const arm of ARMS) {
    for (let run = 0; run < runs; run++) {
      const heights = Array.from({ length: count }, (_, k) => 300 + (70 * k) / (count - 1));
      const curve = motionCurve({
        pairs: pairsOf(heights.map((h) => [h, armLength(arm, h) + readingError()])),
        ratio: null,
      });
      for (const [place, end, off] of [
        [0, 300, -20],
        [0, 300, -40],
        [count - 1, 370, 20],
        [count - 1, 370, 40],
      ] as const) {
        const exact = armLength(arm, end + off);
        const straight = (slope: number) => ((curve.bases[place] as number) + slope * off - exact) ** 2;
        squares.curve += (baseAt(curve, end + off) - exact) ** 2;
        squares.ratio += straight(ratioAt(curve, end));
        squares.slope += straight(curve.slopes[place] as number);
      }
    }
  }
  const root = (sum: number) => Math.sqrt(sum / (4 * runs * ARMS.length));
  return { curve: root(squares.curve), ratio: root(squares.ratio), slope: root(squares.slope) };
}

/** Normal deviates by Box and Muller (1958), from a generator with a seed. */
function normal(spread: number) {
  let seed = 12_345;
  const uniform = () => {
    seed = (seed * 1_103_515_245 + 12_345) % 2 ** 31;
    return (seed + 1) / (2 ** 31 + 1);
  };
  return () => spread * Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

test('on a swing arm three pairs go on best at the end slope, more pairs at the least-squares ratio', () => {
  const exact = (count: number) => errorsBeyond(count, () => 0);
  // Exactly read: two pairs are one line; three need the parabola's end slope, which leaves a third of the error; from four on
  // the least-squares quadratic has the same curvature.
  expect(exact(2).curve).toBeCloseTo(exact(2).slope, 9);
  expect(exact(3).curve).toBe(exact(3).slope);
  expect(exact(3).ratio / exact(3).curve).toBeGreaterThan(2.5);
  for (const count of [4, 7]) {
    expect(exact(count).curve).toBe(exact(count).ratio);
    expect(exact(count).ratio / exact(count).slope).toBeLessThan(1.06);
    // Read with errors of 0.25 mm, the end slope hangs on the last three readings alone.
    const read = errorsBeyond(count, normal(0.25), 300);
    expect(read.slope / read.curve).toBeGreaterThan(1.3);
  }
  // What the end slope costs with three pairs that are read as badly: a third more.
  const three = errorsBeyond(3, normal(0.25), 300);
  expect(three.slope / three.ratio).toBeLessThan(1.5);
  // The figures that the function's comment states.
  const stated = [2, 3, 4, 7].map(exact).concat([3, 4, 7].map((count) => errorsBeyond(count, normal(0.25), 300)));
  expect(stated.map(({ slope, ratio }) => `${slope.toFixed(2)} ${ratio.toFixed(2)}`)).toEqual([
    ...['0.45 0.45', '0.16 0.45', '0.16 0.16', '0.16 0.16'],
    ...['0.75 0.58', '1.04 0.74', '1.92 0.67'],
  ]);
});

test('beyond three pairs the length and its inverse agree, and a slope that no motion has leaves the ratio', () => {
  const smooth = ofThree(380, 409, 437);
  // The parabola through the three: slopes 29/30 and 28/30, so 27.5/30 at the upper end.
  expect(baseAt(smooth, 380) - 437).toBeCloseTo((20 * 27.5) / 30, 9);
  for (const height of [250, 299, 361, 420]) expect(heightAt(smooth, baseAt(smooth, height))).toBeCloseTo(height, 9);
  // A third pair that hardly rises would give an end slope of 0, which nothing could be inverted by.
  const bent = ofThree(380, 409, 410);
  expect(baseAt(bent, 380) - 410).toBeCloseTo(20 * ratioAt(bent, 380), 9);
  expect(heightAt(bent, baseAt(bent, 400))).toBeCloseTo(400, 9);
  const steep = ofThree(380, 385, 437);
  expect(baseAt(steep, 380) - 437).toBeCloseTo(20 * ratioAt(steep, 380), 9);
});

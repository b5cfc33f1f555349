/**
 * The measured motion of one wheel: damper length against ride height, mount raise taken out.
 *
 * Lengths come from a monotone cubic through the measured pairs; the motion ratio and its slope come from a
 * least-squares quadratic instead, because differentiating the cubic twice would turn half a millimetre of reading
 * error into several N/mm of wheel rate.
 */
import type { MotionData } from './scenario.ts';
import { rootBetween } from './solve.ts';

export interface MotionCurve {
  /** Measured ride heights, mm, rising. */
  readonly heights: readonly number[];
  /** Damper length less mount raise at each height, mm, rising. */
  readonly bases: readonly number[];
  /** Slopes of the cubic at each height, mm/mm; with one pair the motion ratio. */
  readonly slopes: readonly number[];
  /** Motion ratio at the middle of the measured range and its slope, 1/mm. */
  readonly ratioAtMiddle: number;
  readonly ratioSlope: number;
  readonly middle: number;
}

/** Fewer pairs than this carry no trustworthy curvature: the slope of the motion ratio is then taken as 0. */
export const PAIRS_FOR_SLOPE = 4;

/** With as many pairs as this the curve goes on beyond them at the cubic's end slope, else at the least-squares ratio. */
const PAIRS_FOR_END_SLOPE = 3;

/**
 * The curve through measured pairs of ride height and damper length.
 *
 * Units: `data` lengths in mm, ratio dimensionless; result mm, ratios dimensionless, their slope 1/mm.
 * Valid: at least one pair, heights and lengths rising together; a single pair needs a ratio, or else RangeError.
 * Source: Fritsch & Carlson (1980), SIAM J. Numer. Anal. 17(2), for lengths; least squares for the ratio.
 */
export function motionCurve(data: MotionData): MotionCurve {
  const heights = data.pairs.map((p) => p.hubToArch);
  const bases = data.pairs.map((p) => p.damperLength - p.raise);
  const middle = (first(heights) + last(heights)) / 2;
  if (heights.length === 1) {
    if (data.ratio === null) throw new RangeError('a single measured pair needs a motion ratio');
    return { heights, bases, slopes: [data.ratio], ratioAtMiddle: data.ratio, ratioSlope: 0, middle };
  }
  const fit = fitRatio(heights, bases, middle);
  return { heights, bases, slopes: monotoneSlopes(heights, bases), ...fit, middle };
}

/**
 * Damper length less mount raise at a ride height.
 *
 * Units: `curve` in mm, `height` mm; result mm.
 * Valid: inside the measured range; outside it the curve goes on straight, at the least-squares ratio of the nearer end, or at the
 * cubic's end slope with exactly three pairs, see `slopeBeyond`.
 * Example: baseAt({"heights":[335],"bases":[397.5],"slopes":[0.945],"ratioAtMiddle":0.945,"ratioSlope":0,"middle":335}, 345) = 406.95
 * Source: Fritsch & Carlson (1980), SIAM J. Numer. Anal. 17(2).
 */
export function baseAt(curve: MotionCurve, height: number): number {
  const { heights, bases } = curve;
  const n = heights.length;
  if (height <= first(heights)) return first(bases) + slopeBeyond(curve, 0) * (height - first(heights));
  if (height >= last(heights)) return last(bases) + slopeBeyond(curve, n - 1) * (height - last(heights));
  const k = segmentOf(heights, height, n);
  return hermite(curve, k, height);
}

/**
 * Ride height at which the damper length less mount raise is a given one: the inverse of `baseAt`.
 *
 * Units: `curve` in mm, `base` mm; result mm, hub to arch.
 * Valid: as `baseAt`.
 * Example: heightAt({"heights":[335],"bases":[397.5],"slopes":[0.945],"ratioAtMiddle":0.945,"ratioSlope":0,"middle":335}, 406.95) = 345
 * Source: root of the cubic, see `rootBetween`.
 */
export function heightAt(curve: MotionCurve, base: number): number {
  const { heights, bases } = curve;
  if (base <= first(bases)) return first(heights) + (base - first(bases)) / slopeBeyond(curve, 0);
  if (base >= last(bases)) return last(heights) + (base - last(bases)) / slopeBeyond(curve, heights.length - 1);
  const k = segmentOf(bases, base, bases.length);
  return rootBetween((h) => hermite(curve, k, h) - base, heights[k] as number, heights[k + 1] as number);
}

/**
 * Slope at which lengths go on beyond the first or last measured pair.
 *
 * Three pairs give the least-squares ratio no curvature, so it is the chord's, and the length beyond it errs by the curvature over half
 * the range; the end slope of the cubic (the parabola through the three) holds it. From four pairs on the least-squares
 * quadratic has the curvature itself, and spreads a reading error over all pairs where the end slope takes it from the last three.
 *
 * Measured on three swing arms with exact geometry, pairs from 300 to 370 mm, root mean square error of the length 20 and
 * 40 mm beyond, end slope against ratio: 2 pairs 0.45 mm both, 3 pairs 0.16 against 0.45, 4 and 7 pairs 0.16 both. With
 * readings off by 0.25 mm (standard deviation): 3 pairs 0.75 mm against 0.58, 4 pairs 1.04 against 0.74, 7 pairs 1.92
 * against 0.67. So with three pairs the end slope is worth careful readings, and with four it never is.
 *
 * Units: `curve` in mm, `end` index of the first or last pair; result mm/mm.
 * Valid: an end slope between half and twice the ratio; beyond that the three pairs are no smooth motion, and the ratio counts.
 * Example: slopeBeyond({"heights":[300,330,360],"slopes":[1,0.95,0.9],"ratioAtMiddle":0.95,"ratioSlope":0,"middle":330}, 2) = 0.9
 * Source: measured as said, by test; common practice, no source for the limits.
 */
export function slopeBeyond(curve: MotionCurve, end: number): number {
  const ratio = ratioAt(curve, curve.heights[end] as number);
  const slope = curve.slopes[end] as number;
  const usable = curve.heights.length === PAIRS_FOR_END_SLOPE && slope >= ratio / 2 && slope <= 2 * ratio;
  return usable ? slope : ratio;
}

/**
 * Motion ratio at a ride height: damper travel per wheel travel; held constant outside the measured range.
 *
 * Equation: MR = dl/dH = MR_mid + (dMR/dH) (H - H_mid)
 * Units: `curve` in mm, `height` H mm; result dimensionless.
 * Valid: inside the measured range. With three pairs the length beyond them has a slope of its own, see `slopeBeyond`.
 * Example: ratioAt({"heights":[300,370],"ratioAtMiddle":0.94,"ratioSlope":-0.0002,"middle":335}, 345) = 0.938
 * Source: least-squares quadratic through the pairs, differentiated.
 */
export function ratioAt(curve: MotionCurve, height: number): number {
  const inside = Math.min(last(curve.heights), Math.max(first(curve.heights), height));
  return curve.ratioAtMiddle + curve.ratioSlope * (inside - curve.middle);
}

/**
 * Slope of the motion ratio dMR/dH at a ride height.
 *
 * Units: `curve` in mm, `height` mm; result 1/mm.
 * Valid: 0 outside the measured range and with fewer than four pairs.
 * Example: ratioSlopeAt({"heights":[300,370],"ratioSlope":-0.0002}, 345) = -0.0002
 * Source: least-squares quadratic through the pairs, differentiated twice.
 */
export function ratioSlopeAt(curve: MotionCurve, height: number): number {
  return isMeasured(curve, height) ? curve.ratioSlope : 0;
}

/**
 * Whether a ride height lies inside the measured range; a single pair measures nothing but itself.
 *
 * Units: `curve` in mm, `height` mm; result true or false.
 * Valid: any height.
 */
export function isMeasured(curve: MotionCurve, height: number): boolean {
  return height >= first(curve.heights) && height <= last(curve.heights);
}

/**
 * The smallest motion ratio over the measured range; not above 0 means the pairs can't be used.
 *
 * Units: `curve` in mm; result dimensionless.
 * Valid: the ratio is a straight line, so it is least at an end.
 * Example: leastRatio({"heights":[300,370],"ratioAtMiddle":0.94,"ratioSlope":-0.0002,"middle":335}) = 0.933
 * Source: see `ratioAt`.
 */
export function leastRatio(curve: MotionCurve): number {
  return Math.min(ratioAt(curve, first(curve.heights)), ratioAt(curve, last(curve.heights)));
}

/** Least-squares line (2-3 pairs) or quadratic (4 and more) through the pairs, differentiated. */
function fitRatio(heights: readonly number[], bases: readonly number[], middle: number) {
  // Centred and scaled to [-1, 1] so that the normal equations stay well conditioned.
  const half = (last(heights) - first(heights)) / 2;
  const u = heights.map((h) => (h - middle) / half);
  const sum = (f: (u: number, i: number) => number) => u.reduce((total, value, i) => total + f(value, i), 0);
  const n = u.length;
  const [s1, s2, s3, s4] = [1, 2, 3, 4].map((p) => sum((v) => v ** p)) as [number, number, number, number];
  const [t0, t1, t2] = [0, 1, 2].map((p) => sum((v, i) => v ** p * (bases[i] as number))) as [number, number, number];
  if (n < PAIRS_FOR_SLOPE) {
    return { ratioAtMiddle: (n * t1 - s1 * t0) / (n * s2 - s1 * s1) / half, ratioSlope: 0 };
  }
  // Normal equations of c0 + c1 u + c2 u^2 by Cramer's rule; only c1 and c2 are wanted.
  const det = determinant(n, s1, s2, s1, s2, s3, s2, s3, s4);
  const c1 = determinant(n, t0, s2, s1, t1, s3, s2, t2, s4) / det;
  const c2 = determinant(n, s1, t0, s1, s2, t1, s2, s3, t2) / det;
  return { ratioAtMiddle: c1 / half, ratioSlope: (2 * c2) / (half * half) };
}

function determinant(
  a: number,
  b: number,
  c: number,
  d: number,
  e: number,
  f: number,
  g: number,
  h: number,
  i: number,
): number {
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}

/**
 * Slopes of a monotone cubic through rising points: three-point starting slopes, one-sided at the ends, then limited to
 * the circle alpha^2 + beta^2 <= 9.
 *
 * Units: `x` and `y` in mm, rising, of one length; result mm/mm.
 * Valid: two points at least.
 * Example: monotoneSlopes([0,1,2], [0,1,4]).1 = 2
 * Source: Fritsch & Carlson (1980), "Monotone piecewise cubic interpolation", SIAM J. Numer. Anal. 17(2).
 */
export function monotoneSlopes(x: readonly number[], y: readonly number[]): number[] {
  const n = x.length;
  const width = (k: number) => (x[k + 1] as number) - (x[k] as number);
  const secant = (k: number) => ((y[k + 1] as number) - (y[k] as number)) / width(k);
  if (n === 2) return [secant(0), secant(0)];
  const slopes = x.map((_, k) => {
    if (k === 0) return threePoint(secant(0), secant(1), width(0), width(1));
    if (k === n - 1) return threePoint(secant(n - 2), secant(n - 3), width(n - 2), width(n - 3));
    return (width(k) * secant(k - 1) + width(k - 1) * secant(k)) / (width(k - 1) + width(k));
  });
  for (let k = 0; k < n - 1; k++) limitSegment(slopes, k, secant(k));
  return slopes;
}

/** End slope of the parabola through three points: the near secant s0 (width h0), the next one s1 (width h1). */
function threePoint(s0: number, s1: number, h0: number, h1: number): number {
  return Math.max(0, s0 + ((s0 - s1) * h0) / (h0 + h1));
}

function limitSegment(slopes: number[], k: number, secant: number): void {
  const alpha = (slopes[k] as number) / secant;
  const beta = (slopes[k + 1] as number) / secant;
  const radius = Math.hypot(alpha, beta);
  if (radius <= 3) return;
  slopes[k] = (3 * alpha * secant) / radius;
  slopes[k + 1] = (3 * beta * secant) / radius;
}

function hermite(curve: MotionCurve, k: number, height: number): number {
  const { heights, bases, slopes } = curve;
  const h0 = heights[k] as number;
  const width = (heights[k + 1] as number) - h0;
  const y0 = bases[k] as number;
  const y1 = bases[k + 1] as number;
  const t = (height - h0) / width;
  const m0 = (slopes[k] as number) * width;
  const m1 = (slopes[k + 1] as number) * width;
  return y0 + t * (m0 + t * (3 * (y1 - y0) - 2 * m0 - m1 + t * (2 * (y0 - y1) + m0 + m1)));
}

function segmentOf(rising: readonly number[], value: number, n: number): number {
  let k = 0;
  while (k < n - 2 && (rising[k + 1] as number) <= value) k++;
  return k;
}

function first(values: readonly number[]): number {
  return values[0] as number;
}

function last(values: readonly number[]): number {
  return values[values.length - 1] as number;
}

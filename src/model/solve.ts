/**
 * Root of a continuous function between two points where it changes sign.
 *
 * Method: Chandrupatla (1997), "A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear
 * function without using derivatives", Advances in Engineering Software 28(3): inverse quadratic steps where they
 * can be trusted, halving elsewhere, so kinks (a helper closing, a stop met) cost steps but never the root.
 *
 * @param f continuous on [lo, hi]; a value of +-Infinity is taken by its sign alone
 * @param tolerance width of the bracket at which to stop, in the unit of the argument
 * @returns the argument where f = 0; an end of the interval when f is 0 there
 * @throws RangeError when f has the same sign at both ends
 */
export function rootBetween(f: (x: number) => number, lo: number, hi: number, tolerance = 1e-11): number {
  let a = hi;
  let b = lo;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) throw new RangeError(`no sign change between ${lo} and ${hi}: ${fb} and ${fa}`);
  let t = 0.5;
  for (let step = 0; step < 200; step++) {
    const x = a + t * (b - a);
    const fx = f(x);
    let c: number;
    let fc: number;
    if (fx > 0 === fa > 0) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    if (fx === 0 || Math.abs(b - a) <= tolerance) return best;
    t = nextFraction(a, fa, b, fb, c, fc, tolerance);
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}

/** Where to look next, as a share of the way from a to b: inverse quadratic where it is safe, else the middle. */
function nextFraction(a: number, fa: number, b: number, fb: number, c: number, fc: number, tolerance: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  const safe = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
  const t = safe
    ? (fa / (fb - fa)) * (fc / (fb - fc)) + (((c - a) / (b - a)) * fa * fb) / ((fc - fa) * (fc - fb))
    : 0.5;
  const least = (0.5 * tolerance) / Math.abs(b - a);
  return Number.isFinite(t) ? Math.min(1 - least, Math.max(least, t)) : 0.5;
}

/** The first of `count` places at which a condition holds that, once true, stays true; `count` where it never does. */
export function firstAt(count: number, holds: (place: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Desirability: each property of a choice on one scale from 0 (not wanted) to 1 (as good as asked for). */

/**
 * Desirability of a property that should be large.
 *
 * Equation: d = 0 for y <= lower, ((y - lower)/(target - lower))^r between, 1 for y >= target
 * Units: `value` y, `lower` and `target` all in the unit of the property, `exponent` r dimensionless; result
 * dimensionless, 0 to 1.
 * Valid: lower <= target (equal: a step at the target, which counts as reached); r > 0, r = 1 is the straight line.
 * Example: largerIsBetter(55, 40, 80) = 0.375
 * Source: Derringer & Suich (1980), "Simultaneous optimization of several response variables", Journal of Quality
 * Technology 12(4), pp. 214-219; the example derived.
 */
export function largerIsBetter(value: number, lower: number, target: number, exponent = 1): number {
  if (value >= target) return 1;
  if (value <= lower) return 0;
  return ((value - lower) / (target - lower)) ** exponent;
}

/**
 * Desirability of a property that should be small.
 *
 * Equation: d = 1 for y <= target, ((upper - y)/(upper - target))^r between, 0 for y >= upper
 * Units: `value` y, `target` and `upper` all in the unit of the property, `exponent` r dimensionless; result
 * dimensionless, 0 to 1.
 * Valid: target <= upper (equal: a step at the target, which counts as reached); r > 0, r = 1 is the straight line.
 * Example: smallerIsBetter(500, 400, 800) = 0.75
 * Source: Derringer & Suich (1980), "Simultaneous optimization of several response variables", Journal of Quality
 * Technology 12(4), pp. 214-219; the example derived.
 */
export function smallerIsBetter(value: number, target: number, upper: number, exponent = 1): number {
  return largerIsBetter(-value, -upper, -target, exponent);
}

/**
 * Desirability of a property that should meet a target.
 *
 * Equation: d = ((y - lower)/(target - lower))^r below the target, ((upper - y)/(upper - target))^r above it, 0 outside
 * Units: `value` y, `lower`, `target` and `upper` all in the unit of the property, `exponent` r dimensionless; result
 * dimensionless, 0 to 1.
 * Valid: lower <= target <= upper; r > 0, r = 1 is the tent of straight lines. Both sides share one exponent here; the
 * paper allows two.
 * Example: targetIsBest(1.15, 1.0, 1.1, 1.3) = 0.75
 * Source: Derringer & Suich (1980), "Simultaneous optimization of several response variables", Journal of Quality
 * Technology 12(4), pp. 214-219; the example derived.
 */
export function targetIsBest(value: number, lower: number, target: number, upper: number, exponent = 1): number {
  const below = largerIsBetter(value, lower, target, exponent);
  return Math.min(below, smallerIsBetter(value, target, upper, exponent));
}

/**
 * Overall desirability: the weighted geometric mean, so that one property at 0 makes the whole 0.
 *
 * Equation: D = exp(sum(w ln d) / sum(w)) over the properties with w > 0
 * Units: `desirabilities` d each 0 to 1 and `weights` w each 0 or more, dimensionless, of equal length; result
 * dimensionless, 0 to 1.
 * Valid: at least one weight above 0, else a RangeError: there would be nothing to judge by. Weight 0 leaves its
 * property out, even at d = 0.
 * Example: weightedGeometricMean([0.25, 1], [1, 1]) = 0.5
 * Source: Derringer & Suich (1980), Journal of Quality Technology 12(4), pp. 214-219, for the geometric mean; weights as
 * in Derringer (1994), "A balancing act", Quality Progress 27(6), from memory; the example derived.
 */
export function weightedGeometricMean(desirabilities: readonly number[], weights: readonly number[]): number {
  const total = weights.reduce((sum, w) => sum + w, 0);
  if (!(total > 0) || desirabilities.length !== weights.length) {
    throw new RangeError('a weighted mean needs one weight per value, and at least one above 0');
  }
  let sum = 0;
  for (const [i, d] of desirabilities.entries()) {
    const weight = weights[i] as number;
    if (weight > 0) sum += weight * Math.log(d);
  }
  return Math.exp(sum / total);
}

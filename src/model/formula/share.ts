/** How well a share is known that was counted. */

/** The normal deviate that leaves 2.5 % on either side. */
const DEVIATE = 1.959964;

/**
 * Interval in which a share lies that was seen in a number of draws, 19 times in 20.
 *
 * Equation: (p + z^2 / 2n +- z sqrt(p (1 - p) / n + z^2 / 4n^2)) / (1 + z^2 / n), z = 1.959964
 * Units: `share` p as counted, 0 to 1; `count` n draws; result both ends, 0 to 1.
 * Valid: independent draws, n at least 1.
 * Example: wilsonInterval(0.5, 4).low = 0.15004
 * Source: Wilson (1927), "Probable inference, the law of succession, and statistical inference", Journal of the American
 * Statistical Association 22(158), pp. 209-212; the example derived.
 */
export function wilsonInterval(share: number, count: number): { readonly low: number; readonly high: number } {
  const square = DEVIATE ** 2 / count;
  const middle = (share + square / 2) / (1 + square);
  const half = (DEVIATE / (1 + square)) * Math.sqrt((share * (1 - share)) / count + square / (4 * count));
  return { low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}

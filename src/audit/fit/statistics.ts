/** Linear algebra of correlated readings: a covariance is factored once, then residuals are freed of their correlation. */

/** Lower triangular `L` with `L L^T = matrix`, row by row. */
export type Factor = readonly Float64Array[];

/**
 * Cholesky factor of a symmetric positive definite matrix.
 * Source: Golub & Van Loan, Matrix Computations, section 4.2.
 * @throws RangeError when the matrix is not positive definite
 */
export function factorOf(matrix: readonly (readonly number[])[]): Factor {
  const rows: Float64Array[] = [];
  matrix.forEach((row, i) => {
    const mine = new Float64Array(row.length);
    for (let j = 0; j <= i; j++) {
      const other = j === i ? mine : (rows[j] as Float64Array);
      let sum = row[j] as number;
      for (let k = 0; k < j; k++) sum -= (mine[k] as number) * (other[k] as number);
      if (j === i && !(sum > 0)) throw new RangeError('the covariance is not positive definite');
      mine[j] = j === i ? Math.sqrt(sum) : sum / (other[j] as number);
    }
    rows.push(mine);
  });
  return rows;
}

/** `L^-1 r`: the residuals as independent ones, each in units of tolerance. */
export function whiten(factor: Factor, residual: readonly number[]): number[] {
  const white: number[] = [];
  residual.forEach((value, i) => {
    const row = factor[i] as Float64Array;
    let sum = value;
    for (let k = 0; k < i; k++) sum -= (row[k] as number) * (white[k] as number);
    white.push(sum / (row[i] as number));
  });
  return white;
}

export function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, k) => sum + value * (other[k] as number), 0);
}

/**
 * Probability that a sum of squares of independent standard normal deviations exceeds a value.
 *
 * Equation: Q(n + 2) = Q(n) + (x/2)^(n/2) e^(-x/2) / Gamma(n/2 + 1), from Q(1) = erfc(sqrt(x/2)) or Q(2) = e^(-x/2)
 * Units: `x` and `degrees` n dimensionless; result 0 to 1.
 * Valid: x from 0, n a whole number from 1 to some hundreds; the error function to about 1e-7 of its value.
 * Example: chiSquareTail(18.307, 10) = 0.0500
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.4.4 and 26.4.5 (finite sums for odd and even n);
 * example: NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4, from memory.
 */
export function chiSquareTail(x: number, degrees: number): number {
  if (x <= 0) return 1;
  const half = x / 2;
  const odd = degrees % 2 === 1;
  let tail = odd ? erfc(Math.sqrt(half)) : Math.exp(-half);
  // The term that leads from n to n + 2 degrees, and what it is multiplied by next.
  let term = odd ? 2 * Math.sqrt(half / Math.PI) * Math.exp(-half) : half * Math.exp(-half);
  for (let n = odd ? 1 : 2; n < degrees; n += 2) {
    tail += term;
    term *= half / (n / 2 + 1);
  }
  return Math.min(1, tail);
}

/** Complementary error function by Chebyshev fit, relative error below 1.2e-7 (Press et al., Numerical Recipes, 6.2). */
function erfc(z: number): number {
  const t = 1 / (1 + z / 2);
  const series = ERFC.reduceRight((sum, coefficient) => coefficient + t * sum, 0);
  return t * Math.exp(-z * z + series);
}

const ERFC = [
  -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223,
  0.17087277,
];

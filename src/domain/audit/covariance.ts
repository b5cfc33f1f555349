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
export function whitened(factor: Factor, residual: readonly number[]): number[] {
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

import { Matrix, solve } from 'ml-matrix';
import { expect, test } from 'vitest';
import { symmetricDraws } from '../../../src/advice/cars.ts';
import { dot, factorOf, whiten } from '../../../src/audit/fit/expectation.ts';

test('the whiten residual squared is r^T C^-1 r, as ml-matrix solves it', () => {
  const draw = symmetricDraws(17);
  for (let size = 1; size <= 9; size++) {
    const root = Array.from({ length: size }, () => Array.from({ length: size + 2 }, draw));
    const matrix = root.map((a, i) => root.map((b, j) => dot(a, b) + (i === j ? 0.1 : 0)));
    const residual = Array.from({ length: size }, draw);
    const column = Matrix.columnVector(residual);
    const expected = column
      .transpose()
      .mmul(solve(new Matrix(matrix), column))
      .get(0, 0);
    const white = whiten(factorOf(matrix), residual);
    expect(dot(white, white)).toBeCloseTo(expected, 9);
  }
});

test('a matrix that is no covariance is refused', () => {
  expect(() =>
    factorOf([
      [1, 2],
      [2, 1],
    ]),
  ).toThrow(RangeError);
});

/**
 * What a model expects of the measurements: each one's value and band, and how they hang together. Every toleranced input
 * is stepped its full tolerance both ways through the model, as for the bands of the report, and every reading through
 * its own half-width; an input that moves several measurements makes them deviate together.
 */
import type { Tolerances } from '../../model/scenario.ts';
import { type Model, TOLERANCE_INPUTS } from '../../result/tolerance/inputs.ts';
import { type Marks, type Observation, TRUE_MARKS } from './observations.ts';

export interface Expectation {
  readonly model: Model;
  readonly marks: Marks;
  readonly predicted: readonly number[];
  /** Moves of every measurement by one input: down and up, in its own unit. */
  readonly moves: readonly Move[];
  /** Middle of the moves: `predicted`, save where an input can only go one way. */
  readonly centre: readonly number[];
  /** Of the covariance in units of tolerance squared. */
  readonly factor: Factor;
}

export interface Move {
  /** Input that moves, or what was read. */
  readonly label: string;
  readonly measure: string;
  readonly down: readonly number[];
  readonly up: readonly number[];
}

const READING = { label: 'reading', measure: 'the same again, with a finer rule' } as const;
const PERCH_READING = { label: 'perch height as read', measure: 'the perch height' } as const;

/**
 * Predictions of a model for measurements, with everything that may move them.
 *
 * Equation: covariance = sum of a a^T over the inputs, a half the difference of the two ends of an input's tolerance
 * Units: `model` in mm, N, kg and N/mm; result in each measurement's own unit, its covariance in units of tolerance squared.
 * Valid: inputs independent of each other; responses nearly straight over a tolerance.
 * Source: propagation of independent deviations, standard.
 */
export function expectationOf(
  model: Model,
  observations: readonly Observation[],
  tolerances: Tolerances,
  marks: Marks = TRUE_MARKS,
): Expectation {
  const predicted = predictionsOf(model, observations, marks);
  const moves = [...inputMoves(model, observations, tolerances, marks, predicted), ...readingMoves()];
  const centre = predicted.map((value, i) => moves.reduce((sum, m) => sum + middle(m, i), value));
  return { model, marks, predicted, moves, centre, factor: factorOf(covariance(moves, predicted.length)) };

  function readingMoves(): Move[] {
    return observations.flatMap((observation, i) => {
      const only = (by: number) => predicted.map((_, k) => (k === i ? by : 0));
      const own = { ...READING, down: only(-observation.reading), up: only(observation.reading) };
      if (observation.perch === null) return [own];
      const at = (by: number) =>
        only(predictedAt(observation, model, { ...marks, perch: marks.perch + by }) - (predicted[i] as number));
      return [own, { ...PERCH_READING, down: at(observation.perchReading), up: at(-observation.perchReading) }];
    });
  }
}

/** What a model says each measurement should read; one whose part the model lacks is as the parts on the bench were. */
export function predictionsOf(model: Model, observations: readonly Observation[], marks: Marks): number[] {
  return observations.map((observation) => predictedAt(observation, model, marks));
}

function predictedAt(observation: Observation, model: Model, marks: Marks): number {
  return observation.predict(model, marks) ?? observation.measured;
}

/** Independent residuals of the measurements, in units of tolerance. */
export function residualsOf(
  { centre, factor }: Pick<Expectation, 'centre' | 'factor'>,
  observations: readonly Observation[],
): number[] {
  return whiten(
    factor,
    observations.map(({ measured }, i) => measured - (centre[i] as number)),
  );
}

/** The same without one of the measurements. */
export function leaveOut({ model, marks, ...all }: Expectation, left: number): Expectation {
  const rest = <T>(values: readonly T[]) => values.filter((_, i) => i !== left);
  const moves = all.moves.map((m) => ({ ...m, down: rest(m.down), up: rest(m.up) }));
  const predicted = rest(all.predicted);
  return {
    model,
    marks,
    predicted,
    moves,
    centre: rest(all.centre),
    factor: factorOf(covariance(moves, predicted.length)),
  };
}

function inputMoves(
  model: Model,
  observations: readonly Observation[],
  tolerances: Tolerances,
  marks: Marks,
  predicted: readonly number[],
): Move[] {
  return TOLERANCE_INPUTS.flatMap(({ label, measure, width: widthOf, moved }) => {
    const width = widthOf(model, tolerances);
    if (width === null) return [];
    const at = (by: number) =>
      predictionsOf(moved(model, by), observations, marks).map((value, i) => value - (predicted[i] as number));
    return [{ label, measure, down: at(-width.down), up: at(width.up) }];
  });
}

function middle({ down, up }: Move, i: number): number {
  return ((down[i] as number) + (up[i] as number)) / 2;
}

function covariance(moves: readonly Move[], size: number): number[][] {
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (const { down, up } of moves) {
    const half = up.map((value, i) => (value - (down[i] as number)) / 2);
    for (const [i, a] of half.entries()) {
      if (a !== 0) for (const [j, b] of half.entries()) (matrix[i] as number[])[j] = at(matrix, i, j) + a * b;
    }
  }
  return matrix;
}

function at(matrix: readonly number[][], i: number, j: number): number {
  return (matrix[i] as number[])[j] as number;
}

/** Which band holds a measurement: the likely one, the worst case, or neither. */
export type Verdict = 'likely' | 'worst' | 'beyond';

interface Band {
  readonly rssLow: number;
  readonly rssHigh: number;
  readonly worstLow: number;
  readonly worstHigh: number;
}

export interface Compared extends Band {
  readonly observation: Observation;
  readonly predicted: number;
  readonly verdict: Verdict;
  /** What moves the prediction most. */
  readonly contributor: string;
}

/**
 * Every measurement with its band.
 *
 * Equation: worst = sum of the moves to either side; rss = root of the sum of their squares
 * Units: as the measurements; `expectation` of the same measurements in the same order.
 * Valid: as `expectationOf`.
 * Source: root sum of squares of independent deviations, standard.
 */
export function comparedOf(expectation: Expectation, observations: readonly Observation[]): readonly Compared[] {
  return observations.map((observation, i) => compare(expectation, observation, i));
}

function compare({ predicted, moves }: Expectation, observation: Observation, i: number): Compared {
  const value = predicted[i] as number;
  const sides = moves.map(({ label, down, up }) => {
    const ends = [down[i] as number, up[i] as number];
    return { label, low: Math.max(0, ...ends.map((e) => -e)), high: Math.max(0, ...ends) };
  });
  const sum = (read: (side: (typeof sides)[number]) => number) => sides.reduce((total, side) => total + read(side), 0);
  const most = sides.reduce((a, b) => (Math.max(b.low, b.high) > Math.max(a.low, a.high) ? b : a));
  const band = {
    rssLow: value - Math.sqrt(sum((s) => s.low ** 2)),
    rssHigh: value + Math.sqrt(sum((s) => s.high ** 2)),
    worstLow: value - sum((s) => s.low),
    worstHigh: value + sum((s) => s.high),
  };
  return {
    observation,
    predicted: value,
    ...band,
    verdict: verdictOf(observation.measured, band),
    contributor: most.label,
  };
}

/** Rounding of units may not turn a band's own end into a disagreement. */
const HAIR = 1e-9;

function verdictOf(measured: number, band: Band): Verdict {
  if (measured >= band.rssLow - HAIR && measured <= band.rssHigh + HAIR) return 'likely';
  return measured >= band.worstLow - HAIR && measured <= band.worstHigh + HAIR ? 'worst' : 'beyond';
}

// Linear algebra of correlated readings: a covariance is factored once, then residuals are freed of their correlation.

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

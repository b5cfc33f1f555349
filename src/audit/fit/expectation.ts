/**
 * What a model expects of the measurements: each one's value and band, and how they hang together. Every toleranced input
 * is stepped its full tolerance both ways through the model, as for the bands of the report, and every reading through
 * its own half-width; an input that moves several measurements makes them deviate together.
 */
import type { Tolerances } from '../../model/scenario.ts';
import { type Model, TOLERANCE_INPUTS } from '../../result/tolerance/inputs.ts';
import { type Marks, type Observation, TRUE_MARKS } from './observations.ts';
import { type Factor, factorOf, whiten } from './statistics.ts';

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

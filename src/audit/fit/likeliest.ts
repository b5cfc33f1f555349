/**
 * The likeliest cause where measurements and prediction disagree. Every cause is asked for its signature over all
 * measurements, and ranked by what it leaves unexplained in units of tolerance. It is named only when it explains them
 * clearly better than "nothing wrong" and than any other cause.
 */
import type { AxleOptions, Tolerances } from '../../model/scenario.ts';
import { type Cause, type FittedCause, fittedCauses, groupOf, partCauses } from './causes.ts';
import {
  type Compared,
  chiSquareTail,
  dot,
  type Expectation,
  expectationOf,
  leaveOut,
  predictionsOf,
  residualsOf,
  whiten,
} from './expectation.ts';
import type { MeasuredUnit, Readings } from './measured.ts';
import { fillUp, type Observation, type ObservationKind, observationsOf } from './observations.ts';

export interface Fit {
  /** Root of the sum of squares of the independent residuals, in units of tolerance. */
  readonly misfit: number;
  /** How often chance alone, within the tolerances, makes a misfit as large. */
  readonly chance: number;
}

export interface RankedCause extends Fit {
  readonly cause: Cause;
  /** The fitted amount; null for a cause without one. */
  readonly amount: number | null;
  /** What is compared: twice the misfit squared (tolerances are two deviations), and what an amount costs. */
  readonly score: number;
}

export type Likeliest = { readonly nothing: Fit; readonly ranked: readonly RankedCause[] } & (
  | { readonly verdict: 'consistent' }
  | { readonly verdict: 'cause'; readonly named: RankedCause }
  | { readonly verdict: 'several'; readonly candidates: readonly RankedCause[] }
  /** No one cause does: the measurement without which the rest agrees best, by its place in the list. */
  | { readonly verdict: 'unexplained'; readonly measureAgain: number }
);

/** A tolerance is two standard deviations. */
const DEVIATIONS = 2;
/** Measurements that chance would make so seldom disagree with the prediction; causes must leave nothing so seldom. */
const LEAST_CHANCE = 0.001;
/** How much better a cause must do than "nothing wrong": odds of about 20 to 1. */
const CLEARLY = 6;
/** How much better than another cause: odds of about 20 to 1. */
const BETTER = 6;
/** What a fitted amount costs: it can follow any one measurement. */
const COST_OF_AMOUNT = 6;

/**
 * What explains the measurements.
 *
 * Equation: misfit^2 = r^T C^-1 r, r measured less expected, C their covariance in units of tolerance; chance that of a
 * chi-square of (2 misfit)^2 with as many degrees as measurements, one less for a fitted amount
 * Units: `expectation` of the model as given; misfit in units of tolerance, chance 0 to 1.
 * Valid: one thing wrong at a time, the rest within tolerance. Thresholds are a judgement of our own: odds of 20 to 1
 * over nothing wrong, 20 to 1 over another cause.
 * Source: weighted least squares and its chi-square, standard; held against simulated builds by test.
 */
export function likeliestOf(
  expectation: Expectation,
  compared: readonly Compared[],
  options: AxleOptions,
  tolerances: Tolerances,
): Likeliest {
  const observations = compared.map(({ observation }) => observation);
  const nothing = fitOf(expectation, observations, 0);
  const agrees = nothing.chance >= LEAST_CHANCE && compared.every(({ verdict }) => verdict !== 'beyond');
  if (agrees) return { verdict: 'consistent', nothing, ranked: [] };
  const ranked = rankCauses(expectation, observations, options, tolerances);
  const explaining = ranked.filter((r) => r.chance >= LEAST_CHANCE && squares(nothing) - r.score >= CLEARLY);
  const [best] = explaining;
  if (!best) return { verdict: 'unexplained', nothing, ranked, measureAgain: oddOneOut(expectation, observations) };
  const rivals = explaining.filter((r) => r !== best && r.score - best.score < BETTER);
  if (rivals.length === 0) return { verdict: 'cause', nothing, ranked, named: best };
  return { verdict: 'several', nothing, ranked, candidates: [best, ...rivals] };
}

function rankCauses(
  expectation: Expectation,
  observations: readonly Observation[],
  options: AxleOptions,
  tolerances: Tolerances,
): readonly RankedCause[] {
  const { model } = expectation;
  const definite = partCauses(model, options).map((cause) => rankCause(cause, null, observations, tolerances));
  const fitted = fittedCauses(model).flatMap((cause) => {
    const amount = bestAmount(cause, expectation, observations);
    return amount === null ? [] : [rankCause(cause.at(amount), amount, observations, tolerances)];
  });
  // Sorting leaves equals in their order: definite causes come first.
  return firstOfGroups([...definite, ...fitted].toSorted((a, b) => a.score - b.score));
}

/**
 * Within a group a definite cause stands for the fitted one unless that does far better: so the same thing with an amount
 * and without is never a rival of itself.
 */
function firstOfGroups(sorted: readonly RankedCause[]): readonly RankedCause[] {
  return sorted.filter((one) => {
    if (one.amount === null) return true;
    const definite = sorted.find(
      (other) => other.amount === null && groupOf(other.cause.kind) === groupOf(one.cause.kind),
    );
    return definite === undefined || definite.chance < LEAST_CHANCE || definite.score - one.score >= BETTER;
  });
}

function rankCause(
  cause: Cause,
  amount: number | null,
  observations: readonly Observation[],
  tolerances: Tolerances,
): RankedCause {
  const expectation = expectationOf(cause.model, observations, tolerances, cause.marks);
  const fit = fitOf(expectation, observations, amount === null ? 0 : 1);
  return { ...fit, cause, amount, score: squares(fit) + (amount === null ? 0 : COST_OF_AMOUNT) };
}

function squares({ misfit }: Fit): number {
  return (DEVIATIONS * misfit) ** 2;
}

function fitOf(expectation: Expectation, observations: readonly Observation[], fitted: number): Fit {
  const residuals = residualsOf(expectation, observations);
  const misfit = Math.sqrt(dot(residuals, residuals));
  const degrees = observations.length - fitted;
  return { misfit, chance: degrees > 0 ? chiSquareTail((DEVIATIONS * misfit) ** 2, degrees) : 1 };
}

/** The measurement without which the others agree best with the prediction. */
function oddOneOut(expectation: Expectation, observations: readonly Observation[]): number {
  if (observations.length < 2) return 0;
  const left = observations.map((_, i) =>
    fitOf(
      leaveOut(expectation, i),
      observations.filter((__, k) => k !== i),
      0,
    ),
  );
  return left.reduce((best, fit, i) => (fit.misfit < (left[best] as Fit).misfit ? i : best), 0);
}

/** Steps of the search: the measurements answer nearly in proportion. */
const ITERATIONS = 4;

/**
 * Weighted least squares for one amount by Gauss-Newton steps; null where it moves no measurement, or where what fits
 * lies beyond what could be.
 */
export function bestAmount(
  cause: FittedCause,
  expectation: Expectation,
  observations: readonly Observation[],
): number | null {
  const { factor, centre, predicted } = expectation;
  const aside = centre.map((value, i) => value - (predicted[i] as number));
  const at = (amount: number) => {
    const { model, marks } = cause.at(amount);
    return predictionsOf(model, observations, marks);
  };
  let amount = 0;
  for (let n = 0; n < ITERATIONS; n++) {
    const step = n === 0 ? cause.step : cause.step / 10;
    const [here, there] = [at(amount), at(amount + step)];
    const slope = here.map((value, i) => ((there[i] as number) - value) / step);
    const left = here.map((value, i) => (observations[i] as Observation).measured - value - (aside[i] as number));
    const [answer, off] = [whiten(factor, slope), whiten(factor, left)];
    const strength = dot(answer, answer);
    if (!(strength > 0)) return null;
    amount += dot(answer, off) / strength;
    if (!(Math.abs(amount) <= cause.most)) return null;
  }
  return amount;
}

/**
 * The one measurement that would distinguish two causes, among those not yet made, else one worth making again.
 * @returns null where every measurement would be the same under both
 */
export function tellingMeasurement(
  one: Cause,
  other: Cause,
  { model }: Expectation,
  unit: MeasuredUnit,
  readings: Readings,
): { readonly kind: ObservationKind; readonly again: boolean } | null {
  const made = new Set(observationsOf(unit, readings).map(({ kind }) => kind));
  const contrast = (observation: Observation) => {
    const [a, b] = [one, other].map(({ model: m, marks }) => observation.predict(m, marks));
    const apart = Math.abs((a ?? Number.NaN) - (b ?? Number.NaN)) / observation.reading;
    // Repeating a measurement is worth less than a new one.
    return Number.isFinite(apart) ? apart / (made.has(observation.kind) ? AGAIN : 1) : 0;
  };
  const all = observationsOf(fillUp(unit, model), readings).map((o) => ({ kind: o.kind, worth: contrast(o) }));
  const best = all.reduce((a, b) => (b.worth > a.worth ? b : a));
  return best.worth > 1 ? { kind: best.kind, again: made.has(best.kind) } : null;
}

const AGAIN = 10;

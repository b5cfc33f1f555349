/** The amount of a cause that fits the measurements best. */
import type { FittedCause } from './causes.ts';
import { dot, whitened } from './covariance.ts';
import { type Expectation, predictionsOf } from './expectation.ts';
import type { Observation } from './observations.ts';

/** Rounds of the search: the measurements answer nearly in proportion. */
const ROUNDS = 4;

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
  for (let round = 0; round < ROUNDS; round++) {
    const step = round === 0 ? cause.step : cause.step / 10;
    const [here, there] = [at(amount), at(amount + step)];
    const slope = here.map((value, i) => ((there[i] as number) - value) / step);
    const left = here.map((value, i) => (observations[i] as Observation).measured - value - (aside[i] as number));
    const [answer, off] = [whitened(factor, slope), whitened(factor, left)];
    const strength = dot(answer, answer);
    if (!(strength > 0)) return null;
    amount += dot(answer, off) / strength;
    if (!(Math.abs(amount) <= cause.most)) return null;
  }
  return amount;
}

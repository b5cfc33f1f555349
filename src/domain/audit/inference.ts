/**
 * What a ride height reached at a perch says, once the parts are as measured: which load, or which rate, or which damper
 * length at that height would have led to it. One height can settle one of them; the others are taken as they are.
 */
import { perchFor } from '../corner/balance.ts';
import { geometryOf } from '../corner/geometry.ts';
import { rootBetween } from '../solve.ts';
import type { Model } from '../tolerance/inputs.ts';
import type { MeasuredUnit, StandingHeight } from './measured.ts';
import { readParameter, withParameter } from './parameters.ts';

export type Inferable = 'wheel_load' | 'rate' | 'motion_offset';
export const INFERABLE: readonly Inferable[] = ['wheel_load', 'rate', 'motion_offset'];

/**
 * Which of them is taken to be off: what was not measured, the load before the rate; with both measured, the damper
 * length at that ride height.
 */
export function blamed({ wheelLoad, rate }: MeasuredUnit): Inferable {
  if (wheelLoad === null) return 'wheel_load';
  return rate === null ? 'rate' : 'motion_offset';
}

/**
 * The value of one of them with which the model stands at the ride heights reached, the mean where there are several;
 * null where no value within reach does.
 *
 * Equation: P = l - a_seat - L0 + x(F_s) at the height reached, solved for the load, the rate or the shift of l
 * Units: `model` in mm, N, kg and N/mm; `standing` perch and ride height in mm; result kg, N/mm or mm.
 * Valid: a load from the unsprung mass up to 3 times what was given, a rate from a fifth to 5 times, a shift of 80 mm.
 * Source: root of the corner's own balance, see `standingAt`.
 */
export function inferred(model: Model, standing: readonly StandingHeight[], name: Inferable): number | null {
  const values = standing.map((reached) => solved(model, reached, name));
  if (values.length === 0 || values.includes(null)) return null;
  return values.reduce((sum: number, value) => sum + (value as number), 0) / values.length;
}

function solved(model: Model, { perch, rideHeight }: StandingHeight, name: Inferable): number | null {
  const [low, high] = rangeOf(model, name);
  const excess = (value: number) => {
    const { site, corner } = withParameter(model, name, value);
    return perchFor(site, corner, geometryOf(site, corner), rideHeight, site.sprungLoad) - perch;
  };
  const [atLow, atHigh] = [excess(low), excess(high)];
  if (!(Math.min(atLow, atHigh) <= 0 && Math.max(atLow, atHigh) >= 0) || atLow === atHigh) return null;
  return rootBetween(excess, low, high);
}

function rangeOf(model: Model, name: Inferable): readonly [number, number] {
  if (name === 'motion_offset') return [-80, 80];
  const given = readParameter(model, name) as number;
  // A wheel that carries a hair more than its own unsprung mass loads the spring with next to nothing.
  return name === 'rate' ? [given / 5, given * 5] : [model.site.unsprungMass + 1e-6, 3 * given];
}

/**
 * The model with what was measured in its place, one step after the other: what was measured outright, then what the
 * remaining measurements imply, each for the one length it is taken to be about.
 *
 *   free length, solid height, rate, cuts, load   as measured
 *   gap, damper fully extended  ->  top of the body
 *   snug gap                    ->  upper seat: how far it lies below the rod shoulder
 *   sleeve top to upper seat    ->  ledge: how high the sleeve stands; without a snug gap the upper seat
 *   perch down on its lock ring ->  lock ring and perch together
 *   ride height at a perch      ->  load, or rate, or damper length at that height (`inference.ts`)
 */
import { perchFor } from '../../model/corner/balance.ts';
import { geometryOf } from '../../model/corner/geometry.ts';
import { rootBetween } from '../../model/solve.ts';
import type { Model } from '../../result/tolerance/inputs.ts';
import type { MeasuredUnit, StandingHeight } from './measured.ts';
import { type Marks, type Observation, type ObservationKind, TRUE_MARKS } from './observations.ts';
import { type ParameterName, readParameter, withParameter } from './parameters.ts';

export interface Correction {
  readonly parameter: ParameterName;
  readonly from: number;
  readonly to: number;
  readonly basis: 'measured' | 'implied';
  /** The measurement it comes from. */
  readonly by: ObservationKind;
}

export interface Corrected {
  readonly model: Model;
  readonly corrections: readonly Correction[];
  readonly standing: StandingInference | null;
  /** Measurements that could not be used, and why. */
  readonly unused: readonly Unused[];
}

/** What the ride heights reached say about load, rate and length, each alone; and which of them is believed. */
export interface StandingInference {
  readonly blamed: Inferable;
  readonly believed: boolean;
  readonly alternatives: readonly {
    readonly parameter: Inferable;
    readonly from: number;
    readonly to: number | null;
  }[];
  /** The model before the inference, to try the alternatives on. */
  readonly before: Model;
}

export interface Unused {
  readonly by: ObservationKind;
  readonly why: 'preloaded' | 'no helper' | 'solid not shorter' | 'on the stop' | 'stop on sleeve' | 'out of reach';
}

const MEASURED_OUTRIGHT = [
  'free_length',
  'solid_height',
  'rate',
  'helper_free_length',
  'sleeve_length',
  'stop_length',
  'wheel_load',
] as const satisfies readonly (ParameterName & ObservationKind)[];

/** Which length a measurement is taken to be about, and whether a longer reading means a longer one. */
interface Implied {
  readonly by: ObservationKind;
  readonly parameter: ParameterName;
  readonly sign: 1 | -1;
}

/**
 * The distance from sleeve to seat is about the ledge only where the snug gap has settled the seat: the seat's place is a
 * sum of several dimensions and the less sure of the two.
 */
function impliedBy(observations: readonly Observation[]): readonly Implied[] {
  const seatSettled = observations.some(({ kind }) => kind === 'snug_gap');
  return [
    { by: 'extended_gap', parameter: 'body_length', sign: -1 },
    { by: 'snug_gap', parameter: 'flange_depth', sign: 1 },
    { by: 'sleeve_to_seat', parameter: seatSettled ? 'ledge_height' : 'flange_depth', sign: -1 },
    { by: 'lowest_perch', parameter: 'perch_height', sign: 1 },
  ];
}

/**
 * The model as the measurements have it.
 *
 * Units: `model` in mm, N, kg and N/mm, `unit` and its `observations` likewise; `marks` mm; result in the same units.
 * Valid: measurements that say nothing where they were taken (a preloaded spring's gap) are left out and named.
 * Source: substitution; each step changes only what no later one reads.
 */
export function correct(
  model: Model,
  unit: MeasuredUnit,
  observations: readonly Observation[],
  marks: Marks = TRUE_MARKS,
): Corrected {
  const outright = takeOutright(model, observations);
  const implied = impliedBy(observations).reduce((soFar, step) => imply(soFar, step, observations, marks), outright);
  return stand(implied, unit, marks);
}

type Progress = Pick<Corrected, 'model' | 'corrections' | 'unused'>;

function takeOutright(start: Model, observations: readonly Observation[]): Progress {
  return MEASURED_OUTRIGHT.reduce<Progress>(
    (soFar, name) => {
      const found = observations.find(({ kind }) => kind === name);
      if (!found) return soFar;
      const why = whyNot(soFar.model, name, found.measured);
      if (why) return setAside(soFar, name, why);
      return change(soFar, name, found.measured, 'measured', name);
    },
    { model: start, corrections: [], unused: [] },
  );
}

function setAside(soFar: Progress, by: ObservationKind, why: Unused['why']): Progress {
  return { ...soFar, unused: [...soFar.unused, { by, why }] };
}

function whyNot(model: Model, name: ParameterName, measured: number): Unused['why'] | null {
  if (readParameter(model, name) === null) return 'no helper';
  const { freeLength, solid } = model.corner.spring;
  if (name === 'solid_height' && measured >= freeLength) return 'solid not shorter';
  return name === 'free_length' && measured <= solid.height ? 'solid not shorter' : null;
}

function change(
  { model, corrections, unused }: Progress,
  parameter: ParameterName,
  to: number,
  basis: Correction['basis'],
  by: ObservationKind,
): Progress {
  const from = readParameter(model, parameter) as number;
  return {
    model: withParameter(model, parameter, to),
    corrections: [...corrections, { parameter, from, to, basis, by }],
    unused,
  };
}

function imply(
  soFar: Progress,
  { by, parameter, sign }: Implied,
  observations: readonly Observation[],
  marks: Marks,
): Progress {
  const mine = observations.filter(({ kind }) => kind === by);
  if (mine.length === 0) return soFar;
  // A stop that meets a proud sleeve says nothing of the body.
  if (by === 'extended_gap' && stopMeetsSleeve(soFar.model)) return setAside(soFar, by, 'stop on sleeve');
  const off = mine.reduce((sum, o) => sum + o.measured - (o.predict(soFar.model, marks) as number), 0) / mine.length;
  const to = (readParameter(soFar.model, parameter) as number) + sign * off;
  return change(soFar, parameter, to, 'implied', by);
}

function stopMeetsSleeve({ site, corner }: Model): boolean {
  return geometryOf(site, corner).stopMeets !== 'body';
}

function stand(start: Progress, unit: MeasuredUnit, marks: Marks): Corrected {
  let soFar = start;
  const heights: StandingHeight[] = unit.standing.map(({ perch, rideHeight }) => ({
    perch: perch - marks.perch,
    rideHeight: rideHeight - marks.rideHeight,
  }));
  const reached = heights.filter(({ rideHeight }) => !restsOnUnknownStop(soFar.model, rideHeight));
  if (reached.length < heights.length) soFar = setAside(soFar, 'ride_height', 'on the stop');
  if (reached.length === 0) return { ...soFar, standing: null };
  const name = blamedOf(unit);
  const before = soFar.model;
  const alternatives = INFERABLE.map((parameter) => ({
    parameter,
    from: readParameter(before, parameter) as number,
    to: infer(before, reached, parameter),
  }));
  const to = alternatives.find(({ parameter }) => parameter === name)?.to ?? null;
  const standing = { blamed: name, believed: to !== null, alternatives, before };
  if (to === null) return { ...setAside(soFar, 'ride_height', 'out of reach'), standing };
  return { ...change(soFar, name, to, 'implied', 'ride_height'), standing };
}

/** Below the height at which the stop is met, a stop without a force curve carries an unknown force. */
function restsOnUnknownStop({ site, corner }: Model, rideHeight: number): boolean {
  return corner.bumpStop.curve === null && rideHeight < geometryOf(site, corner).stopHeight;
}

/**
 * What a ride height reached at a perch can settle once the parts are as measured: the load, or the rate, or the damper
 * length at that height; the others are taken as they are.
 */
export type Inferable = 'wheel_load' | 'rate' | 'motion_offset';
const INFERABLE: readonly Inferable[] = ['wheel_load', 'rate', 'motion_offset'];

/**
 * Which of them is taken to be off: what was not measured, the load before the rate; with both measured, the damper
 * length at that ride height.
 */
export function blamedOf({ wheelLoad, rate }: MeasuredUnit): Inferable {
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
export function infer(model: Model, standing: readonly StandingHeight[], name: Inferable): number | null {
  const values = standing.map((reached) => solveFor(model, reached, name));
  if (values.length === 0 || values.includes(null)) return null;
  return values.reduce((sum: number, value) => sum + (value as number), 0) / values.length;
}

function solveFor(model: Model, { perch, rideHeight }: StandingHeight, name: Inferable): number | null {
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

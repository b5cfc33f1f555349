/** What carries the load over the whole travel: spring, gas, stop and bushes as forces at the wheel. */
import { deflectionUnder, kneeForce } from '../stack.ts';
import { forcesAt } from './balance.ts';
import { travelEnd } from './contacts.ts';
import { rideHeightAt } from './site.ts';
import type { CornerState } from './state.ts';

/** Steps between the ends of the curve. */
const STEPS = 60;

/**
 * Forces at the wheel over the travel, from where metal or the closed stop ends it up to full droop, the perch where
 * standing put it. Even steps of height, and between them the heights at which a line bends: the helper closing, the stop
 * just met, and standing and full bump themselves.
 *
 * Equation: damper force x MR for spring, gas and stop; null for a squeezed stop without a force curve, and for the total
 * Units: `state` of the judged corner in mm and N; result heights in mm to 0.001, forces in N to 0.01.
 * Valid: an empty curve where nothing is left between the two ends.
 * Source: virtual work, derived.
 */
export function forceCurveOf(state: CornerState): ForceCurve {
  const { site, corner, geometry, standing } = state;
  const points = listHeights(state).map((height) => forcesAt(site, corner, geometry, height, standing.perch));
  const atWheel = (force: number, ratio: number) => toNearest(force * ratio, 100);
  // The stop carries nothing until it is met; from there on its force is known only from a curve.
  const isKnown = ({ length }: (typeof points)[number]) =>
    corner.bumpStop.curve !== null || length >= geometry.squeezeLength;
  const where = (read: (point: (typeof points)[number]) => number) => points.map((p) => (isKnown(p) ? read(p) : null));
  return {
    stop_known: corner.bumpStop.curve !== null,
    knee_height_mm: findKneeHeight(state),
    height_mm: points.map((p) => toNearest(p.height, 1000)),
    spring_n: points.map((p) => atWheel(p.springForce, p.motionRatio)),
    gas_n: points.map((p) => atWheel(p.gasForce, p.motionRatio)),
    stop_n: where((p) => atWheel(p.stopForce, p.motionRatio)),
    bush_n: points.map((p) => toNearest(p.bushForce, 100)),
    total_n: where((p) => toNearest(p.load, 100)),
  };
}

function listHeights(state: CornerState): number[] {
  const { geometry, standing, full } = state;
  const low = travelEnd(state.site, state.corner, geometry, standing.perch).height;
  const high = geometry.droopHeight;
  if (!(high > low)) return [];
  const even = Array.from({ length: STEPS + 1 }, (_, k) => low + (k * (high - low)) / STEPS);
  const knee = findKneeHeight(state);
  const bends = [geometry.squeezeHeight, standing.height, full.height, ...(knee === null ? [] : [knee])];
  const all = [...even, ...bends.filter((height) => height > low && height < high)];
  return [...new Set(all)].sort((a, b) => a - b);
}

/** Ride height at which the first of helper and main spring goes solid; null without a helper. */
function findKneeHeight({ site, corner, geometry, standing }: CornerState): number | null {
  const { stack, seatBelowShoulder } = geometry;
  if (stack.helperTravel === 0) return null;
  const length = standing.perch + seatBelowShoulder + stack.freeLength - deflectionUnder(stack, kneeForce(stack));
  return rideHeightAt(site, corner.mount, length);
}

function toNearest(value: number, parts: number): number {
  // Adding zero turns a negative zero into a plain one.
  return Math.round(value * parts) / parts + 0;
}

/** Forces at the wheel over the travel, one entry a ride height, rising. */
export interface ForceCurve {
  /** False: the bump stop has no force curve, so that its force and the total are not known (null) once it is squeezed. */
  readonly stop_known: boolean;
  /** Ride height at which a helper goes solid; null without one. */
  readonly knee_height_mm: number | null;
  readonly height_mm: readonly number[];
  readonly spring_n: readonly number[];
  readonly gas_n: readonly number[];
  readonly stop_n: readonly (number | null)[];
  readonly bush_n: readonly number[];
  /** The four together. */
  readonly total_n: readonly (number | null)[];
}

/** A passing load as a multiple of the sprung load: where the wheel goes, and how far into the stop. */
import { heightOn } from '../corner/balance.ts';
import { damperLengthAt } from '../corner/site.ts';
import type { CornerState } from '../corner/state.ts';

export interface WheelPosition {
  /** Hub to arch, mm. */
  readonly height: number;
  readonly damperLength: number;
  /** Wheel travel left to the stop just met, mm; negative inside the stop. */
  readonly travelToStop: number;
  /** Squeeze of the stop along the damper, mm; 0 when it isn't met. */
  readonly intoStop: number;
}

/**
 * Where the corner stands under a multiple of its sprung load, the perch left where standing put it.
 *
 * Units: `state` of the standing corner, `factor` dimensionless; result heights and lengths in mm.
 * Valid: a load that lasts (braking, a long dip): no inertia, no damping. Ends at the closed stop or at full droop where the
 * balance lies beyond.
 * Source: balance of forces, see `heightOn`.
 */
export function underMultiple(state: CornerState, factor: number): WheelPosition {
  const { site, corner, geometry, standing } = state;
  return positionAt(state, heightOn(site, corner, geometry, factor * site.sprungLoad, standing.perch));
}

/**
 * A wheel at a ride height: damper length, travel left to the stop, squeeze of the stop.
 *
 * Units: `state` of the corner, `height` hub to arch mm; result mm, travel at the wheel, squeeze along the damper.
 * Valid: any height; outside the measured motion its curve goes on straight.
 */
export function positionAt(state: CornerState, height: number): WheelPosition {
  const { site, corner, geometry } = state;
  const damperLength = damperLengthAt(site, corner.mount, height);
  return {
    height,
    damperLength,
    travelToStop: height - geometry.stopHeight,
    intoStop: Math.max(0, geometry.stopLength - damperLength),
  };
}

/** A passing load as a multiple of the sprung load: where the wheel goes, what stops it, and how far into the stop. */
import { heightOn } from '../corner/balance.ts';
import { travelEnd, type WheelStop } from '../corner/contacts.ts';
import { damperLengthAt } from '../corner/site.ts';
import type { CornerState } from '../corner/state.ts';

export interface WheelPosition {
  /** Hub to arch, mm. */
  readonly height: number;
  readonly damperLength: number;
  /** Wheel travel left to the stop just met, mm; negative inside the stop. */
  readonly travelToStop: number;
  /** Wheel travel left to full droop, mm. */
  readonly travelToDroop: number;
  /** Squeeze of the stop along the damper, mm; 0 when it isn't met. */
  readonly intoStop: number;
  /** What holds the wheel there; null: nothing but spring, gas and stop. */
  readonly at: WheelStop | null;
}

/**
 * Where the corner stands under a multiple of its sprung load, the perch left where standing put it.
 *
 * Units: `state` of the standing corner, `factor` dimensionless; result heights and lengths in mm.
 * Valid: a load that lasts (braking, a long dip): no inertia, no damping. Ends at the closed stop, at metal
 * or at full droop where the balance lies beyond.
 * Source: balance of forces, see `heightOn`.
 */
export function underMultiple(state: CornerState, factor: number): WheelPosition {
  const { site, corner, geometry, standing } = state;
  const lowest = travelEnd(site, corner, geometry, standing.perch).height;
  const balance = heightOn(site, corner, geometry, factor * site.sprungLoad, standing.perch);
  return positionAt(state, Math.max(lowest, balance));
}

/**
 * A wheel at a ride height: damper length, travel left to stop and droop, squeeze of the stop, and what holds it there.
 *
 * Units: `state` of the corner, `height` hub to arch mm; result mm, travels at the wheel, squeeze along the damper.
 * Valid: any height; outside the measured motion its curve goes on straight.
 */
export function positionAt(state: CornerState, height: number): WheelPosition {
  const { site, corner, geometry, standing } = state;
  const damperLength = damperLengthAt(site, corner.mount, height);
  return {
    height,
    damperLength,
    travelToStop: height - geometry.stopHeight,
    travelToDroop: geometry.droopHeight - height,
    intoStop: Math.max(0, geometry.squeezeLength - damperLength),
    at: stoppedBy(height, travelEnd(site, corner, geometry, standing.perch), geometry.droopHeight),
  };
}

/** Rounding of a solved height, mm: nearer to an end of the travel, the wheel is there. */
const ROUNDING = 1e-6;

function stoppedBy(height: number, end: ReturnType<typeof travelEnd>, droopHeight: number): WheelStop | null {
  if (height <= end.height + ROUNDING) return end.at;
  return height >= droopHeight - ROUNDING ? 'droop' : null;
}

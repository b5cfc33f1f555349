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

/** Where the corner stands under `factor` times its sprung load, between the closed stop and full droop. */
export function underMultiple(state: CornerState, factor: number): WheelPosition {
  const { site, corner, geometry, standing } = state;
  return positionAt(state, heightOn(site, corner, geometry, factor * site.sprungLoad, standing.perch));
}

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

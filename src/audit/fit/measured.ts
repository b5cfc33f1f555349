/**
 * What was measured on built units, in inner units (mm, N/mm, kg). One entry a unit: an axle where both sides were found
 * alike or only one was looked at, or one side of it. Whatever was not measured is null, or an empty list.
 */
import type { EndType } from '../../model/formula/coil.ts';
import type { AxleName, SideName } from '../../model/scenario.ts';

export interface Measured {
  readonly build: BuildName;
  readonly readings: Readings;
  readonly units: readonly MeasuredUnit[];
}

/** The combination by its id, or the best one of a setup. */
export type BuildName =
  | { readonly kind: 'id'; readonly id: string }
  | { readonly kind: 'best'; readonly setup: string };

/** How well each kind of thing was read, half-widths: lengths and ride heights mm, loads kg, wire mm, coils counted, rate a share. */
export interface Readings {
  readonly length: number;
  readonly rideHeight: number;
  readonly wheelLoad: number;
  readonly wire: number;
  readonly coils: number;
  readonly rateShare: number;
}

export interface MeasuredUnit {
  readonly axle: AxleName;
  /** Null: what was measured stands for both sides. */
  readonly side: SideName | null;
  /** Main spring lying free, mm. */
  readonly freeLength: number | null;
  /** Main spring in a press over two lengths, N/mm. */
  readonly rate: number | null;
  /** Wire over its coating (mm), all coils counted, and the shape of the ends. */
  readonly coil: { readonly wire: number; readonly coils: number; readonly ends: EndType } | null;
  readonly helperFreeLength: number | null;
  /** Sleeve and bump stop once cut, mm. */
  readonly sleeveLength: number | null;
  readonly stopLength: number | null;
  /** Lower eye to the perch seat, the perch down on its lock ring, mm. */
  readonly lowestPerch: number | null;
  /** Sleeve top to the upper seat; `damperLength` null: damper fully extended. */
  readonly sleeveToSeat: { readonly distance: number; readonly damperLength: number | null } | null;
  /** What the stop meets to the stop, the damper fully extended, spring fitted or not, mm. */
  readonly extendedGap: number | null;
  /** What the stop meets to the stop, the spring just snug, by place of the perch. */
  readonly snugGaps: readonly SnugGap[];
  /** Ride height reached with the perch at a place, on its wheels at the design load. */
  readonly standing: readonly StandingHeight[];
  /** One wheel on the scales, kg. */
  readonly wheelLoad: number | null;
}

export interface SnugGap {
  /** Lower eye to the perch seat, mm. */
  readonly perch: number;
  readonly gap: number;
}

export interface StandingHeight {
  readonly perch: number;
  /** Hub to arch, mm. */
  readonly rideHeight: number;
}

/** A unit of which nothing was measured: what a template and a test start from. */
export function unmeasured(axle: AxleName, side: SideName | null): MeasuredUnit {
  return {
    axle,
    side,
    freeLength: null,
    rate: null,
    coil: null,
    helperFreeLength: null,
    sleeveLength: null,
    stopLength: null,
    lowestPerch: null,
    sleeveToSeat: null,
    extendedGap: null,
    snugGaps: [],
    standing: [],
    wheelLoad: null,
  };
}

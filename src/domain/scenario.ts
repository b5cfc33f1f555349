/**
 * A checked scenario in inner units: mm, N, kg, N/mm, MPa, s, Hz; damper velocity m/s.
 *
 * Reading a file produces it (`input/`), planning turns its parts into options (`sweep/`), and the corner
 * model (`domain/corner/`) judges one choice of options at a time. Lengths run along the damper axis.
 */

import type { BumpStop, Damper, Helper, Isolator, Mount, Perch, RodEnd, Sleeve, Spring } from './parts.ts';

export type AxleName = 'front' | 'rear';
export const AXLE_NAMES: readonly AxleName[] = ['front', 'rear'];

export type SideName = 'left' | 'right';
export const SIDE_NAMES: readonly SideName[] = ['left', 'right'];

export interface Scenario {
  readonly name: string;
  readonly description: string;
  readonly currency: string;
  readonly car: Car;
  readonly axles: Readonly<Record<AxleName, Axle>>;
  readonly setups: readonly Setup[];
  readonly margins: Margins;
  readonly ranking: Ranking;
  readonly tolerances: Tolerances;
  /** Null: no plan over several setups is made. */
  readonly plan: PlanWish | null;
  /** Every default the reader filled in, so that no default is silent. */
  readonly assumptions: readonly Assumption[];
}

export interface Assumption {
  /** Where in the scenario the value would stand, e.g. `margins.coil_bind`. */
  readonly field: string;
  /** The value taken, in words with its unit. */
  readonly value: string;
  /** Where the value comes from: a publication, `common practice, no source` or `from memory`. */
  readonly source: string;
}

export interface Car {
  /** mm */
  readonly wheelbase: number;
  /** k^2/(a b), dimensionless */
  readonly pitchInertiaRatio: number;
  /** Height of the sprung centre of gravity above ground, mm; null when not given. */
  readonly sprungCentreHeight: number | null;
}

export interface Axle {
  /** Load on one wheel's contact patch at the design load, kg; where left and right are given, their mean. */
  readonly wheelLoad: number;
  /** The load on either side, kg; null where one load stands for both. */
  readonly wheelLoads: Readonly<Record<SideName, number>> | null;
  /** Unsprung mass of one corner, kg. */
  readonly unsprungMass: number;
  /** Vertical tyre rate, N/mm. */
  readonly tyreRate: number;
  readonly motion: MotionData;
  /** Hub-to-arch height at which the tyre meets the arch, mm. */
  readonly tyreOnArchHeight: number;
  /** Hub-to-arch height where a strap, joint or driveshaft ends the droop, mm; null: the damper ends it. */
  readonly lowestWheelHeight: number | null;
  /** Twisted rubber bushes: rate at the wheel (N/mm) and the height at which they are unloaded (mm). */
  readonly bushes: { readonly rate: number; readonly unloadedHeight: number } | null;
  /** Track, roll-centre height (mm) and anti-roll bar rate at one wheel with the other held (N/mm). */
  readonly roll: { readonly track: number; readonly rollCentreHeight: number; readonly barRate: number } | null;
  readonly options: AxleOptions;
}

export interface MotionData {
  /** Measured pairs, the spring out, sorted by height; at least one. */
  readonly pairs: readonly MotionPair[];
  /** Motion ratio dl/dH, needed with a single pair, else null. */
  readonly ratio: number | null;
}

export interface MotionPair {
  /** Hub centre to arch lip, mm. */
  readonly hubToArch: number;
  /** Lower eye centre to rod shoulder, mm. */
  readonly damperLength: number;
  /** Raise of the rod shoulder above the tower plane when the pair was taken, mm. */
  readonly raise: number;
}

/**
 * The alternatives of each part family, fully expanded: one entry per physical choice.
 * The order of the families is the order of the digits of a combination's index, outermost first.
 */
export interface AxleOptions {
  readonly damper: readonly Damper[];
  readonly mount: readonly Mount[];
  readonly isolator: readonly (Isolator | null)[];
  readonly bumpStop: readonly BumpStop[];
  readonly rodEnd: readonly (RodEnd | null)[];
  readonly sleeve: readonly Sleeve[];
  readonly perch: readonly Perch[];
  readonly helper: readonly (Helper | null)[];
  readonly spring: readonly Spring[];
}

export type Family = keyof AxleOptions;
/** Digit order of a combination's index, outermost (slowest) first. Pinned by test. */
export const FAMILIES: readonly Family[] = [
  'damper',
  'mount',
  'isolator',
  'bumpStop',
  'rodEnd',
  'sleeve',
  'perch',
  'helper',
  'spring',
];

export interface Setup {
  readonly name: string;
  readonly axles: Readonly<Record<AxleName, AxleTarget>>;
  /** Rear over front body frequency: wanted value and accepted window. */
  readonly balance: { readonly target: number; readonly from: number; readonly to: number };
  readonly bump: BumpPolicy;
  readonly standingOnStop: boolean;
  /** Which frequency the windows mean: without the tyre (`body`) or with it (`ride`). */
  readonly frequencyBasis: 'body' | 'ride';
  readonly loadStates: readonly LoadState[];
  readonly loadCases: readonly LoadCase[];
}

/** `closed`: judged with the stop fully closed; `load`: at the balance under `multiple` x sprung load. */
export type BumpPolicy = { readonly kind: 'closed' } | { readonly kind: 'load'; readonly multiple: number };

export interface AxleTarget {
  /** Hub centre to arch lip, mm. */
  readonly targetHeight: number;
  readonly wantedFrom: number;
  readonly wantedTo: number;
  readonly leastBumpTravel: number;
  readonly goodBumpTravel: number;
  readonly leastDroopTravel: number;
  readonly frequencyFrom: number;
  readonly frequencyTo: number;
  /** Hz; null when no particular value is wanted. */
  readonly wantedFrequency: number | null;
  /** How far the spring may come loose at full droop, mm. */
  readonly allowedSlack: number;
  /** Damping-ratio window, a warning only; null when not given. */
  readonly dampingFrom: number | null;
  readonly dampingTo: number | null;
}

export interface LoadState {
  readonly name: string;
  /** Extra mass carried by each wheel of the axle, kg (negative: a light state). */
  readonly extra: Readonly<Record<AxleName, number>>;
}

/**
 * A passing load. `multiple`: times the sprung load at each axle (braking, kerb). `cornering`: from the lateral
 * acceleration in multiples of g_n, which needs the car's centre height and both axles' roll data.
 */
export type LoadCase =
  | { readonly name: string; readonly kind: 'multiple'; readonly factor: Readonly<Record<AxleName, number>> }
  | { readonly name: string; readonly kind: 'cornering'; readonly lateral: number };

export interface Margins {
  /** Along the damper, mm. */
  readonly coilBind: number;
  readonly damper: number;
  readonly sleeve: number;
  readonly body: number;
  readonly tyre: number;
  /** Diametral clearance a part needs to pass a bore, mm. */
  readonly passing: number;
}

export type CriterionName = 'bump_travel' | 'height_coverage' | 'balance' | 'front_frequency' | 'price' | 'clearance';

export interface Ranking {
  /** Weight per criterion; 0 leaves it out. */
  readonly weights: Readonly<Record<CriterionName, number>>;
  /** Price per car at which the desirability is 1, and at which it is 0; null when price has no weight. */
  readonly price: { readonly good: number; readonly worst: number } | null;
  /** Thinnest clearance beyond its margin at which the desirability is 1, mm. */
  readonly goodClearance: number | null;
  /** How many combinations the shortlist keeps. */
  readonly keep: number;
}

/** A plan buys and cuts parts once for several setups. */
export interface PlanWish {
  /** Names of at least two setups. */
  readonly setups: readonly string[];
  /** Part families that may be swapped between setups; every other family is shared. */
  readonly swapped: readonly Family[];
  /** How many plans are kept. */
  readonly keep: number;
}

/** Tolerances by kind of dimension, half-widths in inner units; relative kinds are shares (0.03 = 3 %). */
export interface Tolerances {
  readonly freeLength: number;
  readonly rateShare: number;
  readonly solidHeight: number;
  readonly body: number;
  readonly damperLength: number;
  readonly sleeve: number;
  readonly perch: number;
  readonly stopLength: number;
  readonly closedFraction: number;
  readonly mount: number;
  readonly isolator: number;
  readonly wheelLoadShare: number;
  readonly motionRatioShare: number;
  readonly gasShare: number;
}

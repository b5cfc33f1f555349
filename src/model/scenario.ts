/**
 * A checked scenario in inner units: mm, N, kg, N/mm, MPa, s, Hz; damper velocity m/s.
 *
 * Reading a file produces it (`input/`), planning turns its parts into options (`sweep/`), and the corner
 * model (`domain/corner/`) judges one choice of options at a time. Lengths run along the damper axis.
 */
import type { CriterionName } from './criteria.ts';
import type { BumpStop, Damper, Helper, Isolator, Mount, Perch, RodEnd, Sleeve, Spring } from './parts.ts';
import type { FromOne } from './units.ts';

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
  /** What is measured on the bench, each part in hand, before anything is cut. */
  readonly measuredBeforeCutting: readonly Measurable[];
  /** Null: no plan over several setups is made. */
  readonly plan: PlanSettings | null;
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

/** An input that is not usual, with its place. */
export interface InputWarning {
  /** As among the inputs. */
  readonly file: string;
  /** Line and column, from 1. */
  readonly line: FromOne;
  readonly column: FromOne;
  readonly found: string;
  readonly usual: string;
  readonly advice: string;
}

export interface Car {
  /** mm */
  readonly wheelbase: number;
  /** k^2/(a b), dimensionless */
  readonly pitchInertiaRatio: number;
  /** Height of the sprung centre of gravity above ground, mm; null when not given. */
  readonly sprungCentreHeight: number | null;
  /** As of a part: usual values taken in place of measured ones. */
  readonly assumed?: Readonly<Record<string, number>>;
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
  readonly roll: Roll | null;
  readonly options: AxleOptions;
  /** As of a part: usual values taken in place of measured ones. */
  readonly assumed?: Readonly<Record<string, number>>;
}

/** Load and motion of a wheel: neither says anything without the other. */
export type Wheel = Pick<Axle, 'wheelLoad' | 'wheelLoads' | 'motion'>;
/** What an axle is, whatever stands on it. */
export type AxleOwn = Omit<Axle, keyof Wheel | 'roll' | 'options'>;

export interface Roll {
  /** mm */
  readonly track: number;
  /** Above ground, mm. */
  readonly rollCentreHeight: number;
  /** Anti-roll bar rate at one wheel with the other held, N/mm. */
  readonly barRate: number;
  /** Hub-to-arch height to which the heights of roll centre and sprung centre of gravity belong, mm; not given: the target's. */
  readonly atHeight?: number;
}

export interface MotionData {
  /** Measured pairs, the spring out, sorted by height; at least one. @minItems 1 */
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
  readonly damper: Choices<Damper>;
  readonly mount: Choices<Mount>;
  readonly isolator: Choices<Isolator | null>;
  readonly bumpStop: Choices<BumpStop>;
  readonly rodEnd: Choices<RodEnd | null>;
  readonly sleeve: Choices<Sleeve>;
  readonly perch: Choices<Perch>;
  readonly helper: Choices<Helper | null>;
  readonly spring: Choices<Spring>;
}

/** @minItems 1 */
type Choices<T> = readonly T[];

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
  /** Rear over front frequency. */
  readonly balance: Balance;
  readonly bump: BumpPolicy;
  readonly standingOnStop: boolean;
  /** Which frequency the windows mean: without the tyre (`body`) or with it (`ride`). */
  readonly frequencyBasis: 'body' | 'ride';
  readonly loadStates: readonly LoadState[];
  readonly loadCases: readonly LoadCase[];
}

/** A ratio: the wanted value, the wanted window around it, which only ranks, and the limits beyond which a pair is rejected. */
export interface Balance {
  readonly target: number;
  readonly from: number;
  readonly to: number;
  /** Not given in results written before there were any: the window itself rejects. */
  readonly limits?: { readonly from: number; readonly to: number };
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
 * A passing load. `multiple`: times the sprung load at each axle (braking, a long dip). `cornering`: from the lateral
 * acceleration in multiples of g_n, which needs the car's centre height and both axles' roll data.
 */
export type LoadCase =
  | { readonly name: string; readonly kind: 'multiple'; readonly factor: Readonly<Record<AxleName, number>> }
  | { readonly name: string; readonly kind: 'cornering'; readonly lateral: number };

/**
 * The margin to coil bind: `fixed`, or as each spring's wire asks: its least sum of gaps between coils (`en_13906`), or
 * the greater of half of that and a usual margin (`default`).
 */
export type CoilBindRule =
  | { readonly kind: 'fixed'; readonly value: number }
  | {
      readonly kind: 'en_13906' | 'default';
      /** Taken off every spring's margin, mm: 0 as read, more where it is asked what would have to give. */
      readonly lowered: number;
    };

export interface Margins {
  readonly coilBind: CoilBindRule;
  /** Along the damper, mm. */
  readonly damper: number;
  readonly sleeve: number;
  readonly body: number;
  readonly tyre: number;
  /** Diametral clearance a part needs to pass a bore, mm. */
  readonly passing: number;
}

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
export interface PlanSettings {
  /** Names of at least two setups. */
  readonly setups: readonly string[];
  /** Part families that may be swapped between setups; every other family is shared. */
  readonly swapped: readonly Family[];
  /** How many plans are kept. */
  readonly keep: number;
}

/** What may be measured before cutting: with ruler and caliper, in a press on springs and stops, with a scale, under the wheels. */
export const MEASURABLE = ['lengths', 'rates', 'forces', 'loads'] as const;
export type Measurable = (typeof MEASURABLE)[number];

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
  /** Of a stop without a force curve, and of one whose curve was measured. */
  readonly closedFraction: number;
  readonly closedFractionOfCurve: number;
  readonly stopForceShare: number;
  readonly mount: number;
  readonly bushGive: number;
  readonly isolator: number;
  /** Bores of springs; bores and outer diameters of everything else. */
  readonly springBore: number;
  readonly diameter: number;
  readonly wheelLoadShare: number;
  readonly unsprungMassShare: number;
  readonly tyreOnArch: number;
  readonly lowestWheel: number;
  /** Friction of joints and seals at the wheel, N: what holds a standing car off its balance. */
  readonly friction: number;
  readonly motionRatioShare: number;
  readonly gasShare: number;
  /** 0 unless the scenario tells them. */
  readonly tyreRateShare: number;
  readonly engagement: number;
  readonly pitchInertiaRatio: number;
  /** How well a length is read on the bench, mm, and anything else, as a share. */
  readonly reading: number;
  readonly readingShare: number;
}

/** Parts to be judged among themselves, or corners: one axle or both, without wishes. */
export interface BenchScenario {
  readonly name: string;
  readonly description: string;
  readonly currency: string;
  readonly axles: Readonly<Partial<Record<AxleName, BenchAxle>>>;
  readonly margins: Margins;
  readonly tolerances: Tolerances;
  readonly assumptions: readonly Assumption[];
}

export interface BenchAxle {
  /** -Infinity: nobody knows where the tyre meets the arch. The tyre's rate is not asked for: NaN. */
  readonly own: AxleOwn;
  /** Null where load or motion is not known, and only parts can be judged. */
  readonly wheel: Wheel | null;
  /** What a wheel lacks of which the other half is given. */
  readonly lacks?: 'load' | 'motion';
  /** A dimension that nobody measured is NaN. */
  readonly options: AxleOptions;
}

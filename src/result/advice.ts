/** What advice adds to the result: from a ranking to a purchase. Plain data, lengths rounded to 0.1 mm. */
import type { CheckName } from '../model/corner/checks.ts';
import type { CriterionName } from '../model/criteria.ts';
import type { Note } from '../model/parts.ts';
import type { AxleName, Family } from '../model/scenario.ts';
import type { Count, Share } from '../model/units.ts';

/**
 * What the shortlist is ordered by: the score, the score at the worst end of every tolerance, the `share` of the cars on
 * which it works, or the score expected of what is measured before it is cut.
 */
export const RANK_BYS = ['nominal', 'worst', 'share', 'expected'] as const;
export type RankBy = (typeof RANK_BYS)[number];

export interface SetupAdvice {
  /** What the shortlist is ordered by. */
  readonly ranked_by: RankBy;
  /** Where it is ordered by the expected score: among which it was sought. */
  readonly considered?: Readonly<Record<AxleName, Considered>>;
  readonly draws: Draws;
  /** One entry a shortlisted purchase, in the order of the shortlist. */
  readonly purchases: readonly PurchaseAdvice[];
  /** Null where nothing works or nothing is chosen. */
  readonly taste: TasteTable | null;
  readonly rates: Readonly<Record<AxleName, RateNeeded | null>>;
  readonly why_not: Readonly<Record<AxleName, WhyNot>>;
  /** Only where the setup has no answer. */
  readonly relaxations: Relaxations | null;
}

/** How random builds are made: every input drawn evenly within its tolerance, perch re-set to the target height. */
export interface Draws {
  readonly count: Count;
  readonly seed: Count;
  readonly generator: string;
}

/** What becomes of builds on the cars within the tolerances, everything cut as planned. */
export interface Builds {
  /** Share of the draws in which every check of both corners and the balance hold, 0 to 1. */
  readonly share: Share;
  /** What the others do, each counted by the worst it fails; not given in reports of earlier versions. */
  readonly fails?: FailShares;
}

/** Builds with the mean score, a build that fails counted 0. */
export interface ExpectedBuilds extends Required<Builds> {
  readonly expected_score: Share;
}

/** How many purchases of an axle that work as planned were built on every car, the best on paper, and how many there are. */
export interface Considered {
  readonly built: Count;
  readonly of: Count;
}

/** The same cars built twice: cut as planned, and cut as what is measured on the bench before asks. */
export interface BenchBuilds {
  readonly as_planned: ExpectedBuilds;
  readonly measured_first: ExpectedBuilds;
}

/** Shares of all draws, 0 to 1; with those that work they are all. */
export interface FailShares {
  /** Metal meets metal, a spring coil-binds, or a part does not go over another. */
  readonly metal_share: Share;
  /** At full droop the spring is looser than its seats hold it. */
  readonly seat_share: Share;
  /** A clearance or the allowed stress is eaten into, without contact. */
  readonly margin_share: Share;
  /** Height, travel, frequency, balance or allowed slack is missed, or the perch would have to be out of its reach. */
  readonly wish_share: Share;
}

export interface PurchaseAdvice extends Builds {
  /** Only where it is ranked by; of this setup alone: what a plan cuts once must serve all of its setups. */
  readonly expected?: BenchBuilds;
  readonly id: string;
  /** Id of a shortlisted purchase that is at least as good on every criterion and better on one; null: none is. */
  readonly dominated_by: string | null;
  /** Score with every criterion at the worst end of its tolerance band. */
  readonly worst_score: Share;
  readonly ranges: Readonly<Record<AxleName, readonly WorkingRange[]>>;
  readonly order: Order;
}

/** The best plan over several setups as a purchase. */
export interface PlanPurchase {
  /** One a setup, in the plan's order. */
  readonly setups: readonly PlannedShare[];
  /** What all setups share: the values that work in every one of them, the other choices as chosen. */
  readonly ranges: Readonly<Record<AxleName, readonly WorkingRange[]>>;
}

export type PlannedShare = Omit<PurchaseAdvice, 'dominated_by' | 'expected' | 'order' | 'ranges'>;

/** Which values of one swept dimension still pass every check of the corner, the other choices as chosen. */
export type WorkingRange =
  | {
      readonly kind: 'dimension';
      readonly family: Family;
      readonly dimension: string;
      readonly chosen_mm: number;
      readonly works_mm: readonly number[];
      /** Values between the lowest and the highest working one that fail. */
      readonly gaps_mm: readonly number[];
      readonly options: Count;
    }
  | {
      readonly kind: 'part';
      readonly family: Family;
      readonly chosen: string;
      readonly works: readonly string[];
      readonly options: Count;
    };

/** Parts for both corners of both axles. */
export interface Order {
  readonly lines: readonly OrderLine[];
  /** Sum of what has a price. */
  readonly total: number;
  /** Parts without a price: the total leaves them out. */
  readonly unpriced: readonly string[];
}

export interface OrderLine {
  readonly family: Family;
  readonly part: string;
  /** What tells it from others of its name, e.g. free length and rate; empty where the name does. */
  readonly free_length_mm: number | null;
  readonly rate_n_per_mm: number | null;
  readonly axles: readonly AxleName[];
  readonly count: Count;
  readonly price: number | null;
  readonly total: number | null;
  /** What its catalogue says besides, as it stands there; left out where it says nothing. */
  readonly notes?: readonly Note[];
}

/** Who wins when each weight is doubled and halved. */
export interface TasteTable {
  /** `sweep`: every row swept again, exact. `shortlist`: too many combinations, re-ranked within the shortlist. */
  readonly basis: 'sweep' | 'shortlist';
  readonly rows: readonly TasteRow[];
}

export interface TasteRow {
  readonly criterion: CriterionName;
  /** Weight as given, and as tried. */
  readonly weight: number;
  readonly tried: number;
  readonly winner: string;
  readonly score: Share;
  /** Place of the winner on the shortlist ordered by score, 0 where it is not on it. */
  readonly place: Count;
  /** Whether other springs win than with the weights given. */
  readonly changes: boolean;
}

/** Rate of the spring stack that gives the frequency aimed at. */
export interface RateNeeded {
  /** Where the frequency comes from. */
  readonly from: 'wanted' | 'balance' | 'middle of the window';
  readonly frequency_hz: number;
  /** Rate of the spring stack, helper closed; null where no spring gives that frequency. */
  readonly rate_n_per_mm: number | null;
  /** Rates at the ends of the frequency window. */
  readonly least_n_per_mm: number | null;
  readonly most_n_per_mm: number | null;
  /** Whether a listed spring has the rate within its tolerance. */
  readonly listed: boolean;
  readonly nearest: readonly { readonly spring: string; readonly rate_n_per_mm: number; readonly off_pct: number }[];
}

/** `mount`: another mount, of that height; only where nothing works. */
export type CureKind = 'trim' | 'spacer' | 'stop' | 'groove' | 'helper' | 'mount';

/** What keeps springs out. */
export interface WhyNot {
  /** Springs of which no combination works; of more than 60 the 50 nearest, nearest first. */
  readonly springs: readonly WhyNotSpring[];
  /** How many more there are, none of them nearer; left out where all are listed. */
  readonly not_listed?: Count;
  /** Combinations with one spring, and how many of them were looked at. */
  readonly combinations: Count;
  readonly looked_at: Count;
}

export interface WhyNotSpring {
  readonly spring: string;
  readonly free_length_mm: number;
  readonly rate_n_per_mm: number;
  /** The closest combination. */
  readonly closest: string;
  readonly parts: string;
  /** How close: the sum of its shortfalls, each over the scale of its unit. @minimum 0 */
  readonly distance: number;
  readonly failures: readonly { readonly check: CheckName; readonly shortfall: number | null; readonly unit: string }[];
  /** Smallest cure of each kind, least amount first; two changes only where no single one does; last a groove in a body of which nobody said what it is. */
  readonly cures: readonly Cure[];
}

/** The smallest cure of its kind, confirmed by the model. */
export interface Cure {
  /** The listed combination it changes. */
  readonly on: string;
  readonly parts: string;
  readonly changes: readonly CureChange[];
  readonly amount_mm: number;
}

export interface CureChange {
  readonly kind: CureKind;
  readonly part: string;
  readonly from_mm: number;
  readonly to_mm: number;
  /** Of a groove: nobody said whether the body is a single tube, which is never grooved. */
  readonly body?: 'unknown';
}

/** What each requirement would have to give, alone, for an answer. */
export interface Relaxations {
  /** `all`: every combination swept. `thinned`: too many, so every so many of the option lists only. */
  readonly basis: 'all' | 'thinned';
  readonly rows: readonly Relaxation[];
}

export interface Relaxation {
  readonly requirement: string;
  readonly axles: readonly AxleName[];
  readonly unit: string;
  /** How far to give in; null: not even the most looked at gives an answer. */
  readonly by: number | null;
  readonly most: number;
  /** The best combination then. */
  readonly winner: string | null;
}

/** Advice is rounded to what a person can measure, so that the result stays small. */
export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  const result = Math.round(value * scale) / scale;
  return result === 0 ? 0 : result;
}

/** Up to the next multiple of a step; what lies on one (to within rounding) stays. */
export function upToStep(value: number, step: number): number {
  return rounded(Math.ceil(value / step - 1e-9) * step, 6);
}

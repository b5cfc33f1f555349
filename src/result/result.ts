/**
 * The one result object: what computing hands to reporting. The HTML report, CSV, JSON and the terminal are
 * four readers of it. Plain data only; every quantity's key ends in its unit (see `quantities.ts`). Keys are snake_case;
 * those of part families and of `live` are the model's, and become snake_case as they are written (`report/written.ts`).
 */
import type { CheckName } from '../model/corner/checks.ts';
import type { ForceCurve } from '../model/corner/forceCurve.ts';
import type { CriterionScore } from '../model/corner/score.ts';
import type { Assumption, AxleName, Balance, Family, InputWarning, SideName } from '../model/scenario.ts';
import type { Count, FromOne, Share } from '../model/units.ts';
import type { Builds, Order, PlanPurchase, SetupAdvice } from './advice.ts';
import type { LiveRecord } from './live.ts';
import type { HelpfulChange, WouldWork } from './nothing.ts';
import type { CornerValues } from './quantities/corner.ts';
import type { PairValues } from './quantities/pair.ts';
import type { WorkingLine } from './quantities/quantity.ts';

export const RESULT_SCHEMA = 'springsift-result';
export const RESULT_VERSION = 2;

/**
 * What one run found. Every quantity's key ends in its unit; keys without one are ratios, counts, words or money in the
 * scenario's currency. Lengths run along the damper axis unless they are hub-to-arch heights.
 */
export interface Result {
  readonly schema: typeof RESULT_SCHEMA;
  readonly version: typeof RESULT_VERSION;
  /** The version that the result was read from, where it was an earlier one: what that did not tell is absent or null. */
  readonly upgraded_from?: 1;
  readonly tool: { readonly name: 'springsift'; readonly version: string };
  /** `build`: the scenario holds no range, so it is one given build, checked and shown in full. */
  readonly mode: 'sweep' | 'build';
  /** Given when the sweep was stopped: only `judged` of `of` combinations were looked at. */
  readonly incomplete?: { readonly judged: Count; readonly of: Count };
  /** What the reader must know about the whole, e.g. what was not looked for. @minItems 1 */
  readonly notes?: readonly string[];
  /** Inputs that are sound by every rule and still look like slips of the pen; not given where none does. @minItems 1 */
  readonly warnings?: readonly InputWarning[];
  readonly scenario: ScenarioSummary;
  readonly inputs: readonly InputFile[];
  readonly assumptions: readonly Assumption[];
  readonly setups: readonly SetupResult[];
  /** Parts shared over several setups; not given where no plan is wanted or the sweep was stopped. */
  readonly plans?: PlansResult;
  /** Inputs of the model in inner units, for the report's live bench; not given where no shortlist has an entry. */
  readonly live?: LiveRecord;
}

export interface ScenarioSummary {
  readonly name: string;
  readonly description: string;
  readonly currency: string;
  /** Digest of the option tables; ids carry two letters of it, so an id of another version is recognised. */
  readonly fingerprint: string;
  readonly wheelbase_mm: number;
  readonly axles: Readonly<Record<AxleName, AxleSummary>>;
}

export interface AxleSummary {
  readonly wheel_load_kg: number;
  /** Where left and right were given; `wheel_load_kg` is then their mean. */
  readonly wheel_loads_kg?: Readonly<Record<SideName, number>>;
  readonly unsprung_mass_kg: number;
  readonly sprung_mass_kg: number;
  readonly tyre_rate_n_per_mm: number;
  readonly motion_pairs: Count;
  readonly measured_from_mm: number;
  readonly measured_to_mm: number;
  /** How many options each family has, and their product. */
  readonly options: Readonly<Record<Family, Count>>;
  readonly combinations: Count;
}

export interface InputFile {
  readonly path: string;
  /** @pattern ^[0-9a-f]{64}$ */
  readonly sha256: string;
  readonly bytes: Count;
  /** Whole text, so that a report can be opened and swept again. */
  readonly text: string;
}

export interface SetupResult {
  readonly name: string;
  readonly targets: Readonly<Record<AxleName, TargetSummary>>;
  readonly balance: Balance;
  readonly frequency_basis: 'body' | 'ride';
  readonly bump_policy: string;
  /** Names of the load cases, whose quantities are `case_1_...` and so on; not given where there are none. */
  readonly load_cases?: readonly string[];
  readonly axles: Readonly<Record<AxleName, AxleTally>>;
  readonly pairs: PairTally;
  /** Best first. In `build` mode the one combination stands here whether or not it works. */
  readonly shortlist: readonly Combination[];
  /** From the ranking to a purchase; not given where the sweep was stopped, so that not every spring was tried. */
  readonly advice?: SetupAdvice;
  /** Only where it has no answer. */
  readonly nothing?: NothingWorks;
}

/** What there is where nothing works. */
export interface NothingWorks {
  /**
   * Rank 0: of an axle of which nothing passes the closest combination, of the other its best; where both pass, the pair
   * nearest to the limits of balance. What is lacking stands in its failures.
   */
  readonly nearest: Combination;
  readonly axles: Readonly<Record<AxleName, AxleAlone>>;
}

/** One axle of a setup that has no answer. */
export interface AxleAlone {
  /** What passes, best first, one a purchase; of an axle by itself, so without balance. */
  readonly passing: readonly PassingCorner[];
  /** Null where the axle needs none, or none was found. */
  readonly change: HelpfulChange | null;
  /** Null where the axle needs none, or no spring could be in balance with what passes at the other axle. */
  readonly would_work: WouldWork | null;
}

export interface PassingCorner {
  /** By the axle's own criteria. */
  readonly score: Share;
  readonly corner: CornerReport;
}

export interface TargetSummary {
  readonly target_height_mm: number;
  readonly wanted_from_mm: number;
  readonly wanted_to_mm: number;
  readonly least_bump_travel_mm: number;
  readonly good_bump_travel_mm: number;
  readonly least_droop_travel_mm: number;
  readonly frequency_from_hz: number;
  readonly frequency_to_hz: number;
  readonly wanted_frequency_hz: number | null;
}

/** How many combinations of one axle passed, and how many fell at each check (first failing check counts). */
export interface AxleTally {
  readonly combinations: Count;
  readonly passed: Count;
  /** Counted at the first check that a combination fails. */
  readonly rejected: Readonly<Record<CheckName, Count>>;
  /** One entry a spring, in the order of the scenario. */
  readonly spring_cells: readonly SpringCell[];
}

/** What became of the combinations with one spring. */
export interface SpringCell {
  readonly spring: string;
  readonly free_length_mm: number;
  readonly rate_n_per_mm: number;
  readonly workable: Count;
  /** Score of the best workable combination by the corner's own criteria; null where none works. */
  readonly best_score: Share | null;
  /** Checks that rejected any, by first failure. */
  readonly rejected: Readonly<Partial<Record<CheckName, FromOne>>>;
}

export interface PairTally {
  /** Passing front times passing rear combinations. */
  readonly considered: Count;
  readonly rejected_by_balance: Count;
  readonly workable: Count;
}

export interface Combination {
  /** Short and stable: `low-F4F7-R2KD-7Q`. */
  readonly id: string;
  /** Place on the shortlist; 0 outside of it. */
  readonly rank: Count;
  readonly workable: boolean;
  readonly score: Share;
  readonly criteria: readonly CriterionScore[];
  /** Quantities of the pair: balance, bounce and pitch, total price. */
  readonly values: PairValues;
  /** What stops a wheel in a load case, e.g. `case_1_front_outer_stopped_by`, where something does. */
  readonly words?: Readonly<Record<string, string>>;
  readonly axles: Readonly<Record<AxleName, CornerReport>>;
  readonly failures: readonly Failure[];
  readonly flags: readonly Flag[];
  /** Tolerance bands of bounce and pitch; only where the pitch inertia ratio is assumed or has a tolerance. */
  readonly bands?: Readonly<Record<string, BandReport>>;
  /** How much rests on assumed values; only where something is assumed and a combination is shown in full. */
  readonly settling?: Settling;
  /** Every quantity with its formula; where a build is shown in full. */
  readonly working?: CombinationWorking;
  /** For workbench and workshop; on the best combination of a setup. Those of the best plan stand with the plans. */
  readonly sheet?: BuildSheet;
}

/** What workbench and workshop get of a combination beside its values. */
export interface BuildSheet {
  /** How far what is measured on the bench may lie from its value, the perch held as set; by quantity key. */
  readonly bands: Readonly<Record<AxleName, Readonly<Record<string, BandReport>>>>;
  /** The formulas that decide, with their numbers put in. */
  readonly working: CombinationWorking;
}

/** Parts bought and cut once for several setups; perch heights follow from each setup's target heights. */
export interface PlansResult {
  /** In the plan's order. */
  readonly setups: readonly string[];
  /** Part families that may differ from setup to setup, and those that may not. */
  readonly swapped: readonly Family[];
  readonly shared: readonly Family[];
  /** Combinations per axle that work in every setup, everything shared. */
  readonly workable: Readonly<Record<AxleName, Count>>;
  /** Best first, one for each choice of springs; empty where no plan works in every setup. */
  readonly plans: readonly PlanRecord[];
  /** For workbench and workshop: the best plan in each setup, in the plan's order. */
  readonly sheets?: readonly BuildSheet[];
  /** How the best plan stands up to its tolerances, and how free its cuts are. */
  readonly purchase?: PlanPurchase;
  readonly comparison: SpringSetsComparison;
  /** Combinations of the plans, rank 0: the best plan's in full, of the others what stands in no shortlist. */
  readonly combinations: readonly { readonly setup: string; readonly combination: Combination }[];
}

export interface PlanRecord {
  /** Short and stable, as long as the parts are the same: `plan-1F3Q7ZK`. */
  readonly id: string;
  /** Geometric mean of the setups' scores. */
  readonly score: Share;
  /** All parts of the car, shared ones once, both sides; null where a part has no price. @minimum 0 */
  readonly price: number | null;
  /** What of it springs and helpers cost, all sets. @minimum 0 */
  readonly springs_price: number | null;
  /** What to order for all setups together. */
  readonly order?: Order;
  /** One a setup, in the plan's order. */
  readonly setups: readonly PlanPart[];
}

/** What a plan means for one setup. */
export interface PlanPart {
  readonly setup: string;
  /** Id of the pair; the corners' ids are those of front and rear. */
  readonly id: string;
  readonly front: string;
  readonly rear: string;
  readonly score: Share;
  readonly criteria: readonly CriterionScore[];
  /** What becomes of random builds; not given in reports of earlier versions. */
  readonly builds?: Builds;
}

/** One set of springs and helpers for all setups against a set for each, everything else as the plan shares it. */
export interface SpringSetsComparison {
  /** Null where no such plan works. */
  readonly one_set: PlanRecord | null;
  readonly own_sets: PlanRecord | null;
  /** What each setup alone would choose, sharing nothing; null where nothing works for it. */
  readonly alone: readonly (PlanPart | null)[];
}

export interface CombinationWorking {
  readonly axles: Readonly<Record<AxleName, readonly WorkingLine[]>>;
  readonly pair: readonly WorkingLine[];
}

export interface CornerReport {
  readonly id: string;
  readonly parts: Readonly<Record<Family, PartChoice>>;
  /** Keyed by quantity id with its unit, e.g. `bump_travel_mm`; null: does not exist for this corner. */
  readonly values: CornerValues;
  /** Quantities that are words, e.g. which limit binds an end of the height window. */
  readonly words: Readonly<Record<string, string>>;
  readonly failures: readonly Failure[];
  readonly flags: readonly Flag[];
  /** Tolerance bands by quantity key: clearances, travels, window ends, frequencies. */
  readonly bands: Readonly<Record<string, BandReport>>;
  /** Clearances whose worst case is negative, and a spring that may leave its seat: measure before you buy. */
  readonly tight: readonly TightClearance[];
  /** Forces over the travel; only where a combination is shown in full. */
  readonly force_curve?: ForceCurve;
  /** The same corner at the load of either side, the perch set for the same height; only where both loads are given. */
  readonly sides?: Readonly<Record<SideName, SideReport>>;
}

/** A corner at the load of its own side; the corner's own numbers are those of the mean. */
export interface SideReport {
  /** Keyed as the corner's values, of which these are a part: loads, perch, travels, frequencies, clearances, heights. */
  readonly values: CornerValues;
  /** `thinnest_contact`, and which limits bind the ends of the height window. */
  readonly words: Readonly<Record<string, string>>;
  readonly failures: readonly Failure[];
}

/** How far a quantity may lie from its value, in the quantity's unit. */
export interface BandReport {
  readonly worst_low: number;
  readonly worst_high: number;
  readonly rss_low: number;
  readonly rss_high: number;
  /** The input that moves it most, by how much at full tolerance, and what to measure to settle it. */
  readonly contributor: string;
  readonly contributes: number;
  readonly measure: string;
}

/** How much of an answer rests on usual values that nobody measured, and what would settle it. */
export interface Settling {
  /** Fields that a usual value was taken for: `axles.front.unsprung_mass`. @minItems 1 */
  readonly assumed: readonly string[];
  /** Of the spread of the answer: the mean over its numbers. */
  readonly assumed_share: Share;
  /** The numbers of the answer that anything moves. */
  readonly numbers: readonly SettlingNumber[];
  /** The one with the largest share of the spread first. */
  readonly measurements: readonly SettlingMeasurement[];
}

export interface SettlingNumber {
  /** As elsewhere in the result, with its unit; `held_spare_mm`: how much deeper its seats hold the spring than it comes loose. */
  readonly key: string;
  /** Null: of the whole car. */
  readonly axle: AxleName | null;
  /** Likely half-width: the root of the sum of squares of all moves, in the unit of the key. */
  readonly half_width: number;
  /** Of its variance. */
  readonly assumed_share: Share;
}

export interface SettlingMeasurement {
  /** Id of the input, as in the tolerance table. */
  readonly input: string;
  readonly axle: AxleName | null;
  readonly label: string;
  /** Where it stands in the scenario, below its axle; null where nothing of the scenario is measured by it. */
  readonly field: string | null;
  readonly how: string;
  /** Common practice, no source; null where the measuring sheet has no row for it. */
  readonly tool: string | null;
  /** About how long it takes. */
  readonly minutes: number | null;
  /** A usual value stands for it. */
  readonly assumed: boolean;
  /** Of the spread of the answer. */
  readonly share: Share;
}

export interface TightClearance {
  readonly contact: string;
  /** Where the spring may leave its seat: what is left of what holds it. */
  readonly clearance_mm: number;
  readonly worst_mm: number;
  /** Only where the spring may leave its seat: how loose it is at full droop, at worst, and how deep its seats hold it. */
  readonly seat?: { readonly slack_mm: number; readonly worst_slack_mm: number; readonly held_mm: number };
  readonly measure: string;
}

export interface PartChoice {
  readonly name: string;
  readonly price: number | null;
  /** The dimensions that were chosen, e.g. `{ trim_mm: 20 }`. */
  readonly choice: Readonly<Record<string, number>>;
  /** The part as it was given, every key with its unit; absent where an earlier version did not tell. */
  readonly sizes?: PartSizes;
}

/** Null: not given. */
export type PartSizes = Readonly<Record<string, SizeValue>>;
export type SizeValue = number | string | boolean | null | readonly Readonly<Record<string, number>>[];

export interface Failure {
  readonly check: CheckName;
  /** Short sentence with its numbers. */
  readonly message: string;
  /** How much is missing, in the check's own unit; null where no amount exists. */
  readonly shortfall: number | null;
  readonly unit: string;
}

export interface Flag {
  readonly kind: 'warning' | 'estimate' | 'note';
  readonly message: string;
  /** `range`: a formula or a measured curve is used outside the range where it is known to hold. */
  readonly topic?: 'range';
}

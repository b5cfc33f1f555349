/**
 * Where a setup has no answer: the change that helps most, and what would work by the length and rate of the spring.
 * Plain data.
 */
import type { Count } from '../model/units.ts';
import type { CureChange } from './advice.ts';

/** A change with which a corner passes every check, confirmed by the model. */
export interface HelpfulChange {
  /** Id of the listed combination it is made on; null where its spring is of no list. */
  readonly on: string | null;
  /** Its parts without the spring, in words, before the change. */
  readonly parts: string;
  readonly spring: ChangeSpring;
  /** What is done to the parts; empty where another spring is enough. */
  readonly changes: readonly CureChange[];
  readonly corner: ChangedCorner;
  /** Listed springs that pass on these parts with the same change, and how many were tried; null: it is none of the list. */
  readonly springs: { readonly work: Count; readonly of: Count } | null;
  /** Passing combinations of the other axle that are in balance with it; null where the other axle has none. */
  readonly balanced_with: Count | null;
}

export interface ChangeSpring {
  /** Null: a spring of that length and rate, of no list. */
  readonly name: string | null;
  readonly free_length_mm: number;
  readonly rate_n_per_mm: number;
  readonly solid_height_mm: number;
  readonly solid_height_source: string;
}

/** The corner with the change made; as quantities of a corner, null where there is none. */
export interface ChangedCorner {
  readonly perch_mm: number | null;
  readonly bump_travel_mm: number | null;
  readonly droop_travel_mm: number | null;
  /** Ends of the usable heights. */
  readonly lowest_height_mm: number | null;
  readonly highest_height_mm: number | null;
  readonly frequency_hz: number;
}

/** What would work on an axle, by free length and rate of the spring; every cell was judged, nothing lies between. */
export interface WouldWork {
  readonly lengths_mm: readonly number[];
  readonly rates_n_per_mm: readonly number[];
  /** One a length and rate, rates slower. */
  readonly cells: readonly WouldWorkCell[];
  /** Bore of the springs tried: that of the nearest build, or what goes over its sleeve and perch. */
  readonly bore_mm: number;
  /** Helpers that are in no list: common practice, no source. */
  readonly helpers: readonly GenericHelperSizes[];
  /** How far a sleeve was trimmed, and how much lower or higher than listed, without spacer, a mount may be. */
  readonly trim_to_mm: number;
  readonly mount_lower_mm: number;
  readonly mount_higher_mm: number;
  /** Whether each also is in balance with a passing combination of the other axle. */
  readonly balanced: boolean;
  /** Combinations of the other parts with one spring, and how many of them were looked at. */
  readonly combinations: Count;
  readonly looked_at: Count;
}

export interface WouldWorkCell {
  readonly free_length_mm: number;
  readonly rate_n_per_mm: number;
  /** An estimate, as for every spring of which only length, rate and bore are known; and the least it could be. */
  readonly solid_height_mm: number;
  readonly least_solid_height_mm: number;
  /** With parts as listed; where that works at the judged solid height nothing else was tried. Null: nothing passes. */
  readonly as_listed: WorksAt | null;
  readonly trim: (WorksAt & { readonly trim_mm: number }) | null;
  /** One of the generic ones. */
  readonly helper: (WorksAt & { readonly name: string }) | null;
  /** Another mount: its rod shoulder above the tower plane. */
  readonly mount: (WorksAt & { readonly raise_mm: number }) | null;
}

export interface WorksAt {
  /** `judged`: as coil bind is judged; `least`: only where the spring is as short, pressed solid, as it could be. */
  readonly solid: 'judged' | 'least';
}

export interface GenericHelperSizes {
  readonly name: string;
  readonly free_length_mm: number;
  readonly block_height_mm: number;
  readonly rate_n_per_mm: number;
  readonly coupler_mm: number;
}

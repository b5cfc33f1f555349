/** The result of an audit: plain and versioned, read by the page, the terminal and `audit.json`. mm, N, N/mm, kg, Hz. */
import type { Assumption, AxleName, SideName } from '../../model/scenario.ts';
import type { Failure, InputFile } from '../../result/result.ts';
import type { CauseKind } from './causes.ts';
import type { Correction, Inferable } from './corrections.ts';
import type { Verdict } from './expectation.ts';
import type { ObservationKind } from './observations.ts';

export const AUDIT_SCHEMA = 'springsift-audit';
export const AUDIT_VERSION = 1;

export interface AuditResult {
  readonly schema: typeof AUDIT_SCHEMA;
  readonly version: typeof AUDIT_VERSION;
  readonly tool: string;
  readonly scenario: string;
  readonly setup: string;
  readonly combination: string;
  readonly inputs: readonly InputFile[];
  /** How well things were taken to be read where the measurements do not say. */
  readonly assumptions: readonly Assumption[];
  readonly units: readonly UnitAudit[];
}

export interface UnitAudit {
  readonly axle: AxleName;
  readonly side: SideName | null;
  readonly parts: { readonly spring: string; readonly helper: string | null };
  readonly measurements: readonly MeasurementReport[];
  readonly unused: readonly { readonly kind: ObservationKind; readonly why: string }[];
  /** What would make the numbers surer. */
  readonly notes: readonly string[];
  readonly cause: CauseReport;
  readonly corrections: readonly Correction[];
  readonly standing: StandingReport | null;
  /** The bench test by the corrected model, the perch at its lowest, for the target, at its highest safe place, and highest. */
  readonly bench: readonly BenchReport[];
  /** The bench test closes the stop; `load`: full bump is judged under a bump load, which closes it less far. */
  readonly full_bump: 'closed' | 'load';
  readonly predicted: CornerNumbers;
  readonly corrected: CornerNumbers;
  /** What the corner fails as measured, at the target height. */
  readonly failures: readonly Failure[];
}

export interface MeasurementReport {
  readonly kind: ObservationKind;
  readonly perch_mm: number | null;
  readonly damper_length_mm: number | null;
  readonly predicted: number;
  readonly measured: number;
  readonly rss_low: number;
  readonly rss_high: number;
  readonly worst_low: number;
  readonly worst_high: number;
  readonly reading: number;
  readonly verdict: Verdict;
  /** What moves the prediction most. */
  readonly contributor: string;
}

export interface CauseReport {
  readonly verdict: 'consistent' | 'cause' | 'several' | 'unexplained';
  readonly nothing_wrong: { readonly misfit: number; readonly chance: number };
  /** Best first, those that may be meant first of all. */
  readonly ranked: readonly RankedReport[];
  /** How many of `ranked` are meant: 1 for a named cause, more where they can't be told apart, else 0. */
  readonly named: number;
  /** What to measure, or measure again, to settle it; null where there is nothing to settle. */
  readonly measure: { readonly kind: ObservationKind; readonly again: boolean } | null;
}

export interface RankedReport {
  readonly kind: CauseKind;
  readonly detail: string;
  readonly amount: number | null;
  readonly dimension: 'length' | 'rate' | 'mass';
  readonly misfit: number;
  readonly chance: number;
}

export interface StandingReport {
  readonly blamed: Inferable;
  readonly believed: boolean;
  /** Each alone would have led to the ride height reached; `perch_mm` is then the perch for the target height. */
  readonly alternatives: readonly {
    readonly parameter: Inferable;
    readonly from: number;
    readonly to: number | null;
    readonly perch_mm: number | null;
  }[];
}

export interface BenchReport {
  readonly where: 'lowest' | 'target' | 'highest safe' | 'highest';
  readonly perch_mm: number;
  /** What the spring can give from just snug, and what it is asked for until the stop is closed. */
  readonly spring_travel_mm: number;
  readonly gap_mm: number;
  readonly stop_squeeze_mm: number;
  readonly stop_travel_mm: number;
  readonly give_mm: number;
  readonly spare_mm: number;
  readonly margin_mm: number;
  readonly preload_mm: number;
  readonly looseness_mm: number;
}

export interface CornerNumbers {
  readonly target_height_mm: number;
  readonly perch_mm: number;
  /** From where the perch was when the ride height was read; null where neither height nor pitch is known. */
  readonly perch_change_mm: number | null;
  readonly collar_turns: number | null;
  readonly bump_travel_mm: number;
  readonly droop_travel_mm: number;
  readonly slack_mm: number;
  readonly body_frequency_hz: number | null;
  readonly window: WindowNumbers | null;
  readonly clearances: readonly {
    readonly contact: string;
    readonly clearance_mm: number;
    readonly margin_mm: number;
  }[];
}

/** Lowest and highest safe place of the perch, and the heights there. */
export interface WindowNumbers {
  readonly usable: boolean;
  readonly low: WindowEndNumbers;
  readonly high: WindowEndNumbers;
}

export interface WindowEndNumbers {
  readonly perch_mm: number | null;
  readonly height_mm: number | null;
  readonly limit: string;
}

/**
 * Left and right of an axle whose wheels carry different loads: the same parts at either load, each perch set for the
 * same target height. The combination itself is ranked and toleranced at the mean of both, and rejected where metal meets
 * at the load of either.
 */

import { CHECK, findingMessage, limitLabel, METAL_CHECKS } from '../../model/corner/checks.ts';
import { CONTACT } from '../../model/corner/contacts.ts';
import { type Finding, findingsOf } from '../../model/corner/findings.ts';
import * as flags from '../../model/corner/flagMessages.ts';
import { siteOf } from '../../model/corner/site.ts';
import { thinnestContact } from '../../model/corner/state.ts';
import type { Working } from '../../model/corner/window.ts';
import { type AxleName, type Scenario, type Setup, SIDE_NAMES, type SideName } from '../../model/scenario.ts';
import type { CornerQuantity } from '../quantities/corner.ts';
import { valuesOf } from '../quantities/quantity.ts';
import type { Failure, Flag, SideReport } from '../result.ts';
import { judged } from '../tolerance/bands.ts';

/** A judged pair, as far as its sides need it. */
interface SidedPair {
  readonly scenario: Scenario;
  readonly setup: Setup;
  readonly workings: Readonly<Record<AxleName, Working>>;
}

const SIDE_QUANTITIES: ReadonlySet<string> = new Set<CornerQuantity['id']>([
  'wheel_load',
  'sprung_mass',
  'perch',
  'perch_below_top',
  'bump_travel',
  'droop_travel',
  'slack',
  'body_frequency',
  'ride_frequency',
  'lowest_height',
  'highest_height',
  'thinnest_clearance',
  'thinnest_clearance_closed',
  'thinnest_spare',
  'thinnest_metal_clearance',
  'spring_length',
  'thread_below',
  'collar_turns',
  'bench_slack',
  'lowest_perch',
  'highest_perch',
  'stop_travel_snug',
  'snug_spare',
  'closed_metal_clearance',
  'stroke_used',
  'spring_force',
  'full_spring_force',
  'damping_ratio',
  'rebound_ratio',
  'stress_full',
  'seats_out',
  'gap_snug',
  'gap_lowest',
  'gap_highest',
]);

/**
 * Both sides of a corner judged at their own loads; null where one load stands for both.
 *
 * @param quantities all quantities of the corner: a side keeps those that its load may change
 */
export function sidesOf(
  { scenario, setup, workings }: SidedPair,
  axle: AxleName,
  quantities: readonly CornerQuantity[],
): Record<SideName, SideReport> | null {
  const { wheelLoads } = scenario.axles[axle];
  if (!wheelLoads) return null;
  const kept = quantities.filter(differs);
  const { corner } = workings[axle].state;
  const side = (load: number) =>
    sideReport(judged({ site: siteOf(scenario, setup, axle, { wheelLoad: load }), corner }), kept);
  return { left: side(wheelLoads.left), right: side(wheelLoads.right) };
}

/** What a side fails, as warnings; metal on metal is not among them, since the combination itself fails by it. */
export function sideFlags(axle: AxleName, sides: Readonly<Record<SideName, SideReport>>): Flag[] {
  return SIDE_NAMES.flatMap((name) => {
    const { failures, values } = sides[name];
    const load = values.wheel_load_kg as number;
    return failures.filter(isWarning).map((failure): Flag => {
      return { kind: 'warning', message: flags.sideFails(axle, name, load, failure.check, failure) };
    });
  });
}

function isWarning({ check }: Failure): boolean {
  return !METAL_CHECKS.some((metal) => metal === check);
}

function differs({ id }: CornerQuantity): boolean {
  return SIDE_QUANTITIES.has(id) || id.startsWith('clearance_') || id.startsWith('load_');
}

function sideReport(working: Working, quantities: readonly CornerQuantity[]): SideReport {
  const { state, window } = working;
  return {
    values: valuesOf(quantities, working),
    words: {
      thinnest_contact: CONTACT[thinnestContact(state).name].label,
      lowest_height_limit: window ? limitLabel(window.low.limit) : 'no stable window',
      highest_height_limit: window ? limitLabel(window.high.limit) : 'no stable window',
    },
    failures: findingsOf(state).map(failureOf),
  };
}

// A finding of the model as a record a person can read.

export function failureOf(finding: Finding): Failure {
  const shortfall = Number.isFinite(finding.shortfall) ? finding.shortfall : null;
  return { check: finding.check, message: findingMessage(finding), shortfall, unit: CHECK[finding.check].unit };
}

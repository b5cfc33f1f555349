/**
 * What was measured on a built unit against what was predicted of it.
 *
 *   parts as chosen --expectation--> each measurement's band and verdict --likeliest--> a cause, or none
 *                                                                              |
 *   parts as built (of the cause) --corrections--> model as measured --> clearances, window, perch for the target
 */
import { type Corner, siteOf } from '../../model/corner/site.ts';
import type { AxleOptions, Scenario, Setup } from '../../model/scenario.ts';
import type { Model } from '../../result/tolerance/inputs.ts';
import type { Cause } from './causes.ts';
import { type Corrected, correct } from './corrections.ts';
import { comparedOf, expectationOf } from './expectation.ts';
import { type Likeliest, likeliestOf, type RankedCause } from './likeliest.ts';
import type { Measured, MeasuredUnit, Readings } from './measured.ts';
import { observationsOf, TRUE_MARKS, wasPreloaded } from './observations.ts';
import type { UnitAudit } from './types.ts';
import { unitReport } from './unitReport.ts';

/** A unit audited: what the report says, and the models it was said of. */
export interface AuditedUnit {
  readonly unit: MeasuredUnit;
  readonly given: Model;
  readonly likeliest: Likeliest;
  readonly corrected: Corrected;
  readonly report: UnitAudit;
}

/** Every measured unit of a combination, in the order of the measurements. */
export function auditAll(
  scenario: Scenario,
  setup: Setup,
  corners: Readonly<Record<'front' | 'rear', Corner>>,
  measured: Measured,
): readonly AuditedUnit[] {
  return measured.units.map((unit) => {
    const site = siteOf(scenario, setup, unit.axle, { wheelLoad: loadOf(scenario, unit) });
    const model = { site, corner: corners[unit.axle] };
    const { options, wheelLoads } = scenario.axles[unit.axle];
    const sidesDiffer = unit.side === null && wheelLoads !== null && wheelLoads.left !== wheelLoads.right;
    return auditUnit(scenario, model, options, unit, measured.readings, sidesDiffer);
  });
}

/** The load of the side, where the scenario has one for each. */
function loadOf(scenario: Scenario, { axle, side }: MeasuredUnit): number {
  const { wheelLoad, wheelLoads } = scenario.axles[axle];
  return side !== null && wheelLoads ? wheelLoads[side] : wheelLoad;
}

export function auditUnit(
  { tolerances }: Pick<Scenario, 'tolerances'>,
  given: Model,
  options: AxleOptions,
  unit: MeasuredUnit,
  readings: Readings,
  sidesDiffer = false,
): AuditedUnit {
  const all = observationsOf(unit, readings);
  const preloaded = all.filter((o) => o.kind === 'snug_gap' && wasPreloaded(given, o, PRELOADED_WITHIN));
  const usable = all.filter((o) => !preloaded.includes(o));
  const observations = usable.filter((o) => o.predict(given, TRUE_MARKS) !== null);
  const expectation = expectationOf(given, observations, tolerances);
  const compared = comparedOf(expectation, observations);
  const likeliest = likeliestOf(expectation, compared, options, tolerances);
  const named = causeTaken(likeliest);
  const result = correct(named?.model ?? given, unit, usable, named?.marks ?? TRUE_MARKS);
  const report = unitReport({
    unit,
    readings,
    given,
    expectation,
    compared,
    likeliest,
    corrected: result,
    preloaded: preloaded.length,
    sidesDiffer,
  });
  return { unit, given, likeliest, corrected: result, report };
}

/** The cause under which the numbers are corrected: the one that is named, or the first of several. */
function causeTaken(likeliest: Likeliest): Cause | null {
  if (likeliest.verdict === 'cause') return likeliest.named.cause;
  return likeliest.verdict === 'several' ? (likeliest.candidates[0] as RankedCause).cause : null;
}

/** A gap as long as the fully extended damper allows, to this many mm, was read with the damper fully extended. */
const PRELOADED_WITHIN = 3;

/**
 * What was measured on a built unit against what was predicted of it.
 *
 *   parts as chosen --expectation--> each measurement's band and verdict --likeliest--> a cause, or none
 *                                                                              |
 *   parts as built (of the cause) --corrections--> model as measured --> clearances, window, perch for the target
 */

import { limitLabel } from '../../model/corner/checks.ts';
import { COIL_BIND, CONTACT, giveFor, marginFor } from '../../model/corner/contacts.ts';
import { findingsOf } from '../../model/corner/findings.ts';
import { geometryOf } from '../../model/corner/geometry.ts';
import { type Corner, siteOf } from '../../model/corner/site.ts';
import { collarTurns, snugAt } from '../../model/corner/snug.ts';
import { cornerState } from '../../model/corner/state.ts';
import { heightWindow, type WindowEnd } from '../../model/corner/window.ts';
import type { AxleOptions, Scenario, Setup } from '../../model/scenario.ts';
import { failureOf } from '../../result/records/sides.ts';
import type { Model } from '../../result/tolerance/inputs.ts';
import type { Cause } from './causes.ts';
import { type Corrected, correct, type StandingInference, type Unused } from './corrections.ts';
import { type Compared, comparedOf, type Expectation, expectationOf } from './expectation.ts';
import { type Likeliest, likeliestOf, type RankedCause, tellingMeasurement } from './likeliest.ts';
import type { Measured, MeasuredUnit, Readings } from './measured.ts';
import { observationsOf, TRUE_MARKS, wasPreloaded } from './observations.ts';
import { withParameter } from './parameters.ts';
import type { BenchReport, CauseReport, CornerNumbers, MeasurementReport, StandingReport, UnitAudit } from './types.ts';

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

// What an audit says of one unit, from its measurements and models: the record that page, terminal and file read.

/** Everything that was found out about a unit. */
export interface Findings {
  readonly unit: MeasuredUnit;
  readonly readings: Readings;
  readonly given: Model;
  readonly expectation: Expectation;
  readonly compared: readonly Compared[];
  readonly likeliest: Likeliest;
  readonly corrected: Corrected;
  /** How many gaps were left out, read with the spring squeezed already. */
  readonly preloaded: number;
  /** Measured for both sides, whose loads differ. */
  readonly sidesDiffer: boolean;
}

export function unitReport(found: Findings): UnitAudit {
  const { unit, given, corrected } = found;
  const { model } = corrected;
  const preloaded = Array.from({ length: found.preloaded }, () => ({ by: 'snug_gap', why: 'preloaded' }) as const);
  return {
    axle: unit.axle,
    side: unit.side,
    parts: { spring: given.corner.spring.name, helper: given.corner.helper?.name ?? null },
    measurements: found.compared.map(measurementReport),
    unused: [...preloaded, ...corrected.unused].map(({ by, why }) => ({ kind: by, why: UNUSED_WHY[why] })),
    notes: [
      ...(model.corner.spring.solid.source === 'estimated' ? [NOTES.solidEstimated] : []),
      ...(found.sidesDiffer ? [NOTES.sidesDiffer] : []),
    ],
    cause: causeReport(found),
    corrections: corrected.corrections,
    standing: corrected.standing && standingReport(corrected.standing),
    bench: benchReports(model),
    full_bump: model.site.bump.kind,
    predicted: numbersOf(given, unit),
    corrected: numbersOf(model, unit),
    failures: findingsOf(cornerState(model.site, model.corner)).map(failureOf),
  };
}

function measurementReport(c: Compared): MeasurementReport {
  const { kind, perch, damperLength, measured, reading } = c.observation;
  return {
    kind,
    perch_mm: perch,
    damper_length_mm: damperLength,
    predicted: c.predicted,
    measured,
    rss_low: c.rssLow,
    rss_high: c.rssHigh,
    worst_low: c.worstLow,
    worst_high: c.worstHigh,
    reading,
    verdict: c.verdict,
    contributor: c.contributor,
  };
}

/** Causes worth showing beside the one that is named. */
const MOST_RANKED = 5;

function causeReport({ likeliest, compared, expectation, unit, readings }: Findings): CauseReport {
  const { verdict, nothing, ranked } = likeliest;
  const meant = verdict === 'several' ? likeliest.candidates : verdict === 'cause' ? [likeliest.named] : [];
  const others = ranked.filter((r) => !meant.includes(r)).slice(0, Math.max(0, MOST_RANKED - meant.length));
  const again = verdict === 'unexplained' ? compared[likeliest.measureAgain]?.observation : undefined;
  const [one, other] = meant;
  const measure = again
    ? { kind: again.kind, again: true }
    : one && other
      ? tellingMeasurement(one.cause, other.cause, expectation, unit, readings)
      : null;
  return {
    verdict,
    nothing_wrong: { misfit: nothing.misfit, chance: nothing.chance },
    ranked: [...meant, ...others].map(rankedReport),
    named: meant.length,
    measure,
  };
}

function rankedReport({ cause, amount, misfit, chance }: RankedCause) {
  const dimension = cause.kind === 'wheel_load_off' ? 'mass' : cause.kind === 'spring_rate_off' ? 'rate' : 'length';
  return { kind: cause.kind, detail: cause.detail, amount, dimension, misfit, chance } as const;
}

function standingReport({ blamed, believed, alternatives, before }: StandingInference): StandingReport {
  return {
    blamed,
    believed,
    alternatives: alternatives.map(({ parameter, from, to }) => {
      const model = to === null ? null : withParameter(before, parameter, to);
      return { parameter, from, to, perch_mm: model && cornerState(model.site, model.corner).standing.perch };
    }),
  };
}

/**
 * Spring travel against the travel to the stop and the stop's squeeze: the perch at its lowest on the sleeve, where the
 * target height wants it, at its highest safe place, and at its highest on the sleeve.
 */
export function benchReports({ site, corner }: Model): readonly BenchReport[] {
  const geometry = geometryOf(site, corner);
  const at = (where: BenchReport['where'], perch: number): BenchReport => {
    const snug = snugAt(corner, geometry, perch);
    const give = giveFor(corner, COIL_BIND);
    return {
      where,
      perch_mm: perch,
      spring_travel_mm: snug.springTravel,
      gap_mm: snug.gap,
      stop_squeeze_mm: snug.stopTravel - snug.gap,
      stop_travel_mm: snug.stopTravel,
      give_mm: give,
      spare_mm: snug.spare - give,
      margin_mm: marginFor(site, corner, COIL_BIND),
      preload_mm: snug.preload,
      looseness_mm: snug.looseness,
    };
  };
  const state = cornerState(site, corner);
  const window = heightWindow(state);
  const safe = window?.usable ? finite(window.high.perch) : null;
  return [
    at('lowest', geometry.perchLowest),
    at('target', state.standing.perch),
    ...(safe === null ? [] : [at('highest safe', safe)]),
    at('highest', geometry.perchHighest),
  ];
}

function numbersOf({ site, corner }: Model, { standing }: MeasuredUnit): CornerNumbers {
  const state = cornerState(site, corner);
  const window = heightWindow(state);
  const { perch } = state.standing;
  const from = standing.at(-1)?.perch ?? null;
  return {
    target_height_mm: site.target.targetHeight,
    perch_mm: perch,
    perch_change_mm: from === null ? null : perch - from,
    collar_turns: from === null ? null : collarTurns(corner.sleeve, perch, from),
    bump_travel_mm: state.bumpTravel,
    droop_travel_mm: state.droopTravel,
    slack_mm: state.slack,
    body_frequency_hz: finite(state.rates.bodyFrequency),
    window: window && { usable: window.usable, low: endNumbers(window.low), high: endNumbers(window.high) },
    clearances: state.contacts.map(({ name, clearance, margin }) => {
      return { contact: CONTACT[name].label, clearance_mm: clearance, margin_mm: margin };
    }),
  };
}

function endNumbers({ perch, height, limit }: WindowEnd) {
  return { perch_mm: finite(perch), height_mm: finite(height), limit: limitLabel(limit) };
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

export const UNUSED_WHY: Readonly<Record<Unused['why'], string>> = {
  preloaded:
    'the fully extended damper squeezes the spring already at this perch, so that the gap says nothing of the spring: take it with the perch lower',
  'no helper': 'the combination has no helper',
  'solid not shorter':
    'the solid height would not be less than the free length: measure wire, coils and free length again',
  'on the stop':
    'the car leans on its bump stop there, whose force is not known: take the ride height with the perch higher',
  'stop on sleeve': 'the stop meets the sleeve, so that the gap does not tell where the body ends',
  'out of reach': 'no load, rate or length within reach leads to this ride height: measure perch and ride height again',
};

export const NOTES = {
  solidEstimated:
    'The spring’s solid height is still an estimate, and with it the clearance to coil bind: measure the wire and count the coils.',
  sidesDiffer:
    'Measured for both sides together, at the mean of their loads. The sides carry different loads: measured as left and right, each gets a perch height of its own.',
};

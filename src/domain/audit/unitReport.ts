/** What an audit says of one unit, from its measurements and models: the record that page, terminal and file read. */
import { findingsOf } from '../corner/findings.ts';
import { cornerState } from '../corner/state.ts';
import { failureOf } from '../reporting/failure.ts';
import type { Model } from '../tolerance/inputs.ts';
import type { Compared } from './bands.ts';
import { benchReports, numbersOf } from './cornerNumbers.ts';
import type { Corrected, StandingInference } from './corrections.ts';
import type { Expectation } from './expectation.ts';
import type { Likeliest, RankedCause } from './likeliest.ts';
import type { MeasuredUnit, Readings } from './measured.ts';
import { notes, unusedWhy } from './messages.ts';
import { withParameter } from './parameters.ts';
import { tellingMeasurement } from './tellApart.ts';
import type { CauseReport, MeasurementReport, StandingReport, UnitAudit } from './types.ts';

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
    unused: [...preloaded, ...corrected.unused].map(({ by, why }) => ({ kind: by, why: unusedWhy(why) })),
    notes: [
      ...(model.corner.spring.solid.source === 'estimated' ? [notes.solidEstimated()] : []),
      ...(found.sidesDiffer ? [notes.sidesDiffer()] : []),
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
      const perch = to === null ? null : targetPerch(withParameter(before, parameter, to));
      return { parameter, from, to, perch_mm: perch };
    }),
  };
}

function targetPerch({ site, corner }: Model): number {
  return cornerState(site, corner).standing.perch;
}

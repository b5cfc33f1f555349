/** The one measurement that would tell two causes apart, among those not yet made, else one worth making again. */
import type { Cause } from './causes.ts';
import { everything } from './everything.ts';
import type { Expectation } from './expectation.ts';
import type { MeasuredUnit, Readings } from './measured.ts';
import { type Observation, type ObservationKind, observationsOf } from './observations.ts';

/** @returns null where every measurement would be the same under both */
export function tellingMeasurement(
  one: Cause,
  other: Cause,
  { model }: Expectation,
  unit: MeasuredUnit,
  readings: Readings,
): { readonly kind: ObservationKind; readonly again: boolean } | null {
  const made = new Set(observationsOf(unit, readings).map(({ kind }) => kind));
  const contrast = (observation: Observation) => {
    const [a, b] = [one, other].map(({ model: m, marks }) => observation.predict(m, marks));
    const apart = Math.abs((a ?? Number.NaN) - (b ?? Number.NaN)) / observation.reading;
    // A measurement that was made has had its say; repeating it is worth less than a new one.
    return Number.isFinite(apart) ? apart / (made.has(observation.kind) ? AGAIN : 1) : 0;
  };
  const all = observationsOf(everything(unit, model), readings).map((o) => ({ kind: o.kind, worth: contrast(o) }));
  const best = all.reduce((a, b) => (b.worth > a.worth ? b : a));
  return best.worth > 1 ? { kind: best.kind, again: made.has(best.kind) } : null;
}

const AGAIN = 10;

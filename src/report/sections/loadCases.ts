/** Load cases of the best combination: where each wheel goes, what is left of its way, and what stops it. */
import type { Combination, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { fixed, PAGE } from '../numbers.ts';
import { type Measure, measure, quantityOf } from '../read.ts';

export interface LoadCasesView {
  readonly setup: string;
  readonly cases: readonly LoadCaseView[];
}

interface LoadCaseView {
  readonly name: string;
  /** Roll of the body, degrees; null for a load case that does not roll it. */
  readonly roll: string | null;
  readonly wheels: readonly WheelView[];
}

interface WheelView {
  readonly name: string;
  readonly height: Measure;
  readonly toStop: Measure;
  readonly intoStop: Measure;
  readonly toDroop: Measure;
  /** Metal, closed stop or full droop; or that nothing but springs, gas and an open stop hold the wheel there. */
  readonly stoppedBy: string;
}

/** Null for a setup without load cases. */
export function loadCasesView({ name, load_cases = [], shortlist: [best] }: SetupResult): LoadCasesView | null {
  if (best === undefined || load_cases.length === 0) return null;
  return { setup: name, cases: load_cases.map((title, k) => loadCaseView(best, title, k + 1)) };
}

function loadCaseView(best: Combination, name: string, n: number): LoadCaseView {
  const rolls = `case_${n}_roll_deg` in best.values;
  const wheels = AXLE_NAMES.flatMap((axle) => (rolls ? [`${axle} outer`, `${axle} inner`] : [axle]));
  return {
    name,
    roll: rolls ? fixed(quantityOf(best.values, `case_${n}_roll_deg`), 2, PAGE) : null,
    wheels: wheels.map((wheel) => wheelView(best, wheel, `case_${n}_${wheel.replace(' ', '_')}`)),
  };
}

function wheelView({ values, words = {} }: Combination, name: string, key: string): WheelView {
  const length = (stem: string) => measure(quantityOf(values, `${key}_${stem}_mm`), 'length');
  return {
    name,
    height: length('height'),
    toStop: length('to_stop'),
    intoStop: length('into_stop'),
    toDroop: length('to_droop'),
    stoppedBy: words[`${key}_stopped_by`] ?? heldBy(quantityOf(values, `${key}_into_stop_mm`)),
  };
}

/** A bend without an answer has no wheels to be held. */
function heldBy(intoStop: number | null): string {
  if (intoStop === null) return '–';
  return intoStop > 0 ? 'held by springs and open bump stop' : 'held by its springs';
}

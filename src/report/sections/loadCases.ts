/** Load cases of the best combination: where each wheel goes, what is left of its way, and what stops it. */
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { WheelKey } from '../../result/quantities/pair.ts';
import type { Combination, SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import { fixed, PAGE } from '../text/numbers.ts';
import { measure, quantityOf } from '../text/parts.ts';

export const loadCases = section({
  id: 'load-cases',
  link: 'Load cases',
  title: 'Load cases',
  view: ({ found }) => ofSetups(found.map(loadCasesView)),
  prints: false,
  leaves: 'load cases',
});

/** Null for a setup without load cases. */
export function loadCasesView({ name, load_cases = [], shortlist: [best] }: SetupResult) {
  if (best === undefined || load_cases.length === 0) return null;
  return { setup: name, cases: load_cases.map((title, k) => loadCaseView(best, title, k + 1)) };
}

function loadCaseView(best: Combination, name: string, n: number) {
  const rolls = `case_${n}_roll_deg` in best.values;
  const wheels = AXLE_NAMES.flatMap((axle) => (rolls ? ([`${axle}_outer`, `${axle}_inner`] as const) : [axle]));
  return {
    name,
    /** Roll of the body, degrees; null for a load case that does not roll it. */
    roll: rolls ? fixed(quantityOf(best.values, `case_${n}_roll_deg`), 2, PAGE) : null,
    wheels: wheels.map((wheel) => wheelView(best, wheel.replace('_', ' '), `${n}_${wheel}`)),
  };
}

function wheelView({ values, words = {} }: Combination, name: string, key: WheelKey) {
  const read = (stem: 'height' | 'to_stop' | 'into_stop' | 'to_droop') => quantityOf(values, `case_${key}_${stem}_mm`);
  const length = (stem: Parameters<typeof read>[0]) => measure(read(stem), 'length');
  return {
    name,
    height: length('height'),
    toStop: length('to_stop'),
    intoStop: length('into_stop'),
    toDroop: length('to_droop'),
    /** Metal, closed stop or full droop; or that nothing but springs, gas and an open stop hold the wheel there. */
    stoppedBy: words[`case_${key}_stopped_by`] ?? heldBy(read('into_stop')),
  };
}

/** A bend without an answer has no wheels to be held. */
function heldBy(intoStop: number | null): string {
  if (intoStop === null) return '–';
  return intoStop > 0 ? 'held by springs and open bump stop' : 'held by its springs';
}

/** What on the bench differs from the sweep, in words: the note on the page, in print, and in messages. */
import { AXLE_NAMES, type AxleName } from '../domain/scenario.ts';
import { fixed, PAGE } from '../report/numbers.ts';
import { type Bench, judge, type Values } from './bench.ts';
import type { Difference } from './kinds.ts';
import { CONTROL_LABELS, DIFFERENCES } from './words.ts';

export function differencesOf(bench: Bench, swept: Bench): Difference[] {
  const bump =
    bench.bumpLoad === swept.bumpLoad
      ? []
      : [{ axle: null, what: CONTROL_LABELS.bump, now: bumpText(bench.bumpLoad), swept: bumpText(swept.bumpLoad) }];
  return [...AXLE_NAMES.flatMap((axle) => ofAxle(bench, swept, axle)), ...bump];
}

function ofAxle(bench: Bench, swept: Bench, axle: AxleName): Difference[] {
  const [values, were] = [bench.axles[axle], swept.axles[axle]];
  const one = (what: string, now: string, before: string): Difference => ({ axle, what, now, swept: before });
  const lengths = (['trim', 'spacer', 'stop'] as const).flatMap((key) =>
    values[key] === were[key] ? [] : [one(CONTROL_LABELS[key], mm(values[key]), mm(were[key]))],
  );
  const parts = (['spring', 'helper'] as const).flatMap((kind) =>
    values[kind] === were[kind]
      ? []
      : [one(DIFFERENCES[kind], nameOf(bench, axle, kind, values), nameOf(bench, axle, kind, were))],
  );
  const load =
    values.wheelLoad === were.wheelLoad ? [] : [one(CONTROL_LABELS.load, kg(values.wheelLoad), kg(were.wheelLoad))];
  return [...parts, ...lengths, ...heightOf(bench, swept, axle), ...load];
}

/** Heights by what they come to, whichever of height and perch is held. */
function heightOf(bench: Bench, swept: Bench, axle: AxleName): Difference[] {
  const [values, were] = [bench.axles[axle], swept.axles[axle]];
  if (values.held === were.held && values.place === were.place) return [];
  const now = judge(bench, axle).state.standing;
  const before = judge(swept, axle).state.standing;
  if (Math.abs(now.height - before.height) < 0.005) return [];
  return [{ axle, what: CONTROL_LABELS.height, now: mm(now.height), swept: mm(before.height) }];
}

function nameOf({ record }: Bench, axle: AxleName, kind: 'spring' | 'helper', values: Values): string {
  return record.axles[axle].options[kind][values[kind]]?.name ?? DIFFERENCES.none;
}

function mm(value: number): string {
  return `${fixed(value, 1, PAGE)} mm`;
}

function kg(value: number): string {
  return `${fixed(value, 1, PAGE)} kg`;
}

function bumpText(multiple: number | null): string {
  return multiple === null ? DIFFERENCES.closed : DIFFERENCES.underLoad(multiple);
}

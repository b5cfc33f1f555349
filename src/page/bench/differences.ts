/** What on the bench differs from the sweep, in words: the note on the page, in print, and in messages. */

import { gapsMissed } from '../../model/corner/contacts.ts';
import * as flags from '../../model/corner/flagMessages.ts';
import type { CornerState } from '../../model/corner/state.ts';
import { stressDoubts } from '../../model/corner/stress.ts';
import { isMeasured } from '../../model/motion.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import { fixed, PAGE } from '../../report/text/numbers.ts';
import { type Bench, judge, type Values } from './bench.ts';
import { CONTROL, DIFFERENCES, type Difference, NOTES } from './words.ts';

export function differencesOf(bench: Bench, swept: Bench): Difference[] {
  const bump =
    bench.bumpLoad === swept.bumpLoad
      ? []
      : [{ axle: null, what: CONTROL.bump.label, now: bumpText(bench.bumpLoad), swept: bumpText(swept.bumpLoad) }];
  return [...AXLE_NAMES.flatMap((axle) => ofAxle(bench, swept, axle)), ...bump];
}

function ofAxle(bench: Bench, swept: Bench, axle: AxleName): Difference[] {
  const [values, were] = [bench.axles[axle], swept.axles[axle]];
  const one = (what: string, now: string, before: string): Difference => ({ axle, what, now, swept: before });
  const lengths = (['trim', 'spacer', 'stop'] as const).flatMap((key) =>
    values[key] === were[key] ? [] : [one(CONTROL[key].label, mm(values[key]), mm(were[key]))],
  );
  const parts = (['spring', 'helper'] as const).flatMap((kind) =>
    values[kind] === were[kind]
      ? []
      : [one(DIFFERENCES[kind], nameOf(bench, axle, kind, values), nameOf(bench, axle, kind, were))],
  );
  const load =
    values.wheelLoad === were.wheelLoad ? [] : [one(CONTROL.load.label, kg(values.wheelLoad), kg(were.wheelLoad))];
  return [...parts, ...lengths, ...heightOf(bench, swept, axle), ...load];
}

/** Heights by what they come to, whichever of height and perch is held. */
function heightOf(bench: Bench, swept: Bench, axle: AxleName): Difference[] {
  const [values, were] = [bench.axles[axle], swept.axles[axle]];
  if (values.held === were.held && values.place === were.place) return [];
  const now = judge(bench, axle).state.standing;
  const before = judge(swept, axle).state.standing;
  if (Math.abs(now.height - before.height) < 0.005) return [];
  return [{ axle, what: CONTROL.height.label, now: mm(now.height), swept: mm(before.height) }];
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

// What a reader must know of the numbers on the bench: estimates, and a motion curve used beyond what was measured.

export function notesOf(state: CornerState): string[] {
  return [...springNotes(state), ...motionNotes(state)];
}

function springNotes(state: CornerState): string[] {
  const { axle } = state.site;
  const { spring } = state.corner;
  const { solid, wire, name } = spring;
  const [doubts, missed] = [stressDoubts(state), gapsMissed(state)];
  return [
    ...(solid.source === 'estimated' ? [flags.estimatedSolid(axle, name, solid)] : []),
    ...(solid.source === 'wire x coils' ? [flags.wireTimesCoils(axle, name)] : []),
    ...(spring.rateEstimated ? [NOTES.estimatedRate(name)] : []),
    ...(wire === null || wire.estimated ? [flags.stressNotChecked(axle, name)] : []),
    ...(doubts.length > 0 ? [flags.stressDoubts(axle, name, doubts)] : []),
    ...(missed ? [flags.gapsMissed(axle, name, missed, wire?.estimated === true)] : []),
  ];
}

function motionNotes({ site: { motion, axle }, standing, geometry, full }: CornerState): string[] {
  const places: [string, number][] = [
    [NOTES.standing, standing.height],
    [NOTES.stop, geometry.stopHeight],
    [NOTES.full, full.height],
    [NOTES.droop, geometry.droopHeight],
  ];
  const beyond = motion.heights.length > 1 ? places.filter(([, height]) => !isMeasured(motion, height)) : [];
  return beyond.length > 0 ? [flags.outsideMotion(axle, beyond)] : [];
}

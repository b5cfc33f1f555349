/** What a reader must know of the numbers on the bench: estimates, and a motion curve used beyond what was measured. */
import { gapsMissed } from '../domain/corner/coilGaps.ts';
import type { CornerState } from '../domain/corner/state.ts';
import { stressDoubts } from '../domain/corner/stress.ts';
import * as flags from '../domain/flagMessages.ts';
import { isMeasured } from '../domain/motion.ts';
import { NOTES } from './words.ts';

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

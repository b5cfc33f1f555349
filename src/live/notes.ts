/** What a reader must know of the numbers on the bench: estimates, and a motion curve used beyond what was measured. */
import type { CornerState } from '../domain/corner/state.ts';
import { flags } from '../domain/messages.ts';
import { isMeasured } from '../domain/motion.ts';
import { NOTES } from './words.ts';

export function notesOf(state: CornerState): string[] {
  return [...springNotes(state), ...motionNotes(state)];
}

function springNotes({ corner: { spring }, site: { axle } }: CornerState): string[] {
  const { solid, wire, name } = spring;
  return [
    ...(solid.source === 'estimated' ? [flags.estimatedSolid(axle, name, solid.least, solid.height)] : []),
    ...(solid.source === 'wire x coils' ? [flags.wireTimesCoils(axle, name)] : []),
    ...(spring.rateEstimated ? [NOTES.estimatedRate(name)] : []),
    ...(wire === null || wire.estimated ? [flags.stressNotChecked(axle, name)] : []),
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

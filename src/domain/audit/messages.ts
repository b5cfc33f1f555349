/** Every sentence of an audit about what could not be used or what is wrong, as a function of its values. */
import type { Unused } from './corrections.ts';

const UNUSED: Readonly<Record<Unused['why'], string>> = {
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

export const notes = {
  solidEstimated: () =>
    'The spring’s solid height is still an estimate, and with it the clearance to coil bind: measure the wire and count the coils.',
  sidesDiffer: () =>
    'Measured for both sides together, at the mean of their loads. The sides carry different loads: measured as left and right, each gets a perch height of its own.',
};

export function unusedWhy(why: Unused['why']): string {
  return UNUSED[why];
}

/** What every check has to spare, or lacks (negative), each in its own unit: the smooth face of the findings. */
import { judgedFrequency, perchAboveClosed } from '../corner/findings.ts';
import { fitsOf } from '../corner/fit.ts';
import { standingStates } from '../corner/site.ts';
import type { CornerState } from '../corner/state.ts';
import { isStressJudged, type StressLine, stressAtFullBump, stressAtSolid } from '../corner/stress.ts';

export interface Margin {
  readonly name: string;
  readonly value: number;
}

/** Margins that sleeve and perch have a part in; the others follow from head and spring stack, as long as the stop meets the body. */
const OF_SLEEVE = /^(sleeve|perch|spring_over|helper_over|coupler_over|slack)/;

export function isOfSleeveMargin(name: string): boolean {
  return OF_SLEEVE.test(name);
}

/** In a fixed order; which fits and contacts exist depends on the parts. */
export function marginsOf(state: CornerState): Margin[] {
  const { site, corner, geometry, standing, slack } = state;
  const { target } = site;
  const margins: Margin[] = [];
  const add = (name: string, value: number) => margins.push({ name, value });
  for (const { name, spare, needed } of fitsOf(site, corner, geometry)) add(name, spare - needed);
  for (const { name, clearance, margin } of state.contacts) add(name, clearance - margin);
  for (const side of state.sides) {
    for (const { name, clearance, margin } of side.contacts) add(`${name}:${side.name}`, clearance - margin);
  }
  add('spring_force', standing.springForce);
  add('clear_of_stop', standing.height - geometry.lowestStanding);
  add('bump', state.bumpTravel - target.leastBumpTravel);
  add('droop', state.droopTravel - target.leastDroopTravel);
  for (const { load, bumpTravel, droopTravel } of state.loads) {
    add(`bump ${load.name}`, bumpTravel - target.leastBumpTravel);
    add(`droop ${load.name}`, droopTravel - target.leastDroopTravel);
  }
  for (const load of standingStates(site)) {
    add(`closed ${load.name}`, perchAboveClosed(site, corner, geometry, standing.perch, load));
  }
  add('perch_low', standing.perch - geometry.perchLowest);
  add('perch_high', geometry.perchHighest - standing.perch);
  add('slack', Math.min(target.allowedSlack, corner.perch.engagement) - slack);
  if (isStressJudged(corner.spring)) {
    const [solid, full] = [stressAtSolid(corner.spring), stressAtFullBump(state)] as [StressLine, StressLine];
    add('stress_solid', solid.allowed - solid.stress);
    add('stress_full', full.allowed - full.stress);
  }
  const frequency = judgedFrequency(state);
  add('frequency_low', frequency - target.frequencyFrom);
  add('frequency_high', target.frequencyTo - frequency);
  return margins;
}

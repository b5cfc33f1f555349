/** What every check has to spare, or lacks (negative), each in its own unit: the smooth face of the findings. */
import { judgedFrequency, stressAtFullBump } from '../corner/findings.ts';
import { fitsOf } from '../corner/fit.ts';
import type { CornerState } from '../corner/state.ts';

export function marginsOf(state: CornerState): ReadonlyMap<string, number> {
  const { site, corner, geometry, standing, slack } = state;
  const { target } = site;
  const stress = stressAtFullBump(state);
  const lowest = site.standingOnStop ? geometry.closedHeight : geometry.stopHeight;
  return new Map<string, number>([
    ...fitsOf(site, corner, geometry).map((f): [string, number] => [f.name, f.spare - f.needed]),
    ...state.contacts.map((c): [string, number] => [c.name, c.clearance - c.margin]),
    ['spring_force', standing.springForce],
    ['clear_of_stop', standing.height - lowest],
    ['bump', state.bumpTravel - target.leastBumpTravel],
    ['droop', state.droopTravel - target.leastDroopTravel],
    ...state.loads.flatMap((l, k): [string, number][] => [
      [`bump_${k}`, l.bumpTravel - target.leastBumpTravel],
      [`droop_${k}`, l.droopTravel - target.leastDroopTravel],
    ]),
    ['perch_low', standing.perch - geometry.perchLowest],
    ['perch_high', geometry.perchHighest - standing.perch],
    ['slack', Math.min(target.allowedSlack, corner.perch.engagement) - slack],
    ...(stress ? [['stress', stress.allowed - stress.stress] as [string, number]] : []),
    ['frequency_low', judgedFrequency(state) - target.frequencyFrom],
    ['frequency_high', target.frequencyTo - judgedFrequency(state)],
  ]);
}

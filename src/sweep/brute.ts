/** Every combination of a range judged one by one by the scalar model: the judge of the kernel, and its slow twin. */
import { CHECKS } from '../model/corner/checks.ts';
import { firstFailure } from '../model/corner/findings.ts';
import { cornerAt, digitsOf, stackOf } from '../model/corner/options.ts';
import { candidateOf } from '../model/corner/score.ts';
import { cornerState } from '../model/corner/state.ts';
import { heightWindow } from '../model/corner/window.ts';
import type { AxleLayout } from './layout.ts';
import { classOf, countFrequency, emptyTally, enter, PASS, type Tally, VERDICTS } from './tally.ts';

/** @param from first index, @param to one past the last */
export function sweepBrute(layout: AxleLayout, from: number, to: number): Tally {
  const { site, options, ranking } = layout;
  const tally = emptyTally(options.spring.length, layout.stacks.count);
  for (let index = from; index < to; index++) {
    const corner = cornerAt(options, index);
    const state = cornerState(site, corner);
    const failed = firstFailure(state);
    const cell = digitsOf(options, index).spring * VERDICTS + (failed === null ? PASS : CHECKS.indexOf(failed));
    tally.cells[cell] = (tally.cells[cell] as number) + 1;
    if (failed !== null) continue;
    const candidate = candidateOf(index, { state, window: heightWindow(state) }, ranking);
    countFrequency(tally, candidate.frequency, 1);
    const price = ranking.price === null ? null : candidate.price;
    enter(classOf(tally, stackOf(index, layout.stacks.count), candidate.frequency, price), candidate);
  }
  return tally;
}

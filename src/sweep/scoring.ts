/** Scoring a workable stack, but only where a bound says that it could still be kept. */
import type { Geometry } from '../domain/corner/geometry.ts';
import type { Corner } from '../domain/corner/site.ts';
import { cornerState } from '../domain/corner/state.ts';
import { heightWindow } from '../domain/corner/window.ts';
import { type Candidate, candidateOf, upperLogScore } from '../domain/ranking/criteria.ts';
import { cornerPrice } from '../domain/ranking/price.ts';
import { springStack } from '../domain/stack.ts';
import type { Desk, Round } from './desk.ts';
import type { Head } from './head.ts';
import { indexOf } from './layout.ts';
import { classOf, couldEnter, enter } from './tally.ts';

/** Bounds are made a hair too high, so that rounding never drops a candidate. */
const HAIR = 2 ** -38;

/** Scores a workable stack if it could be the best of its class. */
export function consider(round: Round, sleeveNumber: number, perchNumber: number, stack: number): void {
  const { desk, head, number } = round;
  const { layout, tally, bounds, room } = desk;
  const { ranking } = layout;
  const corner = {
    ...head.corner,
    sleeve: layout.sleeves[sleeveNumber] as Corner['sleeve'],
    perch: layout.perches[perchNumber] as Corner['perch'],
    helper: layout.stacks.helpers[stack] ?? null,
    spring: layout.stacks.springs[stack] as Corner['spring'],
  };
  const index = indexOf(layout, number, sleeveNumber, perchNumber, stack);
  const price = ranking.price === null ? null : cornerPrice(corner);
  const frequency = room.frequency[stack] as number;
  const entered = classOf(tally, stack, frequency, price);
  const worthIt = (bound: number) => couldEnter(entered, bound, index);
  if (Number.isNaN(bounds.loose[stack] as number)) {
    const travel = head.standing.height - head.geometry.stopHeight;
    bounds.loose[stack] = upperLogScore(layout.site, travel, frequency, ranking) + HAIR;
  }
  if (!worthIt(bounds.loose[stack] as number)) return;
  if (Number.isNaN(bounds.tight[stack] as number)) bounds.tight[stack] = endlessSleeveScore(desk, head, corner);
  if (!worthIt(bounds.tight[stack] as number)) return;
  enter(entered, scored(desk, corner, index, undefined));
}

/** The score on a sleeve that neither ends the perch's travel nor meets metal: no real sleeve scores more. */
function endlessSleeveScore(desk: Desk, head: Head, corner: Corner): number {
  const endless = {
    ...head.geometry,
    stack: springStack(corner.spring, corner.helper),
    sleeveTop: -1e6,
    perchLowest: Number.NEGATIVE_INFINITY,
    perchHighest: Number.POSITIVE_INFINITY,
  };
  return scored(desk, corner, 0, endless).logScore;
}

function scored(desk: Desk, corner: Corner, index: number, geometry: Geometry | undefined): Candidate {
  desk.work.scored++;
  const { site, ranking } = desk.layout;
  const state = cornerState(site, corner, undefined, geometry);
  return candidateOf(index, { state, window: heightWindow(state) }, ranking);
}

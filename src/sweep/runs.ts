/** Counting the stacks of one sleeve and perch: in runs where they differ by perch height alone, else one by one. */
import { count, type Desk, type FitMask, placesOn, type Round } from './desk.ts';
import { type HeadRoom, VERDICT } from './head.ts';
import { consider, isWorthALook } from './scoring.ts';
import { sleeveClears } from './sleeveFit.ts';
import { countFrequency, PASS } from './tally.ts';

/** Finds the run of stacks whose perch lies between its lowest and highest place, and looks at those worth a score. */
export function countRuns(round: Round, sleeve: number, perch: number): void {
  const { desk } = round;
  const { room, layout } = desk;
  const limits = placesOn(desk, sleeve, perch);
  const begin = beginOf(round, limits.perchLowest);
  const end = Math.max(
    begin,
    firstAt(room, (place) => place > limits.perchHighest),
  );
  desk.tooLow[begin] = (desk.tooLow[begin] as number) + 1;
  desk.tooHigh[end] = (desk.tooHigh[end] as number) + 1;
  desk.work.runs += layout.stacks.count;
  if (begin === end) return;
  if (round.liveCount < 0) findLive(round);
  for (let k = 0; k < round.liveCount; k++) {
    const stack = desk.live[k] as number;
    const place = room.perch[stack] as number;
    if (place >= limits.perchLowest && place <= limits.perchHighest) consider(round, sleeve, perch, stack);
  }
}

/** Where the perch is high enough; the cuts of a sleeve share it, so the last answer mostly holds. */
function beginOf(round: Round, lowest: number): number {
  if (round.lowest.value !== lowest) {
    round.lowest.value = lowest;
    round.lowest.begin = firstAt(round.desk.room, (place) => place >= lowest);
  }
  return round.lowest.begin;
}

/** Lists the workable stacks that could still be kept; most often few, since the best heads come first. */
function findLive(round: Round): void {
  const { desk } = round;
  let count = 0;
  for (let stack = 0; stack < desk.layout.stacks.count; stack++) {
    if (desk.room.late[stack] === PASS && isWorthALook(round, stack)) desk.live[count++] = stack;
  }
  round.liveCount = count;
}

/** First place in the perch order at which a condition holds that, once true, stays true. */
function firstAt({ order, perch }: HeadRoom, holds: (place: number) => boolean): number {
  let low = 0;
  let high = order.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(perch[order[middle] as number] as number)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Turns the ends of all runs of a head into counts per stack. */
export function settleRuns({ layout, room, tally, tooLow, tooHigh }: Desk, runs: number): void {
  const springs = layout.options.spring.length;
  let begun = 0;
  let ended = 0;
  for (let place = 0; place < layout.stacks.count; place++) {
    begun += tooLow[place] as number;
    ended += tooHigh[place] as number;
    const stack = room.order[place] as number;
    const spring = stack % springs;
    const inside = begun - ended;
    const late = room.late[stack] as number;
    if (begun < runs) count(tally, spring, VERDICT.perch_low, runs - begun);
    if (ended > 0) count(tally, spring, VERDICT.perch_high, ended);
    if (inside === 0) continue;
    count(tally, spring, late, inside);
    if (late === PASS) countFrequency(tally, room.frequency[stack] as number, inside);
  }
}

/** Where stacks differ in fit, full bump or load states: one by one, on the prepared columns. */
export function countSingly(round: Round, sleeve: number, perch: number, mask: FitMask): void {
  const { desk, head } = round;
  const { layout, room, tally } = desk;
  const limits = placesOn(desk, sleeve, perch);
  let clearsFrom = Number.POSITIVE_INFINITY;
  let meetsUpTo = Number.NEGATIVE_INFINITY;
  desk.work.single += layout.stacks.count;
  for (let stack = 0; stack < layout.stacks.count; stack++) {
    const full = room.leastFull[stack] as number;
    const verdict = mask.fitting[stack] === 0 ? VERDICT.fit : verdictOf(stack, full);
    count(tally, stack % layout.options.spring.length, verdict, 1);
    if (verdict !== PASS) continue;
    countFrequency(tally, room.frequency[stack] as number, 1);
    consider(round, sleeve, perch, stack);
  }

  function verdictOf(stack: number, full: number): number {
    const early = room.early[stack] as number;
    if (early === VERDICT.unloaded_spring || early === VERDICT.damper_bottoms) return early;
    if (!clears(full)) return VERDICT.sleeve_metal;
    if (early !== PASS) return early;
    const place = room.perch[stack] as number;
    if (!(place >= limits.perchLowest)) return VERDICT.perch_low;
    if (!(place <= limits.perchHighest)) return VERDICT.perch_high;
    return room.late[stack] as number;
  }

  /** A sleeve that clears at one full bump clears at every longer one, so most answers are known. */
  function clears(full: number): boolean {
    if (full >= clearsFrom) return true;
    if (full <= meetsUpTo) return false;
    const clear = sleeveClears(desk, head, sleeve, full);
    if (clear) clearsFrom = full;
    else meetsUpTo = full;
    return clear;
  }
}

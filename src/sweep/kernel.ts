/**
 * The fast sweep: exactly the counts and the best candidates of judging every combination one by one, without
 * looking at most of them.
 *
 *   head ------ what fails for all of its sleeves, perches and stacks is counted as one block
 *     sleeve -- sleeve against metal: one block for all perches and stacks
 *       perch - the stacks sorted by perch height: those too low, too high and in between are three runs, found
 *               by halving; what the rest fails is the same for every sleeve and is counted at the end of the head
 *
 * A workable stack is scored only if a bound says it could still be kept: first as on an endless sleeve that meets
 * nothing, then on its own sleeve and perch.
 */
import { bodySlop } from '../domain/corner/fit.ts';
import { geometryOf, sleeveStopsBumpStop, sleeveTopOf } from '../domain/corner/geometry.ts';
import type { Corner } from '../domain/corner/site.ts';
import { boundGrid } from './bound.ts';
import { count, type Desk, type KernelWork, newDesk, type Round } from './desk.ts';
import { enterHead, fillLate, type Head, headFitsAll, VERDICT } from './head.ts';
import { type AxleLayout, headCorner } from './layout.ts';
import { countRuns, countSingly, settleRuns } from './runs.ts';
import { clearingSleeves, fitMask } from './sleeveFit.ts';
import { PASS, type Tally } from './tally.ts';

export interface KernelOutcome {
  readonly tally: Tally;
  readonly work: KernelWork;
}

/**
 * Sweeps the heads from `from` up to, not including, `to`, in the order of `mostTravelFirst`.
 * @param next asked before each head for its place in that order; at or beyond the number of heads the sweep ends.
 * Takers that share a range are each dealt other places; by default all places come in turn
 */
export function sweepKernel(
  layout: AxleLayout,
  from: number,
  to: number,
  next: () => number = inTurn(),
): KernelOutcome {
  const desk = newDesk(layout);
  const heads = mostTravelFirst(layout, from, to);
  for (let place = next(); place < heads.length; place = next()) sweepHead(desk, heads[place] as number);
  settleBlocks(desk);
  return { tally: desk.tally, work: desk.work };
}

function inTurn(): () => number {
  let place = 0;
  return () => place++;
}

/**
 * Heads in the order of their bump travel, the most first: with the best scores found early, bounds spare most of the
 * scoring. What is counted and kept doesn't depend on the order.
 */
export function mostTravelFirst(layout: AxleLayout, from: number, to: number): number[] {
  const stopHeights = Float64Array.from({ length: to - from }, (_, k) => {
    return geometryOf(layout.site, headCorner(layout, from + k)).stopHeight;
  });
  const lower = (one: number, other: number) => (stopHeights[one] as number) - (stopHeights[other] as number);
  return Array.from(stopHeights.keys())
    .sort((one, other) => lower(one, other) || one - other)
    .map((k) => from + k);
}

/** A head is swept once for the sleeves that let the stop meet the body, and once for each that meets it itself. */
function sweepHead(desk: Desk, number: number): void {
  const { layout } = desk;
  const corner = headCorner(layout, number);
  const isProud = (k: number) => {
    const sleeve = layout.sleeves[k] as Corner['sleeve'];
    return sleeveStopsBumpStop(layout.site, { ...corner, sleeve }, sleeveTopOf(sleeve));
  };
  const proud = desk.allSleeves.filter(isProud);
  const plain = proud.length === 0 ? desk.allSleeves : desk.allSleeves.filter((k) => !proud.includes(k));
  const groups = [plain, ...proud.map((k) => [k])];
  for (const sleeves of groups.filter((group) => group.length > 0)) sweepSleeves(desk, number, corner, sleeves);
}

function sweepSleeves(desk: Desk, number: number, first: Corner, sleeves: readonly number[]): void {
  const { layout, room } = desk;
  const corner = { ...first, sleeve: layout.sleeves[sleeves[0] as number] as Corner['sleeve'] };
  const geometry = geometryOf(layout.site, corner);
  if (!headFitsAll(layout, corner, geometry)) {
    countBlock(desk, VERDICT.fit, sleeves.length * layout.perches.length);
    return;
  }
  const head = enterHead(layout, room, corner, geometry);
  const grid = boundGrid(layout, head);
  const sleeveSpares = new Float64Array(layout.sleeves.length).fill(Number.NaN);
  for (const engagement of new Set(layout.perches.map((p) => p.engagement))) {
    fillLate(layout, room, head, engagement);
    const perches = layout.perches.flatMap((p, k) => (p.engagement === engagement ? [k] : []));
    sweepPerches({
      desk,
      number,
      head,
      sleeves,
      perches,
      engagement,
      grid,
      sleeveSpares,
      liveCount: -1,
      lowest: { value: Number.NaN, begin: 0 },
    });
  }
}

function sweepPerches(round: Round): void {
  const { desk, head, sleeves, perches } = round;
  desk.bounds.fill(Number.NaN);
  desk.classes.fill(null);
  desk.scores.lowest.fill(Number.POSITIVE_INFINITY);
  desk.tooLow.fill(0);
  desk.tooHigh.fill(0);
  let runs = 0;
  const clearing = clearingSleeves(desk, head, sleeves, desk.room.leastFull[0] as number);
  for (const sleeve of sleeves) {
    const block = sleeveBlock(desk, head, sleeve, clearing);
    for (const perch of perches) {
      const mask = fitMask(desk, sleeve, perch);
      if (block === VERDICT.fit || mask.none) countBlock(desk, VERDICT.fit, 1);
      else if (!head.uniform || !mask.all) countSingly(round, sleeve, perch, mask);
      else if (block !== PASS) countBlock(desk, block, 1);
      else {
        countRuns(round, sleeve, perch);
        runs++;
      }
    }
  }
  if (runs > 0) settleRuns(desk, runs);
}

/** The verdict that all stacks on this sleeve share in a uniform head: fit, the early checks, or sleeve on metal. */
function sleeveBlock(desk: Desk, head: Head, number: number, clearing: Uint8Array): number {
  const sleeve = desk.layout.sleeves[number] as Corner['sleeve'];
  const { damper } = head.corner;
  if (!(bodySlop(sleeve, damper) >= 0)) return VERDICT.fit;
  if (!head.uniform) return PASS;
  const early = desk.room.early[0] as number;
  if (early === VERDICT.unloaded_spring || early === VERDICT.damper_bottoms) return early;
  return clearing[number] === 1 ? early : VERDICT.sleeve_metal;
}

/** All stacks of `times` sleeves and perches fall at one check. */
function countBlock(desk: Desk, verdict: number, times: number): void {
  desk.work.blocks += times * desk.layout.stacks.count;
  desk.fallen[verdict] = (desk.fallen[verdict] as number) + times;
}

/** Turns the blocks of all heads into counts per spring: the same for each. */
function settleBlocks({ layout: { options }, tally, fallen }: Desk): void {
  for (const [verdict, times] of fallen.entries()) {
    if (times === 0) continue;
    for (let spring = 0; spring < options.spring.length; spring++) {
      count(tally, spring, verdict, times * options.helper.length);
    }
  }
}

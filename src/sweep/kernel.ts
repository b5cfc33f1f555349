/**
 * The fast sweep: exactly the counts and the best candidates of judging every combination one by one, without
 * judging most of them.
 *
 *   assembly -- what fails for all of its sleeves, perches and stacks is counted as one block
 *     sleeve -- sleeve against metal: one block for all perches and stacks
 *       perch - the stacks sorted by perch height: those too low, too high and in between are three runs, found
 *               by halving; what the rest fails is the same for every sleeve and is counted at the end of the batch
 *
 * A workable stack is scored only if a bound says it could still be kept: first as on an endless sleeve that meets
 * nothing, then on its own sleeve and perch.
 */

import { bodySlop } from '../model/corner/fit.ts';
import { geometryOf } from '../model/corner/geometry.ts';
import { cornerPrice } from '../model/corner/score.ts';
import type { Corner } from '../model/corner/site.ts';
import {
  knownBound,
  limitsOn,
  looseBound,
  mostAnywhere,
  mostOfAssembly,
  mostWithin,
  newSleeveGroup,
  scoreOn,
} from './bounds.ts';
import { type AxleLayout, assemblyCorner, indexIn } from './layout.ts';
import {
  type CandidateClass,
  classOf,
  couldEnter,
  count,
  countFrequency,
  enter,
  NO_FLOOR,
  PASS,
  type Tally,
} from './tally.ts';
import { assemblyFits, enterAssembly, fillLate, VERDICT, verdictBeforePerch, verdictOn } from './verdict.ts';
import {
  type Batch,
  clearingSleeves,
  cornerIn,
  type FitMask,
  fitMask,
  type KernelWork,
  newBatch,
  newWorkspace,
  perchGroups,
  placesOn,
  sleeveGroups,
  sleeveTest,
  type Workspace,
} from './workspace.ts';

export interface KernelOutcome {
  readonly tally: Tally;
  readonly work: KernelWork;
}

/**
 * Sweeps the assemblies from `from` up to, not including, `to`, in the order of `mostTravelFirst`.
 * @param next asked before each assembly for its place in that order; at or beyond the number of assemblies the sweep ends.
 * Workers that share a range each take other places; by default all places come in turn
 */
export function sweepKernel(
  layout: AxleLayout,
  from: number,
  to: number,
  next: () => number = inTurn(),
): KernelOutcome {
  const workspace = newWorkspace(layout);
  const assemblies = mostTravelFirst(layout, from, to);
  for (let place = next(); place < assemblies.length; place = next())
    sweepAssembly(workspace, assemblies[place] as number);
  settleBlocks(workspace);
  return { tally: workspace.tally, work: workspace.work };
}

function inTurn(): () => number {
  let place = 0;
  return () => place++;
}

/**
 * Assemblies in the order of their bump travel, the most first: with the best scores found early, bounds spare most of the
 * scoring. What is counted and kept doesn't depend on the order.
 */
export function mostTravelFirst(layout: AxleLayout, from: number, to: number): number[] {
  const stopHeights = Float64Array.from({ length: to - from }, (_, k) => {
    return geometryOf(layout.site, assemblyCorner(layout, from + k)).stopHeight;
  });
  const lower = (one: number, other: number) => (stopHeights[one] as number) - (stopHeights[other] as number);
  return Array.from(stopHeights.keys())
    .sort((one, other) => lower(one, other) || one - other)
    .map((k) => from + k);
}

/** An assembly is swept once for the sleeves that let the stop meet the body, and once for each that meets it itself. */
function sweepAssembly(workspace: Workspace, number: number): void {
  const corner = assemblyCorner(workspace.layout, number);
  for (const sleeves of sleeveGroups(workspace, corner)) sweepSleeves(workspace, number, corner, sleeves);
}

function sweepSleeves(workspace: Workspace, number: number, first: Corner, sleeves: readonly number[]): void {
  const { layout, columns } = workspace;
  const corner = { ...first, sleeve: layout.sleeves[sleeves[0] as number] as Corner['sleeve'] };
  const geometry = geometryOf(layout.site, corner);
  if (mostOfAssembly(layout, geometry) < layout.floor.anywhere) return;
  if (!assemblyFits(layout, corner, geometry)) {
    countBlock(workspace, VERDICT.fit, sleeves.length * layout.perches.length);
    return;
  }
  const assembly = enterAssembly(layout, columns, corner, geometry);
  const group = newSleeveGroup(workspace, number, assembly, sleeves);
  for (const { engagement, numbers } of perchGroups(layout)) {
    fillLate(layout, columns, assembly, engagement);
    sweepPerches(newBatch(group, numbers, engagement));
  }
}

function sweepPerches(batch: Batch): void {
  const { workspace, assembly, sleeves, perches } = batch;
  if (workspace.layout.floor !== NO_FLOOR) {
    findLive(batch);
    if (batch.liveCount === 0) return;
  }
  workspace.tooLow.fill(0);
  workspace.tooHigh.fill(0);
  let runs = 0;
  const clearing = clearingSleeves(batch, workspace.columns.leastFull[0] as number);
  for (const sleeve of sleeves) {
    const block = sleeveVerdict(batch, sleeve, clearing);
    for (const perch of perches) {
      const mask = fitMask(workspace, sleeve, perch);
      if (block === VERDICT.fit || mask.none) countBlock(workspace, VERDICT.fit, 1);
      else if (!assembly.uniform || !mask.all) countSingly(batch, sleeve, perch, mask);
      else if (block !== PASS) countBlock(workspace, block, 1);
      else {
        countRuns(batch, sleeve, perch);
        runs++;
      }
    }
  }
  if (runs > 0) settleRuns(workspace, runs);
}

/** The verdict that all stacks on this sleeve share; `PASS` where they share none. */
function sleeveVerdict({ workspace, assembly }: Batch, number: number, clearing: Uint8Array): number {
  const sleeve = workspace.layout.sleeves[number] as Corner['sleeve'];
  if (!(bodySlop(sleeve, assembly.corner.damper) >= 0)) return VERDICT.fit;
  return assembly.uniform ? verdictBeforePerch(workspace.columns, 0, () => clearing[number] === 1) : PASS;
}

/** All stacks of `times` sleeves and perches fall at one check. */
function countBlock(workspace: Workspace, verdict: number, times: number): void {
  workspace.work.blocks += times * workspace.layout.stacks.count;
  workspace.fallen[verdict] = (workspace.fallen[verdict] as number) + times;
}

/** Turns the blocks of all assemblies into counts per spring: the same for each. */
function settleBlocks({ layout: { options }, tally, fallen }: Workspace): void {
  for (const [verdict, times] of fallen.entries()) {
    if (times === 0) continue;
    for (let spring = 0; spring < options.spring.length; spring++) {
      count(tally, spring, verdict, times * options.helper.length);
    }
  }
}

/** Finds the run of stacks whose perch lies between its lowest and highest place, and scores those that could be kept. */
function countRuns(batch: Batch, sleeve: number, perch: number): void {
  const { workspace } = batch;
  const { columns, layout } = workspace;
  const { perchLowest, perchHighest } = placesOn(workspace, sleeve, perch);
  const begin = beginOf(batch, perchLowest);
  const beyond = firstInOrder(workspace, (place) => place > perchHighest);
  const end = Math.max(begin, beyond);
  workspace.tooLow[begin] = (workspace.tooLow[begin] as number) + 1;
  workspace.tooHigh[end] = (workspace.tooHigh[end] as number) + 1;
  workspace.work.runs += layout.stacks.count;
  if (begin === end) return;
  if (batch.liveCount < 0) findLive(batch);
  for (let k = 0; k < batch.liveCount; k++) {
    const stack = workspace.live[k] as number;
    const place = columns.perch[stack] as number;
    if (place >= perchLowest && place <= perchHighest) consider(batch, sleeve, perch, stack);
  }
}

/** Where the perch is high enough; the cuts of a sleeve share it, so the last answer mostly holds. */
function beginOf(batch: Batch, lowest: number): number {
  if (batch.lowest.value !== lowest) {
    batch.lowest.value = lowest;
    batch.lowest.begin = firstInOrder(batch.workspace, (place) => place >= lowest);
  }
  return batch.lowest.begin;
}

/** Lists the workable stacks that could still be kept; most often few, since the best assemblies come first. */
function findLive(batch: Batch): void {
  const { workspace } = batch;
  let count = 0;
  for (let stack = 0; stack < workspace.layout.stacks.count; stack++) {
    if (workspace.columns.late[stack] === PASS && isWorthScoring(batch, stack)) workspace.live[count++] = stack;
  }
  batch.liveCount = count;
}

/** First place in the perch order at which a condition holds that, once true, stays true. */
function firstInOrder({ columns: { order, perch } }: Workspace, holds: (place: number) => boolean): number {
  // A loop of its own: `firstAt` has many callers, so what it calls is not inlined, and this runs for every perch.
  let low = 0;
  let high = order.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(perch[order[middle] as number] as number)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Turns the ends of all runs of a batch into counts per stack. */
function settleRuns({ layout, columns, tally, tooLow, tooHigh }: Workspace, runs: number): void {
  let begun = 0;
  let ended = 0;
  for (let place = 0; place < layout.stacks.count; place++) {
    begun += tooLow[place] as number;
    ended += tooHigh[place] as number;
    const stack = columns.order[place] as number;
    const spring = layout.stacks.springNumber[stack] as number;
    const inside = begun - ended;
    const late = columns.late[stack] as number;
    if (begun < runs) count(tally, spring, VERDICT.perch_low, runs - begun);
    if (ended > 0) count(tally, spring, VERDICT.perch_high, ended);
    if (inside === 0) continue;
    count(tally, spring, late, inside);
    if (late === PASS) countFrequency(tally, columns.frequency[stack] as number, inside);
  }
}

/** Where stacks differ in fit, full bump or load states: one by one, on the prepared columns. */
function countSingly(batch: Batch, sleeve: number, perch: number, { fitting }: FitMask): void {
  const { workspace, assembly } = batch;
  const { layout, columns, tally } = workspace;
  const places = placesOn(workspace, sleeve, perch);
  const clears = sleeveTest(workspace, assembly, sleeve);
  workspace.work.single += layout.stacks.count;
  for (let stack = 0; stack < layout.stacks.count; stack++) {
    const verdict = verdictOn(columns, stack, fitting[stack] === 1, clears, places);
    count(tally, layout.stacks.springNumber[stack] as number, verdict, 1);
    if (verdict !== PASS) continue;
    countFrequency(tally, columns.frequency[stack] as number, 1);
    consider(batch, sleeve, perch, stack);
  }
}

/** Scores a workable stack if it could be the best of its class. */
function consider(batch: Batch, sleeve: number, perch: number, stack: number): void {
  const entered = classIn(batch, sleeve, perch, stack);
  const index = indexIn(batch.workspace.layout, batch.number, sleeve, perch, stack);
  if (!couldEnter(entered, mostAnywhere(batch, stack), index)) return;
  const limits = limitsOn(batch, sleeve, perch);
  if (!couldEnter(entered, knownBound(batch, stack, limits), index)) return;
  if (!couldEnter(entered, mostWithin(batch, stack, limits), index)) return;
  enter(entered, scoreOn(batch, sleeve, perch, stack, index, limits));
}

/** Whether any combination of this stack in the batch could be the best of its class. */
function isWorthScoring(batch: Batch, stack: number): boolean {
  const { floor, onePrice } = batch.workspace.layout;
  if (looseBound(batch, stack) < floor.anywhere || mostAnywhere(batch, stack) < floor.anywhere) return false;
  // Where price is ranked and sleeves differ in it, each sleeve may have a class of its own.
  if (!onePrice) return true;
  const entered = classIn(batch, batch.sleeves[0] as number, batch.perches[0] as number, stack);
  return couldEnter(entered, looseBound(batch, stack), 0) && couldEnter(entered, mostAnywhere(batch, stack), 0);
}

/** The class a combination belongs to, remembered for the batch where price can't tell its sleeves apart. */
function classIn(batch: Batch, sleeve: number, perch: number, stack: number): CandidateClass {
  const { layout, tally, columns, classes } = batch.workspace;
  const known = layout.onePrice ? classes[stack] : null;
  if (known) return known;
  const price = layout.ranking.price === null ? null : cornerPrice(cornerIn(batch, sleeve, perch, stack));
  const found = classOf(tally, stack, columns.frequency[stack] as number, price, layout.floor.anywhere);
  classes[stack] = found;
  return found;
}

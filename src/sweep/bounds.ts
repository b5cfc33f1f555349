/**
 * What a corner's score is at most, cheaply, and the score itself where a bound says that it could matter: bump travel,
 * frequency and clearances as they are, and the covered share of the wanted heights from a grid.
 *
 * The force the spring must carry at a ride height doesn't depend on the spring, so it is worked out once an assembly
 * for a grid of heights; a stack's perch at each of them is then one addition and one deflection. Where the perch
 * reaches its lowest or highest place is found between two heights of the grid, and the outer one is taken: the true
 * window is never wider.
 */

import { standingAt } from '../model/corner/balance.ts';
import { contactLengths, giveFor, marginFor } from '../model/corner/contacts.ts';
import type { Geometry } from '../model/corner/geometry.ts';
import {
  type Candidate,
  candidateOf,
  cornerPrice,
  travelLogOf,
  upperLogScore,
  wantedLogOf,
} from '../model/corner/score.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import { type CornerState, cornerState, thinnestContact } from '../model/corner/state.ts';
import { type HeightWindow, heightWindow, type Working } from '../model/corner/window.ts';
import type { Ranking } from '../model/scenario.ts';
import type { Assembly } from './assembly.ts';
import { type AxleLayout, perchUnder, type StackTable } from './layout.ts';
import {
  type Batch,
  type BoundGrid,
  cornerIn,
  type FreeScore,
  type Limits,
  placesOn,
  type SleeveGroup,
  sleeveSpare,
  type Workspace,
} from './workspace.ts';

const GRID = 64;

/** Where the grid takes something away the bound is made a hair too high, so that rounding never drops a candidate. */
const HAIR = 2 ** -36;

/** Far above rounding, mm. */
const APART = 1e-6;

const ENDLESS: Limits = {
  lowest: Number.NEGATIVE_INFINITY,
  highest: Number.POSITIVE_INFINITY,
  spare: Number.POSITIVE_INFINITY,
};

export function newSleeveGroup(
  workspace: Workspace,
  number: number,
  assembly: Assembly,
  sleeves: readonly number[],
): SleeveGroup {
  const sleeveSpares = new Float64Array(workspace.layout.sleeves.length).fill(Number.NaN);
  return { workspace, number, assembly, sleeves, grid: boundGrid(workspace.layout, assembly), sleeveSpares };
}

function boundGrid(layout: AxleLayout, assembly: Assembly): BoundGrid {
  const { site } = layout;
  const { corner, geometry } = assembly;
  const { target } = site;
  const from = Math.max(target.wantedFrom, geometry.stopHeight + target.leastBumpTravel, geometry.closedHeight);
  const to = Math.min(target.wantedTo, geometry.droopHeight - target.leastDroopTravel);
  const cells = to > from ? GRID : 0;
  const step = cells > 0 ? (to - from) / cells : 0;
  const gap = new Float64Array(cells + 1);
  const force = new Float64Array(cells + 1);
  for (let k = 0; k <= cells && cells > 0; k++) {
    const standing = standingAt(site, corner, geometry, from + k * step, site.sprungLoad);
    gap[k] = standing.length - geometry.seatBelowShoulder;
    force[k] = standing.springForce;
  }
  return { from, step, cells, gap, force, spare: fixedSpare(site, assembly), travelLog: travelLogIn(layout, geometry) };
}

/** Log score that anything on an assembly has at most. */
export function mostOfAssembly(layout: AxleLayout, geometry: Geometry): number {
  return upperLogScore(travelLogIn(layout, geometry), 0);
}

function travelLogIn({ site, ranking }: AxleLayout, { stopHeight }: Geometry): number {
  return travelLogOf(site, site.target.targetHeight - stopHeight, ranking);
}

function fixedSpare(site: AxleLayout['site'], { corner, geometry }: Assembly): number {
  if (site.bump.kind !== 'closed') return Number.POSITIVE_INFINITY;
  const spares = contactLengths(site, corner, geometry, 0)
    .filter(([name]) => name !== 'coil_bind' && !name.startsWith('sleeve'))
    .map(([name, length]) => geometry.closedLength - length - giveFor(corner, name) - marginFor(site, corner, name));
  return Math.min(...spares);
}

/**
 * What only assembly and frequency decide of the score, full coverage and no thin clearance taken for granted. It is
 * the score itself, to the last bit, where nothing is taken away: equal scores go by index without being worked out.
 */
export function looseBound({ workspace, grid }: Batch, stack: number): number {
  const { layout, columns, wanted } = workspace;
  const frequency = columns.frequency[stack] as number;
  if (wanted.frequency[stack] !== frequency) {
    wanted.frequency[stack] = frequency;
    wanted.log[stack] = wantedLogOf(layout.site, frequency, layout.ranking);
  }
  return upperLogScore(grid.travelLog, wanted.log[stack] as number);
}

/** Log score that the stack has at most on any sleeve and perch of the batch, remembered; -Infinity where it is not sought. */
export function mostAnywhere(batch: Batch, stack: number): number {
  const { bounds, columns, free, layout } = batch.workspace;
  if (Number.isNaN(bounds[stack] as number)) {
    const most = boundWithin(batch, stack, ownLimits(batch, stack), ENDLESS);
    const isSought = most >= layout.floor.anywhere && most >= layout.floor.at(columns.frequency[stack] as number);
    bounds[stack] = isSought ? most : Number.NEGATIVE_INFINITY;
  }
  return Math.min(free[stack]?.logScore ?? Number.POSITIVE_INFINITY, bounds[stack] as number);
}

/**
 * Log score that the stack has at most within limits, as far as it is known. What was worked out in this batch for one
 * sleeve bounds every sleeve that holds the stack to no less, and limits that did not bind then are free: so the many
 * cuts of a sleeve that make no difference share one bound.
 */
export function knownBound({ workspace }: Batch, stack: number, limits: Limits): number {
  const { score, lowest, highest, spare } = workspace.scores;
  const known =
    limits.lowest >= (lowest[stack] as number) &&
    limits.highest <= (highest[stack] as number) &&
    limits.spare <= (spare[stack] as number);
  return known ? (score[stack] as number) : Number.POSITIVE_INFINITY;
}

/** Log score that the stack has at most within limits, by arithmetic on columns; kept for the sleeves to come. */
export function mostWithin(batch: Batch, stack: number, limits: Limits): number {
  const { free, layout } = batch.workspace;
  const own = ownLimits(batch, stack);
  const bound = boundWithin(batch, stack, own, limits);
  // More than a good clearance counts no more.
  const enough = Math.min(own.spare, layout.ranking.goodClearance ?? 0);
  keepBound(batch, stack, bound, limits, {
    lowest: limits.lowest > own.lowest,
    highest: limits.highest < own.highest,
    spare: limits.spare < enough,
  });
  return Math.min(free[stack]?.logScore ?? Number.POSITIVE_INFINITY, bound);
}

export function limitsOn(batch: Batch, sleeve: number, perch: number): Limits {
  const places = placesOn(batch.workspace, sleeve, perch);
  return { lowest: places.perchLowest, highest: places.perchHighest, spare: sleeveSpareOf(batch, sleeve) };
}

/** The corner's score, by the scalar model unless limits that do not hold it back were met before. */
export function scoreOn(
  batch: Batch,
  sleeve: number,
  perch: number,
  stack: number,
  index: number,
  limits: Limits,
): Candidate {
  const { workspace } = batch;
  const { site, ranking, judged } = workspace.layout;
  const corner = cornerIn(batch, sleeve, perch, stack);
  const free = workspace.free[stack];
  if (isLooseScore(ranking) || (free && isWithin(free, limits))) {
    const frequency = workspace.columns.frequency[stack] as number;
    return { index, frequency, price: cornerPrice(corner), logScore: free?.logScore ?? looseBound(batch, stack) };
  }
  workspace.work.scored++;
  const working = judged?.get(index) ?? judge(site, corner);
  judged?.set(index, working);
  const { state, window } = working;
  const candidate = candidateOf(index, working, ranking);
  // Under a bump load the sleeve's contacts end the window, too: nothing is remembered then.
  if (site.bump.kind === 'closed' && window !== null) remember(batch, stack, state, window, candidate, limits);
  return candidate;
}

/** Whether nothing but assembly and frequency counts. */
function isLooseScore({ weights, goodClearance }: Ranking): boolean {
  return weights.height_coverage === 0 && (weights.clearance === 0 || goodClearance === null);
}

function judge(site: Site, corner: Corner): Working {
  const state = cornerState(site, corner);
  return { state, window: heightWindow(state) };
}

/** Remembers what held the score back: nothing of the sleeve and perch, or some of their limits. */
function remember(
  batch: Batch,
  stack: number,
  state: CornerState,
  { low, high }: HeightWindow,
  { logScore }: Candidate,
  limits: Limits,
): void {
  const { free, layout } = batch.workspace;
  const thin = thinnestContact(state);
  const spare = thin.clearance - thin.margin;
  const bySleeve = thin.name.startsWith('sleeve');
  if (low.limit !== 'perch_low' && high.limit !== 'perch_high' && !bySleeve) {
    const reach = { lowest: low.perch - APART, highest: high.perch + APART, spare: Math.max(0, spare) + APART };
    free[stack] = { logScore, ...reach };
    return;
  }
  keepBound(batch, stack, logScore, limits, {
    lowest: low.limit === 'perch_low',
    highest: high.limit === 'perch_high',
    // More than a good clearance counts no more, so only a thinner one of the sleeve's own holds the score back.
    spare: bySleeve && spare < (layout.ranking.goodClearance ?? 0),
  });
}

function isWithin(free: FreeScore, { lowest, highest, spare }: Limits): boolean {
  return lowest <= free.lowest && highest >= free.highest && spare >= free.spare;
}

/** @param binds which of the limits hold the score back; the others are free */
function keepBound(
  { workspace: { scores } }: Batch,
  stack: number,
  bound: number,
  limits: Limits,
  binds: Readonly<Record<keyof Limits, boolean>>,
): void {
  scores.score[stack] = bound;
  scores.lowest[stack] = binds.lowest ? limits.lowest : ENDLESS.lowest;
  scores.highest[stack] = binds.highest ? limits.highest : ENDLESS.highest;
  scores.spare[stack] = binds.spare ? limits.spare : ENDLESS.spare;
}

function boundWithin(batch: Batch, stack: number, own: Limits, limits: Limits): number {
  const within = {
    lowest: Math.max(own.lowest, limits.lowest),
    highest: Math.min(own.highest, limits.highest),
    spare: Math.min(own.spare, limits.spare),
  };
  return looseBound(batch, stack) + takenAway(batch.workspace.layout, batch.grid, stack, within);
}

/** Whatever the sleeve: between these places the perch neither looses the spring nor lets it go solid or overstresses it. */
function ownLimits(batch: Batch, stack: number): Limits {
  const { workspace, assembly, engagement, grid } = batch;
  const { site, stacks } = workspace.layout;
  const { corner, geometry } = assembly;
  const spare = Math.min(grid.spare, coilSpare(batch, stack));
  const allowed = Math.min(site.target.allowedSlack, engagement);
  const lowest = geometry.droopLength - geometry.seatBelowShoulder - (stacks.freeLength[stack] as number) - allowed;
  // Under a bump load the damper stops earlier, so the perch may be higher than with the stop closed.
  if (site.bump.kind !== 'closed') return { lowest, highest: Number.POSITIVE_INFINITY, spare };
  const short = giveFor(corner, 'coil_bind') + (stacks.bindMargin[stack] as number);
  const shortest = Math.max((stacks.solidLength[stack] as number) + short, stacks.leastGap[stack] as number);
  return { lowest, highest: geometry.closedLength - geometry.seatBelowShoulder - shortest, spare };
}

/** Clearance of the coils beyond its margin at the target height, mm. */
function coilSpare({ workspace, assembly }: Batch, stack: number): number {
  const { columns, layout } = workspace;
  const { corner, geometry } = assembly;
  const solid = geometry.seatBelowShoulder + (layout.stacks.solidLength[stack] as number);
  const clearance = (columns.fullLength[stack] as number) - (columns.perch[stack] as number) - solid;
  return clearance - giveFor(corner, 'coil_bind') - (layout.stacks.bindMargin[stack] as number);
}

/** Least clearance of the sleeve beyond its margins, mm, worked out once a group. */
function sleeveSpareOf({ workspace, assembly, sleeveSpares }: SleeveGroup, sleeve: number): number {
  if (workspace.layout.site.bump.kind !== 'closed') return Number.POSITIVE_INFINITY;
  if (Number.isNaN(sleeveSpares[sleeve] as number)) {
    sleeveSpares[sleeve] = sleeveSpare(workspace, assembly, sleeve, assembly.geometry.closedLength);
  }
  return sleeveSpares[sleeve] as number;
}

/** What coverage and clearance take away at least within limits; exactly 0 where they take nothing. */
function takenAway(
  { site, ranking, stacks }: AxleLayout,
  grid: BoundGrid,
  stack: number,
  { lowest, highest, spare }: Limits,
): number {
  const { weights, goodClearance } = ranking;
  let taken = 0;
  if (goodClearance !== null && weights.clearance > 0) {
    taken += (weights.clearance / 2) * Math.log(Math.min(1, Math.max(0, spare / goodClearance + HAIR)));
  }
  const wanted = site.target.wantedTo - site.target.wantedFrom;
  if (weights.height_coverage === 0 || wanted <= 0) return addHair(taken);
  if (grid.cells === 0) return Number.NEGATIVE_INFINITY;
  const above = firstHeight(grid, stacks, stack, (place) => place >= lowest);
  const beyond = firstHeight(grid, stacks, stack, (place) => place > highest);
  const covered = Math.min(beyond, grid.cells) - Math.max(above - 1, 0);
  const share = Math.min(1, Math.max(0, (covered * grid.step) / wanted + HAIR));
  return addHair(taken + (weights.height_coverage / 2) * Math.log(share));
}

/** First height of the grid at which the stack's perch meets a condition that, once true, stays true. */
function firstHeight(
  { cells, gap, force }: BoundGrid,
  stacks: StackTable,
  stack: number,
  holds: (place: number) => boolean,
): number {
  // A loop of its own, as in the kernel.
  let low = 0;
  let high = cells + 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(perchUnder(stacks, stack, gap[middle] as number, force[middle] as number))) high = middle;
    else low = middle + 1;
  }
  return low;
}

function addHair(taken: number): number {
  return taken === 0 ? 0 : Math.min(0, taken + HAIR);
}

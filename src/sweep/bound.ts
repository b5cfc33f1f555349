/**
 * What a corner's score is at most, cheaply: bump travel, frequency and clearances as they are, and the covered share
 * of the wanted heights from a grid.
 *
 * The force the spring must carry at a ride height doesn't depend on the spring, so it is worked out once a head for
 * a grid of heights; a stack's perch at each of them is then one addition and one deflection. Where the perch reaches
 * its lowest or highest place is found between two heights of the grid, and the outer one is taken: the true window
 * is never wider.
 */
import { standingAt } from '../domain/corner/balance.ts';
import { contactLengths, giveFor, marginFor } from '../domain/corner/contacts.ts';
import { travelLogOf } from '../domain/ranking/criteria.ts';
import type { Head } from './head.ts';
import type { AxleLayout } from './layout.ts';

const GRID = 64;

export interface BoundGrid {
  /** Heights from the lowest to the highest that could count, mm; empty where none does. */
  readonly from: number;
  readonly step: number;
  readonly cells: number;
  /** Per height: damper length less seat depth (mm) and the force the spring must carry (N). */
  readonly gap: Float64Array;
  readonly force: Float64Array;
  /** Least clearance beyond its margin of the contacts that neither sleeve nor stack changes, mm. */
  readonly spare: number;
  /** The bump travel's part of the log score, the same for all stacks. */
  readonly travelLog: number;
}

/** Where the grid takes something away the bound is made a hair too high, so that rounding never drops a candidate. */
const HAIR = 2 ** -36;

export function boundGrid({ site, ranking }: AxleLayout, head: Head): BoundGrid {
  const { corner, geometry } = head;
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
  const travelLog = travelLogOf(site, head.standing.height - geometry.stopHeight, ranking);
  return { from, step, cells, gap, force, spare: fixedSpare(site, head), travelLog };
}

function fixedSpare(site: AxleLayout['site'], { corner, geometry }: Pick<Head, 'corner' | 'geometry'>): number {
  if (site.bump.kind !== 'closed') return Number.POSITIVE_INFINITY;
  const spares = contactLengths(site, corner, geometry, 0)
    .filter(([name]) => name !== 'coil_bind' && !name.startsWith('sleeve'))
    .map(([name, length]) => geometry.closedLength - length - giveFor(corner, name) - marginFor(site, corner, name));
  return Math.min(...spares);
}

/**
 * What coverage and clearance take away at least; exactly 0 where they take nothing.
 * @param lowest, highest places the perch may have, mm
 * @param spare least clearance beyond its margin, mm; Infinity where unknown
 */
export function takenAway(
  { site, ranking, stacks }: AxleLayout,
  grid: BoundGrid,
  stack: number,
  lowest: number,
  highest: number,
  spare: number,
): number {
  const { weights, goodClearance } = ranking;
  let taken = 0;
  if (goodClearance !== null && weights.clearance > 0) {
    taken += (weights.clearance / 2) * Math.log(Math.min(1, Math.max(0, spare / goodClearance + HAIR)));
  }
  const wanted = site.target.wantedTo - site.target.wantedFrom;
  if (weights.height_coverage === 0 || wanted <= 0) return spared(taken);
  if (grid.cells === 0) return Number.NEGATIVE_INFINITY;
  const above = firstHeight(grid, stacks, stack, (place) => place >= lowest);
  const beyond = firstHeight(grid, stacks, stack, (place) => place > highest);
  const covered = Math.min(beyond, grid.cells) - Math.max(above - 1, 0);
  const share = Math.min(1, Math.max(0, (covered * grid.step) / wanted + HAIR));
  return spared(taken + (weights.height_coverage / 2) * Math.log(share));
}

function spared(taken: number): number {
  return taken === 0 ? 0 : Math.min(0, taken + HAIR);
}

/** First height of the grid at which the stack's perch meets a condition that, once true, stays true. */
function firstHeight(
  grid: BoundGrid,
  stacks: AxleLayout['stacks'],
  stack: number,
  holds: (place: number) => boolean,
): number {
  const mainRate = stacks.mainRate[stack] as number;
  const mainTravel = stacks.mainTravel[stack] as number;
  const helperRate = stacks.helperRate[stack] as number;
  const helperTravel = stacks.helperTravel[stack] as number;
  const freeLength = stacks.freeLength[stack] as number;
  let low = 0;
  let high = grid.cells + 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    const force = Math.max(0, grid.force[middle] as number);
    const helper = helperTravel > 0 ? Math.min(force / helperRate, helperTravel) : 0;
    const place = (grid.gap[middle] as number) - freeLength + Math.min(force / mainRate, mainTravel) + helper;
    if (holds(place)) high = middle;
    else low = middle + 1;
  }
  return low;
}

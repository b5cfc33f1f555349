/**
 * One head with all its stacks: everything that neither sleeve nor perch changes, as columns. The arithmetic is that
 * of the scalar model, operation by operation, so that verdicts agree to the last bit.
 */
import { CHECKS, type CheckName } from '../domain/checks.ts';
import { heightOn, type Standing, standingAt } from '../domain/corner/balance.ts';
import { type ContactName, contactLengths, giveFor, marginFor } from '../domain/corner/contacts.ts';
import { perchAboveClosed } from '../domain/corner/findings.ts';
import { headFits } from '../domain/corner/fit.ts';
import { fullBumpOf } from '../domain/corner/fullBump.ts';
import type { Geometry } from '../domain/corner/geometry.ts';
import { fixedRates, judgedFrequencyOf, wheelRate } from '../domain/corner/rates.ts';
import { type Corner, type Site, standingStates } from '../domain/corner/site.ts';
import { isStressJudged, type StressLine, springStress, stressAtSolid } from '../domain/corner/stress.ts';
import type { Spring } from '../domain/parts.ts';
import { forceAt, type SpringStack } from '../domain/stack.ts';
import type { AxleLayout } from './layout.ts';
import { PASS } from './tally.ts';

export const VERDICT = Object.fromEntries(CHECKS.map((name, k) => [name, k])) as Record<CheckName, number>;

/** Columns over the stacks of the head at hand; one set of buffers serves all heads of a range. */
export interface HeadRoom {
  readonly perch: Float64Array;
  readonly fullLength: Float64Array;
  /** The shortest full bump of mean load and sides: where metal meets, but for the coils. The same column without sides. */
  readonly leastFull: Float64Array;
  /** The perch on the side looked at last, and whether the coils bind on any side (1). */
  readonly sidePerch: Float64Array;
  readonly sideBinds: Uint8Array;
  readonly frequency: Float64Array;
  /** Verdict of the checks between fit and perch that the sleeve doesn't change (`PASS`: none failed). */
  readonly early: Uint8Array;
  /** Verdict of the checks after the perch's. */
  readonly late: Uint8Array;
  /** Stacks by rising perch; stays nearly sorted from head to head. */
  readonly order: Int32Array;
}

/** What a head is, besides its columns. */
export interface Head {
  readonly corner: Corner;
  readonly geometry: Geometry;
  readonly standing: Standing;
  /** True when every stack has the same full bump and the same early verdict. */
  readonly uniform: boolean;
}

export function headRoom(stacks: number, sides = 0): HeadRoom {
  const fullLength = new Float64Array(stacks);
  return {
    perch: new Float64Array(stacks),
    fullLength,
    leastFull: sides > 0 ? new Float64Array(stacks) : fullLength,
    sidePerch: new Float64Array(sides > 0 ? stacks : 0),
    sideBinds: new Uint8Array(stacks),
    frequency: new Float64Array(stacks),
    early: new Uint8Array(stacks),
    late: new Uint8Array(stacks),
    order: Int32Array.from({ length: stacks }, (_, k) => k),
  };
}

/** Whether stop, mount, isolator and rod end fit each other; no other check comes before this one. */
export function headFitsAll(layout: AxleLayout, corner: Corner, geometry: Geometry): boolean {
  return headFits(layout.site, corner, geometry).every((fit) => fit.spare >= fit.needed);
}

/** Fills the columns that come before the perch: place of the perch, full bump, early verdicts, order. */
export function enterHead(layout: AxleLayout, room: HeadRoom, corner: Corner, geometry: Geometry): Head {
  const { site } = layout;
  const standing = standingAt(site, corner, geometry, site.target.targetHeight, site.sprungLoad);
  const uniform = site.bump.kind === 'closed' && site.loads.length === 0;
  const head = { corner, geometry, standing, uniform };
  fillPerches(layout, room.perch, head);
  fillFull(layout, room.fullLength, head, site, room.perch);
  fillSides(layout, room, head);
  if (uniform || standing.springForce <= 0) room.early.fill(earlyVerdict(layout, room, head, geometry, 0));
  else fillEarly(layout, room, head);
  sortByPerch(room);
  return head;
}

function fillPerches(
  { stacks }: AxleLayout,
  perch: Float64Array,
  { standing, geometry }: Pick<Head, 'standing' | 'geometry'>,
): void {
  const { freeLength, mainRate, mainTravel, helperRate, helperTravel } = stacks;
  const force = standing.springForce;
  const gapAndPerch = standing.length - geometry.seatBelowShoulder;
  for (let k = 0; k < stacks.count; k++) {
    const travel = helperTravel[k] as number;
    const main = Math.min(force / (mainRate[k] as number), mainTravel[k] as number);
    const helper = travel > 0 ? Math.min(force / (helperRate[k] as number), travel) : 0;
    const deflection = force > 0 ? main + helper : 0;
    perch[k] = gapAndPerch - (freeLength[k] as number) + deflection;
  }
}

/** Full bump of every stack; the closed stop for all where the policy or an unloaded spring leaves nothing to solve. */
function fillFull(layout: AxleLayout, full: Float64Array, head: Head, site: Site, perch: Float64Array): void {
  if (site.bump.kind === 'closed' || head.standing.springForce <= 0) {
    full.fill(head.geometry.closedLength);
    return;
  }
  for (let k = 0; k < layout.stacks.count; k++) {
    const geometry = geometryWith(layout, head, k);
    full[k] = fullBumpOf(site, head.corner, geometry, perch[k] as number).length;
  }
}

/** On either side: its perch under its own load, its full bump, and whether its coils bind. */
function fillSides(layout: AxleLayout, room: HeadRoom, head: Head): void {
  const { sides, stacks } = layout;
  if (sides.length === 0) return;
  const { corner, geometry } = head;
  const give = giveFor(corner, 'coil_bind');
  room.leastFull.set(room.fullLength);
  room.sideBinds.fill(0);
  const sideFull = new Float64Array(stacks.count);
  for (const site of sides) {
    const standing = standingAt(site, corner, geometry, site.target.targetHeight, site.sprungLoad);
    fillPerches(layout, room.sidePerch, { standing, geometry });
    fillFull(layout, sideFull, head, site, room.sidePerch);
    for (let k = 0; k < stacks.count; k++) {
      const full = sideFull[k] as number;
      if (binds(layout, geometry, k, room.sidePerch[k] as number, full, give)) room.sideBinds[k] = 1;
      room.leastFull[k] = Math.min(room.leastFull[k] as number, full);
    }
  }
}

function binds(
  { stacks }: AxleLayout,
  { seatBelowShoulder }: Geometry,
  k: number,
  perch: number,
  full: number,
  give: number,
): boolean {
  const solidAt = perch + seatBelowShoulder + (stacks.solidLength[k] as number);
  return !(full - solidAt - give >= (stacks.bindMargin[k] as number));
}

function geometryWith({ stacks }: AxleLayout, { geometry }: Head, k: number): Geometry {
  return { ...geometry, stack: stacks.parts[k] as Geometry['stack'] };
}

function fillEarly(layout: AxleLayout, room: HeadRoom, head: Head): void {
  for (let k = 0; k < layout.stacks.count; k++) {
    room.early[k] = earlyVerdict(layout, room, head, geometryWith(layout, head, k), k);
  }
}

/** First failure among spring unloaded, damper, body, tyre, bump and droop travel, as a verdict code. */
function earlyVerdict({ site }: AxleLayout, room: HeadRoom, head: Head, geometry: Geometry, k: number): number {
  const { corner, standing } = head;
  const perch = room.perch[k] as number;
  const full = room.leastFull[k] as number;
  if (!(standing.springForce > 0)) return VERDICT.unloaded_spring;
  const lengths = contactLengths(site, corner, geometry, perch);
  const clear = (mine: (name: ContactName) => boolean) =>
    lengths.every(
      ([name, length]) => !mine(name) || full - length - giveFor(corner, name) >= marginFor(site, corner, name),
    );
  if (!clear((name) => name === 'damper')) return VERDICT.damper_bottoms;
  if (!clear((name) => name.startsWith('body'))) return VERDICT.body_metal;
  if (!clear((name) => name === 'tyre_arch')) return VERDICT.tyre_on_arch;
  const { height } = standing;
  const { leastBumpTravel, leastDroopTravel } = site.target;
  const heights = site.loads.map((load) => heightOn(site, corner, geometry, load.sprungLoad, perch));
  const bumps = [height, ...heights].every((h) => h - geometry.stopHeight >= leastBumpTravel);
  const open = standingStates(site).every((load) => perchAboveClosed(site, corner, geometry, perch, load) >= 0);
  if (!(height - geometry.lowestStanding >= 0 && bumps && open)) return VERDICT.bump_travel;
  const droops = [height, ...heights].every((h) => geometry.droopHeight - h >= leastDroopTravel);
  return droops ? PASS : VERDICT.droop_travel;
}

/** Fills frequencies and the verdicts after the perch's, for seats whose spigots hold the spring by `engagement`. */
export function fillLate(layout: AxleLayout, room: HeadRoom, head: Head, engagement: number): void {
  const { site, stacks } = layout;
  const { corner, geometry, standing } = head;
  const { target } = site;
  const seat = geometry.seatBelowShoulder;
  const give = giveFor(corner, 'coil_bind');
  const droopGap = geometry.droopLength - seat;
  const slackAllowed = Math.min(target.allowedSlack, engagement);
  const { stop, gas, settledGas, ratioSlope } = fixedRates(site, corner, geometry, standing);
  const force = standing.springForce;
  for (let k = 0; k < stacks.count; k++) {
    const perch = room.perch[k] as number;
    const full = room.fullLength[k] as number;
    const open = openRate(layout, k, force) + stop;
    const wheel = wheelRate(site, standing, open + gas, ratioSlope);
    const settled = wheelRate(site, standing, open + settledGas, ratioSlope);
    const frequency = judgedFrequencyOf(site, wheel, site.sprungMass);
    room.frequency[k] = frequency;
    if (room.sideBinds[k] === 1 || binds(layout, geometry, k, perch, full, give)) room.late[k] = VERDICT.coil_bind;
    else if (!(droopGap - perch - (stacks.freeLength[k] as number) <= slackAllowed))
      room.late[k] = VERDICT.spring_loose;
    else if (isOverstressed(layout, k, full - seat - perch)) room.late[k] = VERDICT.overstressed;
    else if (!(settled > 0 && frequency >= target.frequencyFrom && frequency <= target.frequencyTo)) {
      room.late[k] = VERDICT.frequency;
    } else room.late[k] = PASS;
  }
}

/** Rate of what is open under the standing force: `rateUnder`, on columns. */
function openRate({ stacks }: AxleLayout, k: number, force: number): number {
  if (!(force > 0)) return 0;
  const main = stacks.mainRate[k] as number;
  const helper = stacks.helperRate[k] as number;
  if (force < (stacks.knee[k] as number)) return (main * helper) / (main + helper);
  const helperClosesFirst = helper * (stacks.helperTravel[k] as number) <= main * (stacks.mainTravel[k] as number);
  return helperClosesFirst ? main : helper;
}

/** @param gap seat to seat at full bump, mm */
function isOverstressed({ stacks }: AxleLayout, k: number, gap: number): boolean {
  const part = stacks.parts[k] as SpringStack;
  const spring = stacks.springs[k] as Spring;
  if (!isStressJudged(spring)) return false;
  const deflection = Math.min(part.freeLength - gap, part.mainTravel + part.helperTravel);
  const lines = [stressAtSolid(spring), springStress(spring, forceAt(part, deflection))] as StressLine[];
  return !lines.every(({ stress, allowed }) => stress <= allowed);
}

/** Insertion sort, quick because the order hardly changes between heads; the library's sort where it does. */
function sortByPerch({ order, perch }: HeadRoom): void {
  let moves = 8 * order.length;
  for (let k = 1; k < order.length && moves > 0; k++) {
    const stack = order[k] as number;
    const place = perch[stack] as number;
    let at = k;
    for (; at > 0 && (perch[order[at - 1] as number] as number) > place; at--, moves--)
      order[at] = order[at - 1] as number;
    order[at] = stack;
  }
  if (moves <= 0) order.sort((a, b) => (perch[a] as number) - (perch[b] as number));
}

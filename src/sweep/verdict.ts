/**
 * The kernel's verdict on a combination: the first check that it fails, in the order of `CHECKS`. What the sleeve and
 * the perch do not change is worked out once an assembly, as columns, operation by operation as in the scalar model.
 */
import { heightOn, perchAboveClosed } from '../model/corner/balance.ts';
import { CHECKS, type CheckName } from '../model/corner/checks.ts';
import { type ContactName, contactLengths, giveFor, marginFor } from '../model/corner/contacts.ts';
import { damperSetFits } from '../model/corner/fit.ts';
import type { Geometry } from '../model/corner/geometry.ts';
import { fixedRates, judgedFrequencyOf, wheelRate } from '../model/corner/rates.ts';
import { type Corner, standingStates } from '../model/corner/site.ts';
import { isStressJudged, type StressLine, springStress, stressAtSolid } from '../model/corner/stress.ts';
import type { Spring } from '../model/parts.ts';
import { forceAt, type SpringStack } from '../model/stack.ts';
import { type Assembly, binds, type Columns, geometryWith, measureAssembly } from './assembly.ts';
import type { AxleLayout } from './layout.ts';
import { PASS } from './tally.ts';

/** Codes of the verdicts, besides `PASS`. */
export const VERDICT = Object.fromEntries(CHECKS.map((name, k) => [name, k])) as Record<CheckName, number>;

/** Where the perch may stand on a sleeve, mm. */
export type Places = Pick<Geometry, 'perchLowest' | 'perchHighest'>;

/**
 * The verdict on one stack on a sleeve and perch.
 * @param fits whether all parts fit each other
 * @param clears whether the sleeve keeps its margins at the stack's full bump; asked only where nothing failed before
 */
export function verdictOn(
  columns: Columns,
  stack: number,
  fits: boolean,
  clears: (stack: number) => boolean,
  places: Places,
): number {
  if (!fits) return VERDICT.fit;
  const before = verdictBeforePerch(columns, stack, clears);
  if (before !== PASS) return before;
  const place = columns.perch[stack] as number;
  if (!(place >= places.perchLowest)) return VERDICT.perch_low;
  if (!(place <= places.perchHighest)) return VERDICT.perch_high;
  return columns.late[stack] as number;
}

/** The verdict of the checks between fit and perch: in a uniform assembly all stacks on a sleeve share it. */
export function verdictBeforePerch({ early }: Columns, stack: number, clears: (stack: number) => boolean): number {
  const verdict = early[stack] as number;
  if (verdict < VERDICT.sleeve_metal) return verdict;
  return clears(stack) ? verdict : VERDICT.sleeve_metal;
}

/** Whether stop, mount, isolator and rod end fit each other; no other check comes before this one. */
export function assemblyFits(layout: AxleLayout, corner: Corner, geometry: Geometry): boolean {
  return damperSetFits(layout.site, corner, geometry).every((fit) => fit.spare >= fit.needed);
}

/** Fills the columns that come before the perch: its place, full bump, order, early verdicts. */
export function enterAssembly(layout: AxleLayout, columns: Columns, corner: Corner, geometry: Geometry): Assembly {
  const assembly = measureAssembly(layout, columns, corner, geometry);
  if (assembly.uniform || assembly.standing.springForce <= 0) {
    columns.early.fill(earlyVerdict(layout, columns, assembly, geometry, 0));
  } else fillEarly(layout, columns, assembly);
  return assembly;
}

function fillEarly(layout: AxleLayout, columns: Columns, assembly: Assembly): void {
  for (let k = 0; k < layout.stacks.count; k++) {
    columns.early[k] = earlyVerdict(layout, columns, assembly, geometryWith(layout, assembly, k), k);
  }
}

/** First failure among spring unloaded, damper, body, tyre, bump and droop travel, as a verdict code. */
function earlyVerdict(
  { site }: AxleLayout,
  columns: Columns,
  assembly: Assembly,
  geometry: Geometry,
  k: number,
): number {
  const { corner, standing } = assembly;
  const perch = columns.perch[k] as number;
  const full = columns.leastFull[k] as number;
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
export function fillLate(layout: AxleLayout, columns: Columns, assembly: Assembly, engagement: number): void {
  const { site, stacks } = layout;
  const { corner, geometry, standing } = assembly;
  const { target } = site;
  const seat = geometry.seatBelowShoulder;
  const give = giveFor(corner, 'coil_bind');
  const droopGap = geometry.droopLength - seat;
  const slackAllowed = Math.min(target.allowedSlack, engagement);
  const { stop, gas, settledGas, ratioSlope } = fixedRates(site, corner, geometry, standing);
  const force = standing.springForce;
  for (let k = 0; k < stacks.count; k++) {
    const perch = columns.perch[k] as number;
    const full = columns.fullLength[k] as number;
    const open = openRate(layout, k, force) + stop;
    const wheel = wheelRate(site, standing, open + gas, ratioSlope);
    const settled = wheelRate(site, standing, open + settledGas, ratioSlope);
    const frequency = judgedFrequencyOf(site, wheel, site.sprungMass);
    columns.frequency[k] = frequency;
    if (columns.sideBinds[k] === 1 || binds(layout, geometry, k, perch, full, give))
      columns.late[k] = VERDICT.coil_bind;
    else if (!(droopGap - perch - (stacks.freeLength[k] as number) <= slackAllowed))
      columns.late[k] = VERDICT.spring_loose;
    else if (isOverstressed(layout, k, full - seat - perch)) columns.late[k] = VERDICT.overstressed;
    else if (!(settled > 0 && frequency >= target.frequencyFrom && frequency <= target.frequencyTo)) {
      columns.late[k] = VERDICT.frequency;
    } else columns.late[k] = PASS;
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

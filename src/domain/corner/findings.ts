/**
 * The verdict on one corner: which checks it fails, by how much. A finding is numbers only; its sentence is made
 * where it is read (`messages.ts`), so that sweeping millions of corners makes no text.
 */
import { CHECKS, type CheckName, SPIGOT_ENGAGEMENT } from '../checks.ts';
import { perchFor } from './balance.ts';
import type { ContactName } from './contacts.ts';
import { type FitName, fitsOf } from './fit.ts';
import type { Geometry } from './geometry.ts';
import { type Corner, type Site, type SiteLoad, standingStates } from './site.ts';
import type { CornerState } from './state.ts';
import { isStressJudged, type StressLine, stressAtFullBump, stressAtSolid } from './stress.ts';

/** What a car misses that stands in its stop, or beyond the closed one. */
export const CLEAR_OF_STOP = 'clear of the stop';

/** Before the name of a load state that closes the stop the car may stand on. */
export const CLOSED_BY = 'closed stop:';

export interface Finding {
  readonly check: CheckName;
  /** What exactly: a fit, a contact, with `:left` or `:right` behind it at that side's load, a load state, an end of a window. */
  readonly detail: string;
  /** What was found and what it had to reach, in the check's unit. */
  readonly found: number;
  readonly needed: number;
  /** How much is missing, always positive; +Infinity where no amount would do. */
  readonly shortfall: number;
}

/** Puts what a check finds at the end of a list: most corners of a sweep find nothing, and then nothing is made. */
type Check<T> = (state: T, found: Finding[]) => void;

/** What the checks read that sleeve and perch have a part in, as long as the stop meets the body. */
export type Seated = Pick<CornerState, 'site' | 'corner' | 'geometry' | 'standing' | 'slack' | 'contacts' | 'sides'>;

const SEAT_CHECK_FUNCTIONS = {
  fit,
  sleeve_metal: (s, found) => contacts(s, found, 'sleeve_metal', (name) => name.startsWith('sleeve')),
  perch_low: (s, found) => atLeast(found, 'perch_low', 'lowest', s.standing.perch, s.geometry.perchLowest),
  perch_high: (s, found) => atMost(found, 'perch_high', 'highest', s.standing.perch, s.geometry.perchHighest),
  spring_loose: springLoose,
} satisfies Partial<Record<CheckName, Check<Seated>>>;

const CORNER_CHECK_FUNCTIONS: Readonly<Record<Exclude<CheckName, 'balance'>, Check<CornerState>>> = {
  ...SEAT_CHECK_FUNCTIONS,
  unloaded_spring: (s, found) => above(found, 'unloaded_spring', 'standing', s.standing.springForce, 0),
  damper_bottoms: (s, found) => contacts(s, found, 'damper_bottoms', (name) => name === 'damper'),
  body_metal: (s, found) => contacts(s, found, 'body_metal', (name) => name.startsWith('body')),
  tyre_on_arch: (s, found) => contacts(s, found, 'tyre_on_arch', (name) => name === 'tyre_arch'),
  bump_travel: bumpTravel,
  droop_travel: droopTravel,
  coil_bind: (s, found) => contacts(s, found, 'coil_bind', (name) => name === 'coil_bind'),
  overstressed,
  frequency,
};

const NAMES_IN_ORDER = CHECKS.filter((name) => name !== 'balance');
const IN_ORDER = NAMES_IN_ORDER.map((name) => CORNER_CHECK_FUNCTIONS[name]);
const SEAT_CHECKS: ReadonlyMap<CheckName, Check<Seated>> = new Map(
  NAMES_IN_ORDER.flatMap((name) =>
    name in SEAT_CHECK_FUNCTIONS ? [[name, CORNER_CHECK_FUNCTIONS[name] as Check<Seated>]] : [],
  ),
);

/**
 * The first check the corner fails, in the fixed order, or null when it works.
 *
 * Units: `state` of the judged corner in mm, N, Hz and MPa; result a check's name.
 * Valid: a corner judged at its target height.
 */
export function firstFailure(state: CornerState): CheckName | null {
  const found: Finding[] = [];
  for (const check of IN_ORDER) {
    check(state, found);
    if (found.length > 0) return (found[0] as Finding).check;
  }
  return null;
}

/**
 * Everything the corner fails, in the fixed order.
 *
 * Units: `state` of the judged corner in mm, N, Hz and MPa; result found and needed in the check's own unit, shortfalls above 0.
 * Valid: a corner judged at its target height.
 */
export function findingsOf(state: CornerState): Finding[] {
  const found: Finding[] = [];
  for (const check of IN_ORDER) check(state, found);
  return found;
}

/**
 * Everything the corner fails on another sleeve and perch: they carry no force and end no travel, so what all other checks
 * found stays.
 *
 * Units: `seated` the corner there, its contacts those of the sleeve, in mm; `before` what `findingsOf` found; result as that.
 * Valid: a bump stop that meets the body, before and there.
 */
export function findingsOnSeat(seated: Seated, before: readonly Finding[]): Finding[] {
  const found: Finding[] = [];
  let next = 0;
  for (const name of NAMES_IN_ORDER) {
    const check = SEAT_CHECKS.get(name);
    check?.(seated, found);
    for (; before[next]?.check === name; next++) if (!check) found.push(before[next] as Finding);
  }
  return found;
}

/**
 * The frequency the setup's limits mean: without the tyre, or with it.
 *
 * Units: `state` of the judged corner; result Hz.
 * Valid: NaN where the wheel rate is not above 0.
 */
export function judgedFrequency(state: CornerState): number {
  const { rates, site } = state;
  return site.frequencyBasis === 'ride' ? rates.rideFrequency : rates.bodyFrequency;
}

function fit({ site, corner, geometry }: Seated, found: Finding[]): void {
  for (const { name, spare, needed } of fitsOf(site, corner, geometry)) atLeast(found, 'fit', name, spare, needed);
}

/** Metal at the mean load and, where they were weighed, at the load of either side. */
function contacts(state: Seated, found: Finding[], check: CheckName, mine: (name: ContactName) => boolean): void {
  for (const { name, clearance, margin } of state.contacts) {
    if (mine(name)) atLeast(found, check, name, clearance, margin);
  }
  for (const side of state.sides) {
    for (const { name, clearance, margin } of side.contacts) {
      if (mine(name)) atLeast(found, check, `${name}:${side.name}`, clearance, margin);
    }
  }
}

function bumpTravel(state: CornerState, found: Finding[]): void {
  const { standing, geometry, site } = state;
  const least = site.target.leastBumpTravel;
  atLeast(found, 'bump_travel', CLEAR_OF_STOP, standing.height - geometry.lowestStanding, 0);
  atLeast(found, 'bump_travel', 'design load', state.bumpTravel, least);
  for (const { load, bumpTravel } of state.loads) atLeast(found, 'bump_travel', load.name, bumpTravel, least);
  for (const load of standingStates(site)) {
    const spare = perchAboveClosed(site, state.corner, geometry, standing.perch, load);
    atLeast(found, 'bump_travel', `${CLOSED_BY}${load.name}`, spare, 0);
  }
}

/**
 * How far the perch stands above the place at which the car under a load state would just close its stop. Height tells
 * nothing there: the closed stop ends it, whatever the load.
 *
 * Equation: P - P(H_closed, W_state)
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `perch` P mm, `load` in N; result mm along the damper, negative: too low.
 * Valid: a setup that may stand on its stop.
 * Source: see `standingAt`.
 */
export function perchAboveClosed(
  site: Site,
  corner: Corner,
  geometry: Geometry,
  perch: number,
  load: SiteLoad,
): number {
  return perch - perchFor(site, corner, geometry, geometry.lowestStanding, load.sprungLoad);
}

function droopTravel(state: CornerState, found: Finding[]): void {
  const least = state.site.target.leastDroopTravel;
  atLeast(found, 'droop_travel', 'design load', state.droopTravel, least);
  for (const { load, droopTravel } of state.loads) atLeast(found, 'droop_travel', load.name, droopTravel, least);
}

/** Loose beyond what the setup allows, or beyond what the seats' spigots hold whatever it allows. */
function springLoose({ slack, site, corner }: Seated, found: Finding[]): void {
  atMost(found, 'spring_loose', 'allowed slack', slack, site.target.allowedSlack);
  atMost(found, 'spring_loose', SPIGOT_ENGAGEMENT, slack, corner.perch.engagement);
}

/** Pressed solid, a property of the spring that no height changes; and at full bump. */
function overstressed(state: CornerState, found: Finding[]): void {
  const { spring } = state.corner;
  if (!isStressJudged(spring)) return;
  const [solid, full] = [stressAtSolid(spring), stressAtFullBump(state)] as [StressLine, StressLine];
  atMost(found, 'overstressed', 'solid', solid.stress, solid.allowed);
  atMost(found, 'overstressed', 'full bump', full.stress, full.allowed);
}

/** A wheel rate not above 0 once the gas has settled: the corner has no stable standing height, whatever it swings at. */
function frequency(state: CornerState, found: Finding[]): void {
  const { settledWheel } = state.rates;
  if (!(settledWheel > 0)) {
    above(found, 'frequency', 'unstable', settledWheel, 0);
    return;
  }
  const { frequencyFrom, frequencyTo } = state.site.target;
  const hertz = judgedFrequency(state);
  atLeast(found, 'frequency', 'lowest', hertz, frequencyFrom);
  atMost(found, 'frequency', 'highest', hertz, frequencyTo);
}

type Detail = FitName | ContactName | string;

function atLeast(list: Finding[], check: CheckName, detail: Detail, found: number, needed: number): void {
  if (!(found >= needed)) list.push({ check, detail, found, needed, shortfall: needed - found });
}

function atMost(list: Finding[], check: CheckName, detail: Detail, found: number, needed: number): void {
  if (!(found <= needed)) list.push({ check, detail, found, needed, shortfall: found - needed });
}

function above(list: Finding[], check: CheckName, detail: Detail, found: number, needed: number): void {
  if (!(found > needed)) list.push({ check, detail, found, needed, shortfall: needed - found });
}

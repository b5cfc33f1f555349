/**
 * The verdict on one corner: which checks it fails, by how much. A finding is numbers only; its sentence is made
 * where it is read (`messages.ts`), so that sweeping millions of corners makes no text.
 */
import { CHECKS, type CheckName } from '../checks.ts';
import { uncorrectedStress } from '../formula/coil.ts';
import { ultimateStrengthOf } from '../materials.ts';
import type { Spring } from '../parts.ts';
import type { ContactName } from './contacts.ts';
import { type FitName, fitsOf } from './fit.ts';
import { type CornerState, stackForceAtFullBump } from './state.ts';

/** Highest uncorrected stress of a cold-coiled spring as a share of its strength (EN 13906-1, from memory). */
export const STRESS_SHARE_AT_FULL_BUMP = 0.56;

export interface Finding {
  readonly check: CheckName;
  /** What exactly: a fit, a contact, a load state's name, an end of a window. */
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
export type Seated = Pick<CornerState, 'site' | 'corner' | 'geometry' | 'standing' | 'slack' | 'contacts'>;

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

export interface StressAtFullBump {
  readonly stress: number;
  readonly allowed: number;
}

/**
 * Uncorrected stress of the main spring at full bump, and what is allowed.
 *
 * Units: `state` of the judged corner in mm and N; result MPa; null ("not checked") where the wire is unknown or estimated.
 * Valid: cold-coiled springs.
 * Source: see `springStress`.
 */
export function stressAtFullBump(state: CornerState): StressAtFullBump | null {
  return springStress(state.corner.spring, stackForceAtFullBump(state));
}

/**
 * The same from the force of the spring stack; the main spring takes no more than its own solid force.
 *
 * Equation: tau = 8 min(F, k (L - S)) D / (pi d^3), allowed 0.56 R_m
 * Units: `spring` in mm and N/mm, `stackForce` F in N; result MPa; null where the wire is unknown or estimated.
 * Valid: cold-coiled springs, wire inside the range its strength constants were fitted to.
 * Source: EN 13906-1 for the share (from memory); see `uncorrectedStress`.
 */
export function springStress(spring: Spring, stackForce: number): StressAtFullBump | null {
  const { wire, bore, rate, freeLength, solid } = spring;
  if (wire === null || wire.estimated) return null;
  const force = Math.min(stackForce, rate * (freeLength - solid.height));
  const stress = uncorrectedStress(force, bore + wire.diameter, wire.diameter);
  return { stress, allowed: STRESS_SHARE_AT_FULL_BUMP * ultimateStrengthOf(wire.material, wire.diameter) };
}

function fit({ site, corner, geometry }: Seated, found: Finding[]): void {
  for (const { name, spare, needed } of fitsOf(site, corner, geometry)) atLeast(found, 'fit', name, spare, needed);
}

function contacts(state: Seated, found: Finding[], check: CheckName, mine: (name: ContactName) => boolean): void {
  for (const { name, clearance, margin } of state.contacts) {
    if (mine(name)) atLeast(found, check, name, clearance, margin);
  }
}

function bumpTravel(state: CornerState, found: Finding[]): void {
  const { standing, geometry, site } = state;
  const least = site.target.leastBumpTravel;
  const lowest = site.standingOnStop ? geometry.closedHeight : geometry.stopHeight;
  atLeast(found, 'bump_travel', 'clear of the stop', standing.height - lowest, 0);
  atLeast(found, 'bump_travel', 'design load', state.bumpTravel, least);
  for (const { load, bumpTravel } of state.loads) atLeast(found, 'bump_travel', load.name, bumpTravel, least);
}

function droopTravel(state: CornerState, found: Finding[]): void {
  const least = state.site.target.leastDroopTravel;
  atLeast(found, 'droop_travel', 'design load', state.droopTravel, least);
  for (const { load, droopTravel } of state.loads) atLeast(found, 'droop_travel', load.name, droopTravel, least);
}

/** Loose beyond what the setup allows, or beyond what the seats' spigots hold whatever it allows. */
function springLoose({ slack, site, corner }: Seated, found: Finding[]): void {
  atMost(found, 'spring_loose', 'allowed slack', slack, site.target.allowedSlack);
  atMost(found, 'spring_loose', 'spigot engagement', slack, corner.perch.engagement);
}

function overstressed(state: CornerState, found: Finding[]): void {
  const stress = stressAtFullBump(state);
  if (stress) atMost(found, 'overstressed', 'full bump', stress.stress, stress.allowed);
}

/** A wheel rate not above 0 has no frequency at all: the corner has no stable standing height. */
function frequency(state: CornerState, found: Finding[]): void {
  const { wheel } = state.rates;
  if (!(wheel > 0)) {
    above(found, 'frequency', 'unstable', wheel, 0);
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

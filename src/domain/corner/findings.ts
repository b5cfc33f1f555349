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

type Check = (state: CornerState) => Finding[];

const CORNER_CHECK_FUNCTIONS: Readonly<Record<Exclude<CheckName, 'balance'>, Check>> = {
  fit: (s) => fitsOf(s.site, s.corner, s.geometry).flatMap((f) => atLeast('fit', f.name, f.spare, f.needed)),
  unloaded_spring: (s) => above('unloaded_spring', 'standing', s.standing.springForce, 0),
  damper_bottoms: (s) => contacts(s, 'damper_bottoms', (name) => name === 'damper'),
  sleeve_metal: (s) => contacts(s, 'sleeve_metal', (name) => name.startsWith('sleeve')),
  body_metal: (s) => contacts(s, 'body_metal', (name) => name.startsWith('body')),
  tyre_on_arch: (s) => contacts(s, 'tyre_on_arch', (name) => name === 'tyre_arch'),
  bump_travel: bumpTravel,
  droop_travel: droopTravel,
  perch_low: (s) => atLeast('perch_low', 'lowest', s.standing.perch, s.geometry.perchLowest),
  perch_high: (s) => atMost('perch_high', 'highest', s.standing.perch, s.geometry.perchHighest),
  coil_bind: (s) => contacts(s, 'coil_bind', (name) => name === 'coil_bind'),
  spring_loose: springLoose,
  overstressed,
  frequency,
};

const IN_ORDER = CHECKS.filter((name) => name !== 'balance').map((name) => CORNER_CHECK_FUNCTIONS[name]);

/**
 * The first check the corner fails, in the fixed order, or null when it works.
 *
 * Units: `state` of the judged corner in mm, N, Hz and MPa; result a check's name.
 * Valid: a corner judged at its target height.
 */
export function firstFailure(state: CornerState): CheckName | null {
  for (const check of IN_ORDER) {
    const found = check(state)[0];
    if (found) return found.check;
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
  return IN_ORDER.flatMap((check) => check(state));
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

function contacts(state: CornerState, check: CheckName, mine: (name: ContactName) => boolean): Finding[] {
  return state.contacts.filter((c) => mine(c.name)).flatMap((c) => atLeast(check, c.name, c.clearance, c.margin));
}

function bumpTravel(state: CornerState): Finding[] {
  const least = state.site.target.leastBumpTravel;
  const { standing, geometry, site } = state;
  const lowest = site.standingOnStop ? geometry.closedHeight : geometry.stopHeight;
  return [
    ...atLeast('bump_travel', 'clear of the stop', standing.height - lowest, 0),
    ...atLeast('bump_travel', 'design load', state.bumpTravel, least),
    ...state.loads.flatMap((l) => atLeast('bump_travel', l.load.name, l.bumpTravel, least)),
  ];
}

function droopTravel(state: CornerState): Finding[] {
  const least = state.site.target.leastDroopTravel;
  return [
    ...atLeast('droop_travel', 'design load', state.droopTravel, least),
    ...state.loads.flatMap((l) => atLeast('droop_travel', l.load.name, l.droopTravel, least)),
  ];
}

/** Loose beyond what the setup allows, or beyond what the seats' spigots hold whatever it allows. */
function springLoose(state: CornerState): Finding[] {
  const { slack, site, corner } = state;
  return [
    ...atMost('spring_loose', 'allowed slack', slack, site.target.allowedSlack),
    ...atMost('spring_loose', 'spigot engagement', slack, corner.perch.engagement),
  ];
}

function overstressed(state: CornerState): Finding[] {
  const stress = stressAtFullBump(state);
  return stress ? atMost('overstressed', 'full bump', stress.stress, stress.allowed) : [];
}

/** A wheel rate not above 0 has no frequency at all: the corner has no stable standing height. */
function frequency(state: CornerState): Finding[] {
  const { target } = state.site;
  const unstable = above('frequency', 'unstable', state.rates.wheel, 0);
  if (unstable.length > 0) return unstable;
  const hertz = judgedFrequency(state);
  return [
    ...atLeast('frequency', 'lowest', hertz, target.frequencyFrom),
    ...atMost('frequency', 'highest', hertz, target.frequencyTo),
  ];
}

function atLeast(check: CheckName, detail: FitName | ContactName | string, found: number, needed: number): Finding[] {
  return found >= needed ? [] : [{ check, detail, found, needed, shortfall: needed - found }];
}

function atMost(check: CheckName, detail: string, found: number, needed: number): Finding[] {
  return found <= needed ? [] : [{ check, detail, found, needed, shortfall: found - needed }];
}

function above(check: CheckName, detail: string, found: number, needed: number): Finding[] {
  return found > needed ? [] : [{ check, detail, found, needed, shortfall: needed - found }];
}

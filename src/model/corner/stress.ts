/**
 * What the main spring's wire bears: its uncorrected stress at solid and at full bump, each beside what is allowed there.
 * The first belongs to the spring alone, the second to where the perch stands.
 */
import { uncorrectedStress } from '../formula/coil.ts';
import type { Spring } from '../parts.ts';
import { ultimateStrengthOf } from '../spring/strength.ts';
import { type CornerState, stackForceAtFullBump } from './state.ts';

/** Highest uncorrected stress of a cold-coiled spring pressed solid, as a share of its strength (EN 13906-1, from memory). */
const STRESS_SHARE_AT_SOLID = 0.56;
/** The same at a working length (older DIN 2089, from memory). */
const STRESS_SHARE_AT_FULL_BUMP = 0.5;

export interface StressLine {
  readonly stress: number;
  readonly allowed: number;
}

/**
 * Whether stress may reject a spring: only where its wire and its material were given. A wire without its material bears
 * what a material taken for it bears, and an estimated wire was chosen by its stress.
 *
 * Units: `spring` with its wire; result true or false.
 * Valid: any spring.
 */
export function isStressJudged({ wire }: Spring): boolean {
  return wire !== null && !wire.estimated && wire.materialGiven;
}

/**
 * Uncorrected stress of a spring pressed solid, and what is allowed there.
 *
 * Equation: tau = 8 k (L - S) D / (pi d^3), allowed 0.56 R_m
 * Units: `spring` in mm and N/mm; result MPa; null where the wire is unknown.
 * Valid: cold-coiled springs, wire inside the range its strength constants were fitted to.
 * Source: EN 13906-1 for the share (from memory); see `uncorrectedStress`.
 */
export function stressAtSolid(spring: Spring): StressLine | null {
  return stressUnder(spring, solidForceOf(spring), STRESS_SHARE_AT_SOLID);
}

/**
 * Uncorrected stress of the main spring at full bump, and what is allowed there.
 *
 * Units: `state` of the judged corner in mm and N; result MPa; null where the wire is unknown.
 * Valid: cold-coiled springs.
 * Source: see `springStress`.
 */
export function stressAtFullBump(state: CornerState): StressLine | null {
  return springStress(state.corner.spring, stackForceAtFullBump(state));
}

/**
 * The same from the force of the spring stack; the main spring takes no more than its own solid force.
 *
 * Equation: tau = 8 min(F, k (L - S)) D / (pi d^3), allowed 0.50 R_m
 * Units: `spring` in mm and N/mm, `stackForce` F in N; result MPa; null where the wire is unknown.
 * Valid: cold-coiled springs, wire inside the range its strength constants were fitted to.
 * Source: older DIN 2089 for the share (from memory); see `uncorrectedStress`.
 */
export function springStress(spring: Spring, stackForce: number): StressLine | null {
  return stressUnder(spring, Math.min(stackForce, solidForceOf(spring)), STRESS_SHARE_AT_FULL_BUMP);
}

/**
 * Force of the spring stack at which the stress allowed at full bump is reached.
 *
 * Equation: F = 0.50 R_m pi d^3 / (8 D)
 * Units: `spring` in mm and N/mm; result N; Infinity where stress does not reject, or where the spring is solid before.
 * Valid: cold-coiled springs.
 * Source: `springStress` solved for the force.
 */
export function forceAllowed(spring: Spring): number {
  const line = isStressJudged(spring) ? springStress(spring, solidForceOf(spring)) : null;
  if (line === null || line.stress <= line.allowed) return Number.POSITIVE_INFINITY;
  return (solidForceOf(spring) * line.allowed) / line.stress;
}

/** Stress at solid over strength beyond which a catalogued solid height is doubted. Common practice, no source. */
const DOUBTFUL_SHARE = 0.65;

/** Where stress goes beyond what is allowed without rejecting the spring. */
export interface StressDoubt {
  readonly place: 'solid' | 'full bump';
  readonly line: StressLine;
  /** The strength is that of a material taken for the spring's. */
  readonly isMaterialTaken: boolean;
  /** The solid height is catalogued, and so low that it may be wrong. */
  readonly isSolidDoubtful: boolean;
}

/**
 * What stress only warns of: a known wire whose material nobody named, and a catalogued solid height lower than any wire
 * should allow, often a typing error.
 *
 * Units: `state` of the judged corner in mm and N; result MPa.
 * Valid: none where stress rejects; an estimated wire is as thick as its stress allows, so only its solid height is doubted.
 */
export function stressDoubts(state: CornerState): StressDoubt[] {
  const { spring } = state.corner;
  const { wire, solid } = spring;
  if (wire === null || isStressJudged(spring)) return [];
  const lines = [stressAtSolid(spring), stressAtFullBump(state)] as [StressLine, StressLine];
  const share = (STRESS_SHARE_AT_SOLID * lines[0].stress) / lines[0].allowed;
  const isDoubtful = solid.source === 'catalogue' && share > DOUBTFUL_SHARE;
  const isShownAt = (place: StressDoubt['place'], { stress, allowed }: StressLine) =>
    wire.estimated ? place === 'solid' && isDoubtful : stress > allowed;
  return (['solid', 'full bump'] as const).flatMap((place, k) => {
    const line = lines[k] as StressLine;
    const doubt = {
      place,
      line,
      isMaterialTaken: !wire.materialGiven,
      isSolidDoubtful: place === 'solid' && isDoubtful,
    };
    return isShownAt(place, line) ? [doubt] : [];
  });
}

function solidForceOf({ rate, freeLength, solid }: Spring): number {
  return rate * (freeLength - solid.height);
}

function stressUnder({ wire, bore }: Spring, force: number, share: number): StressLine | null {
  if (wire === null) return null;
  const stress = uncorrectedStress(force, bore + wire.diameter, wire.diameter);
  return { stress, allowed: share * ultimateStrengthOf(wire.material, wire.diameter) };
}

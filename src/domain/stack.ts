/** The spring stack: one main spring, perhaps a helper and a coupler between them, in series. */
import type { Helper, Spring } from './parts.ts';

export interface SpringStack {
  /** `L0`, free length of all parts, mm. */
  readonly freeLength: number;
  /** `S0`, everything solid, mm. */
  readonly solidLength: number;
  /** Main spring: rate N/mm, travel to solid mm. */
  readonly mainRate: number;
  readonly mainTravel: number;
  /** Helper: rate N/mm, travel to block mm; rate 0 and travel 0 without a helper. */
  readonly helperRate: number;
  readonly helperTravel: number;
}

export function springStack(spring: Spring, helper: Helper | null): SpringStack {
  const extraFree = helper ? helper.freeLength + helper.coupler : 0;
  const extraSolid = helper ? helper.blockHeight + helper.coupler : 0;
  return {
    freeLength: spring.freeLength + extraFree,
    solidLength: spring.solid.height + extraSolid,
    mainRate: spring.rate,
    mainTravel: spring.freeLength - spring.solid.height,
    helperRate: helper ? helper.rate : 0,
    helperTravel: helper ? helper.freeLength - helper.blockHeight : 0,
  };
}

/**
 * Deflection of the stack under a force.
 * Equation: x = min(F/k, L - S) + min(F/k_h, L_h - S_h); 0 for F <= 0, since a spring doesn't pull.
 * Units: force N, result mm. Valid: any force; beyond the solid force the result stays at L0 - S0.
 */
export function deflectionUnder(stack: SpringStack, force: number): number {
  if (force <= 0) return 0;
  const main = Math.min(force / stack.mainRate, stack.mainTravel);
  const helper = stack.helperTravel > 0 ? Math.min(force / stack.helperRate, stack.helperTravel) : 0;
  return main + helper;
}

/**
 * Force of the stack at a deflection: the inverse of `deflectionUnder`.
 * Units: deflection mm, result N. Infinity beyond L0 - S0: a solid stack is metal.
 */
export function forceAt(stack: SpringStack, deflection: number): number {
  if (deflection <= 0) return 0;
  if (deflection > stack.mainTravel + stack.helperTravel) return Number.POSITIVE_INFINITY;
  const knee = kneeForce(stack);
  const kneeDeflection = deflectionUnder(stack, knee);
  if (deflection <= kneeDeflection) return deflection * seriesRate(stack);
  const laterRate = helperClosesFirst(stack) ? stack.mainRate : stack.helperRate;
  return knee + laterRate * (deflection - kneeDeflection);
}

/** Rate of what is still open under a force, N/mm: helper and main in series, then whichever closes later. */
export function rateUnder(stack: SpringStack, force: number): number {
  if (force < kneeForce(stack)) return seriesRate(stack);
  return helperClosesFirst(stack) ? stack.mainRate : stack.helperRate;
}

/** Force at which the first of the two goes solid, N; without a helper 0, so that the main spring alone counts. */
export function kneeForce(stack: SpringStack): number {
  if (stack.helperTravel === 0) return 0;
  return Math.min(stack.helperRate * stack.helperTravel, stack.mainRate * stack.mainTravel);
}

/** False for the odd choice of a helper that outlasts the main spring. */
export function helperClosesFirst(stack: SpringStack): boolean {
  return stack.helperRate * stack.helperTravel <= stack.mainRate * stack.mainTravel;
}

/** Force at which the whole stack is solid, N. */
export function solidForce(stack: SpringStack): number {
  return Math.max(stack.mainRate * stack.mainTravel, stack.helperRate * stack.helperTravel);
}

function seriesRate(stack: SpringStack): number {
  if (stack.helperTravel === 0) return stack.mainRate;
  return (stack.mainRate * stack.helperRate) / (stack.mainRate + stack.helperRate);
}

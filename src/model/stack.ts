/** The spring stack: one main spring, perhaps a helper and a coupler between them, in series. */
import type { Helper, Spring } from './parts.ts';

/** What the stack needs of a main spring and of a helper. */
export type MainSpring = Pick<Spring, 'freeLength' | 'rate'> & { readonly solid: Pick<Spring['solid'], 'height'> };
export type HelperSpring = Pick<Helper, 'freeLength' | 'blockHeight' | 'rate' | 'coupler'>;

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

/**
 * Main spring, helper and coupler as one stack.
 *
 * Equation: L0 = L + L_h + c; S0 = S + S_h + c
 * Units: `spring` and `helper` in mm and N/mm, `helper` null without one; result mm and N/mm.
 * Valid: solid heights below free lengths.
 * Source: parts in a row, derived.
 */
export function springStack(spring: MainSpring, helper: HelperSpring | null): SpringStack {
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
 *
 * Equation: x = min(F/k, L - S) + min(F/k_h, L_h - S_h); 0 for F <= 0, since a spring doesn't pull
 * Units: `stack` in mm and N/mm, `force` F N; result mm.
 * Valid: linear springs; beyond the solid force the result stays at L0 - S0.
 * Example: deflectionUnder({"freeLength":274,"solidLength":92,"mainRate":38,"mainTravel":144,"helperRate":3,"helperTravel":38}, 1900) = 88
 * Source: springs in series, derived; held against Bhandari, worked example of two nested springs, by test.
 */
export function deflectionUnder(stack: SpringStack, force: number): number {
  if (force <= 0) return 0;
  const main = Math.min(force / stack.mainRate, stack.mainTravel);
  const helper = stack.helperTravel > 0 ? Math.min(force / stack.helperRate, stack.helperTravel) : 0;
  return main + helper;
}

/**
 * Force of the stack at a deflection: the inverse of `deflectionUnder`.
 *
 * Units: `stack` in mm and N/mm, `deflection` mm; result N.
 * Valid: 0 for a deflection of 0 and below; Infinity beyond L0 - S0: a solid stack is metal.
 * Example: forceAt({"freeLength":274,"solidLength":92,"mainRate":38,"mainTravel":144,"helperRate":3,"helperTravel":38}, 88) = 1900
 * Source: inverse of `deflectionUnder`.
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

/**
 * Rate of what is still open under a force: helper and main in series, then whichever closes later.
 *
 * Equation: k k_h / (k + k_h) below the knee, then k (or k_h for a helper that outlasts the main spring)
 * Units: `stack` in mm and N/mm, `force` N; result N/mm.
 * Valid: below the solid force. At the knee the later rate counts.
 * Example: rateUnder({"freeLength":274,"solidLength":92,"mainRate":38,"mainTravel":144,"helperRate":3,"helperTravel":38}, 100) = 2.780
 * Source: springs in series, derived.
 */
export function rateUnder(stack: SpringStack, force: number): number {
  if (force < kneeForce(stack)) return seriesRate(stack);
  return helperClosesFirst(stack) ? stack.mainRate : stack.helperRate;
}

/**
 * Force at which the first of the two goes solid; without a helper 0, so that the main spring alone counts.
 *
 * Equation: min(k_h (L_h - S_h), k (L - S))
 * Units: `stack` in mm and N/mm; result N.
 * Valid: linear springs.
 * Example: kneeForce({"freeLength":274,"solidLength":92,"mainRate":38,"mainTravel":144,"helperRate":3,"helperTravel":38}) = 114
 * Source: springs in series, derived.
 */
export function kneeForce(stack: SpringStack): number {
  if (stack.helperTravel === 0) return 0;
  return Math.min(stack.helperRate * stack.helperTravel, stack.mainRate * stack.mainTravel);
}

/**
 * Whether the helper goes solid first; false for the odd choice of a helper that outlasts the main spring.
 *
 * Units: `stack` in mm and N/mm; result true or false.
 * Valid: true without a helper.
 * Source: see `kneeForce`.
 */
export function helperClosesFirst(stack: SpringStack): boolean {
  return stack.helperRate * stack.helperTravel <= stack.mainRate * stack.mainTravel;
}

/**
 * Force at which the whole stack is solid.
 *
 * Equation: max(k (L - S), k_h (L_h - S_h))
 * Units: `stack` in mm and N/mm; result N.
 * Valid: linear springs.
 * Example: solidForce({"freeLength":274,"solidLength":92,"mainRate":38,"mainTravel":144,"helperRate":3,"helperTravel":38}) = 5472
 * Source: springs in series, derived.
 */
export function solidForce(stack: SpringStack): number {
  return Math.max(stack.mainRate * stack.mainTravel, stack.helperRate * stack.helperTravel);
}

function seriesRate(stack: SpringStack): number {
  if (stack.helperTravel === 0) return stack.mainRate;
  return (stack.mainRate * stack.helperRate) / (stack.mainRate + stack.helperRate);
}

/** Front against rear: the one check that a corner alone cannot decide. */
import { largerIsBetter } from '../formula/desirability.ts';
import type { Balance } from '../scenario.ts';

/**
 * The ratios of rear to front frequency beyond which a pair is rejected.
 *
 * Units: `balance` dimensionless; result dimensionless.
 * Valid: any setup; the wanted window where no limits are known.
 */
export function balanceLimits(balance: Balance): { readonly from: number; readonly to: number } {
  return balance.limits ?? balance;
}

/**
 * Whether a ratio of rear to front frequency lies within the limits: the one thing about balance that rejects.
 *
 * Units: `ratio` and `balance` dimensionless; result true or false.
 * Valid: false for NaN.
 */
export function isWithinLimits(ratio: number, balance: Balance): boolean {
  const { from, to } = balanceLimits(balance);
  return ratio >= from && ratio <= to;
}

/**
 * Desirability of a ratio of rear to front frequency, in straight lines: 1 at the target, 0.5 at the ends of the wanted window,
 * 0 at the limits. Where a limit is the window's end, straight from 1 to 0.
 *
 * At the damping of most cars the ratio changes the pitch behind a bump by some 10 % or less, so being in the window is
 * worth something and being out of it no ground to reject.
 *
 * Units: `ratio` and `balance` dimensionless; result dimensionless, 0 to 1.
 * Valid: limits around the window around the target; 0 beyond the limits.
 * Example: balanceDesirability(1.3, {"target":1.1,"from":1,"to":1.2,"limits":{"from":0.8,"to":1.4}}) = 0.25
 * Source: Derringer & Suich (1980), J. Quality Technology 12(4), for the scale; the halves are an own choice; Crolla & King,
 * "Olley's 'flat ride' revisited", for how little balance does in a damped car.
 */
export function balanceDesirability(ratio: number, balance: Balance): number {
  const { target, from, to } = balance;
  const limits = balanceLimits(balance);
  return Math.min(sideOf(ratio, limits.from, from, target), sideOf(-ratio, -limits.to, -to, -target));
}

function sideOf(value: number, limit: number, end: number, target: number): number {
  if (limit === end) return largerIsBetter(value, limit, target);
  return largerIsBetter(value, limit, end) / 2 + largerIsBetter(value, end, target) / 2;
}

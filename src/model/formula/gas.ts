/** The push of a damper's gas on its rod. Pressures are gauge pressures; the gas law holds for absolute ones. */
import { STANDARD_ATMOSPHERE } from '../units.ts';

/**
 * Rod force of the gas from two measured forces, linear in stroke between them.
 *
 * Equation: F = F_out + (F_in - F_out) s / s_full
 * Units: `outForce` and `inForce` N, `fullStroke` and `stroke` mm from fully out; result N.
 * Valid: 0 <= s <= s_full; a straight line through a curve that bends upward errs by a few newtons in between.
 * Example: gasForceLinear(240, 300, 120, 40) = 260
 * Source: common practice, no source; the example derived.
 */
export function gasForceLinear(outForce: number, inForce: number, fullStroke: number, stroke: number): number {
  return outForce + ((inForce - outForce) * stroke) / fullStroke;
}

/** Absolute zero, degC (exact: ITS-90). */
const ABSOLUTE_ZERO = -273.15;

/**
 * Gauge pressure of a closed charge at another temperature: the absolute pressure goes with the absolute temperature.
 *
 * Equation: p = (p_g + p_a) (T_w + 273.15) / (T_c + 273.15) - p_a
 * Units: `chargePressure` p_g gauge MPa read at `chargeTemperature` T_c degC, `workingTemperature` T_w degC; result gauge MPa.
 * Valid: the same volume, damper fully out; nitrogen or air at some tens of bar, nearly ideal.
 * Example: pressureAtTemperature(2.5, 20, 80) = 3.032
 * Source: law of Gay-Lussac for the ideal gas; the example derived.
 */
export function pressureAtTemperature(
  chargePressure: number,
  chargeTemperature: number,
  workingTemperature: number,
): number {
  const warmer = (workingTemperature - ABSOLUTE_ZERO) / (chargeTemperature - ABSOLUTE_ZERO);
  return (chargePressure + STANDARD_ATMOSPHERE) * warmer - STANDARD_ATMOSPHERE;
}

/**
 * Rod force of the gas from the charge: the entering rod squeezes the gas.
 *
 * Equation: F = A [(p_g + p_a) (V / (V - A s))^n - p_a]
 * Units: `chargePressure` p_g gauge MPa, `rodArea` A mm^2, `gasVolume` V fully out mm^3, `stroke` s mm from fully out,
 * `exponent` n dimensionless; result N.
 * Valid: n = 1 at rest (isothermal), about 1.3 in vibration; A s < V, and Infinity where the rod would fill the gas.
 * Example: gasForceCharge(2.5, 153.938, 99714.95, 50, 1.4) = 432.51
 * Source: derived from p V^n = constant; the example derived (rod 14 mm, bore 46 mm, gas column 60 mm, 25 bar gauge).
 */
export function gasForceCharge(
  chargePressure: number,
  rodArea: number,
  gasVolume: number,
  stroke: number,
  exponent: number,
): number {
  const left = gasVolume - rodArea * stroke;
  if (left <= 0) return Number.POSITIVE_INFINITY;
  const absolute = (chargePressure + STANDARD_ATMOSPHERE) * (gasVolume / left) ** exponent;
  return rodArea * (absolute - STANDARD_ATMOSPHERE);
}

/**
 * Rate of the gas about a stroke at which it has settled: it came there slowly (isothermal) and swings from there.
 *
 * Equation: k = n p_abs A^2 / V(s), p_abs = (p_g + p_a) V / V(s), V(s) = V - A s
 * Units: `chargePressure` p_g gauge MPa, `rodArea` A mm^2, `gasVolume` V fully out mm^3, `stroke` s mm from fully out,
 * `exponent` n of the swing dimensionless; result N/mm.
 * Valid: small motions; n = 1 for what is slow (a collar being turned), about 1.3 in vibration, whatever n the pressure at s is
 * the settled one. A s < V, and Infinity where the rod would fill the gas.
 * Example: gasRate(2.5, 153.938, 99714.95, 0, 1.4) = 0.8655
 * Source: derived from p V^n = constant; the example derived (same damper as above).
 */
export function gasRate(
  chargePressure: number,
  rodArea: number,
  gasVolume: number,
  stroke: number,
  exponent: number,
): number {
  const left = gasVolume - rodArea * stroke;
  if (left <= 0) return Number.POSITIVE_INFINITY;
  const absolute = (chargePressure + STANDARD_ATMOSPHERE) * (gasVolume / left);
  return (exponent * absolute * rodArea ** 2) / left;
}

/** Weighing a wheel with a scale too small for it. */

/**
 * Load on a wheel that stands on a level plank between a pivot and a scale.
 *
 * Equation: m = (reading - tare) * b / a
 * Units: `reading` and `tare` (the scale with the plank alone) in kg; `wheelArm` a and `scaleArm` b, level distances from the pivot to the middle of the tyre's contact and to the middle of the scale's bearing, mm; result kg.
 * Valid: 0 < a <= b, the plank level, every wheel of the car raised to the same height; a plank that sags or binds at the pivot reads wrong.
 * Example: leverLoad(95, 7, 500, 1500) = 264
 * Source: moments about the pivot, statics (the law of the lever; Archimedes, On the Equilibrium of Planes, book I, propositions 6 and 7).
 */
export function leverLoad(reading: number, tare: number, wheelArm: number, scaleArm: number): number {
  return ((reading - tare) * scaleArm) / wheelArm;
}

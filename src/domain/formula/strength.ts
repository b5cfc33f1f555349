/** Strength of spring wire against its diameter. */

/**
 * Tensile strength of spring wire of a diameter: drawing hardens thin wire more.
 *
 * Equation: R_m = A / d^m
 * Units: `constant` A MPa mm^m, `exponent` m dimensionless, `diameter` d mm; result MPa.
 * Valid: the diameters the constants were fitted to (see `materials.ts`); beyond them it is an extrapolation.
 * Example: tensileStrength(2211, 0.145, 2.5) = 1936
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-14; Problem 10-3 for the example.
 */
export function tensileStrength(constant: number, exponent: number, diameter: number): number {
  return constant / diameter ** exponent;
}

/** Helical compression springs of round wire: rate, stress, coil counts, solid height, mass, surge, buckling. */

/** How the ends are formed: `closed` is also called squared; `ground` ends are ground flat. */
export type EndType = 'plain' | 'plain_ground' | 'closed' | 'closed_ground';

/** Inactive coils, and wire diameters the stack is taller than total coils x wire (Shigley, Table 10-1). */
const ENDS: Readonly<Record<EndType, { readonly inactive: number; readonly taller: number }>> = {
  plain: { inactive: 0, taller: 1 },
  plain_ground: { inactive: 1, taller: 0 },
  closed: { inactive: 2, taller: 1 },
  closed_ground: { inactive: 2, taller: 0 },
};

/**
 * Rate of a helical compression spring.
 *
 * Equation: k = G d^4 / (8 D^3 n)
 * Units: `shearModulus` G MPa, `wire` d mm, `meanDiameter` D mm, `activeCoils` n dimensionless; result N/mm.
 * Valid: D/d from 4 to 20, at least 2 active coils, deflection short of coil bind (EN 15800's scope).
 * Example: springRate(79000, 12.5, 76, 5) = 109.8
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-9; example: D. Wright,
 * University of Western Australia design notes, spring problem 2 (prints 110 N/mm).
 */
export function springRate(shearModulus: number, wire: number, meanDiameter: number, activeCoils: number): number {
  return (shearModulus * wire ** 4) / (8 * meanDiameter ** 3 * activeCoils);
}

/**
 * Active coils that give a rate: `springRate` solved for n.
 *
 * Equation: n = G d^4 / (8 D^3 k)
 * Units: `shearModulus` G MPa, `wire` d mm, `meanDiameter` D mm, `rate` k N/mm; result dimensionless.
 * Valid: as `springRate`; a result below 2 is no spring EN 15800 covers.
 * Example: activeCoilsForRate(77200, 4, 40, 3.3333) = 11.6
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-9; Problem 10-6 for the
 * example.
 */
export function activeCoilsForRate(shearModulus: number, wire: number, meanDiameter: number, rate: number): number {
  return (shearModulus * wire ** 4) / (8 * meanDiameter ** 3 * rate);
}

/**
 * Spring index: how tightly the wire is wound, on which the stress factors and the ease of winding depend.
 *
 * Equation: C = D / d
 * Units: `meanDiameter` D mm, `wire` d mm; result dimensionless.
 * Valid: any; EN 15800 covers 4 to 20, and 4 to 12 is preferred.
 * Example: springIndex(28.5, 2.5) = 11.4
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-2; Problem 10-3 for the
 * example.
 */
export function springIndex(meanDiameter: number, wire: number): number {
  return meanDiameter / wire;
}

/**
 * Torsional stress in the wire without any curvature factor: what static limits such as the solid-height share
 * of the strength are stated on.
 *
 * Equation: tau = 8 F D / (pi d^3)
 * Units: `force` F N, `meanDiameter` D mm, `wire` d mm; result MPa.
 * Valid: any force; the true stress at the inner side of the coil is higher by a curvature factor.
 * Example: uncorrectedStress(423.80208, 36, 6) = 179.87
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-1; the example derived.
 */
export function uncorrectedStress(force: number, meanDiameter: number, wire: number): number {
  return (8 * force * meanDiameter) / (Math.PI * wire ** 3);
}

/**
 * Wahl's factor: curvature and direct shear together.
 *
 * Equation: K_W = (4C - 1)/(4C - 4) + 0.615/C
 * Units: `index` C = D/d dimensionless; result dimensionless.
 * Valid: C from 4 to 12 in practice; C > 1.
 * Example: wahlFactor(12) = 1.1194
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-4 and Problem 10-1; the
 * example derived.
 */
export function wahlFactor(index: number): number {
  return (4 * index - 1) / (4 * index - 4) + 0.615 / index;
}

/**
 * Bergstraesser's factor: within 1.4 % of Wahl's, and the simpler of the two.
 *
 * Equation: K_B = (4C + 2)/(4C - 3), equal to EN 13906-1's k = (w + 0.5)/(w - 0.75) for every index
 * Units: `index` C = D/d dimensionless; result dimensionless.
 * Valid: C from 4 to 12 in practice; C > 0.75.
 * Example: bergstraesserFactor(11.4) = 1.117
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-5 and Problem 10-3.
 */
export function bergstraesserFactor(index: number): number {
  return (4 * index + 2) / (4 * index - 3);
}

/**
 * Direct-shear factor: the share of direct shear alone, without curvature.
 *
 * Equation: K_S = 1 + 1/(2C)
 * Units: `index` C = D/d dimensionless; result dimensionless.
 * Valid: C from 4 to 12 in practice; C > 0.
 * Example: directShearFactor(6.08) = 1.0822
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-3; the example derived.
 */
export function directShearFactor(index: number): number {
  return 1 + 1 / (2 * index);
}

/**
 * Coils that do not deflect, by end type.
 *
 * Equation: N_t - N_a: plain 0, plain ground 1, closed 2, closed ground 2
 * Units: `ends` one of the four end types; result dimensionless.
 * Valid: cold-coiled springs; books differ (1.5 or 2 for closed ends), this is Shigley's convention.
 * Example: inactiveCoils("closed_ground") = 2
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Table 10-1.
 */
export function inactiveCoils(ends: EndType): number {
  return ENDS[ends].inactive;
}

/**
 * Solid (block) height from wire and counted coils.
 *
 * Equation: L_s = d (N_t + e), e = 1 for unground ends, 0 for ground ends
 * Units: `wire` d mm (over the coating, where there is one), `totalCoils` N_t dimensionless, `ends` one of the four
 * end types; result mm.
 * Valid: evenly wound wire of its nominal diameter. For unground ends it is the bare helix of touching turns; real end
 * coils tilt, see `greatestSolidHeight`.
 * Example: solidHeight(4, 11.6, "plain") = 50.4
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Table 10-1; Problem 10-6 for the
 * example.
 */
export function solidHeight(wire: number, totalCoils: number, ends: EndType): number {
  return wire * (totalCoils + ENDS[ends].taller);
}

/**
 * Greatest solid height of cold-coiled springs: the safe side for judging coil bind.
 *
 * Equation: L_c = d N_t for ground ends, L_c = d (N_t + 1.5) for unground ends
 * Units: `wire` d mm (its greatest diameter, over the coating where there is one), `totalCoils` N_t dimensionless,
 * `ends` one of the four end types; result mm.
 * Valid: cold-coiled springs. The touching helix alone is d (N_t + 1); the other half wire allows for tilted ends.
 * Example: greatestSolidHeight(10, 8, "closed") = 95
 * Source: EN 13906-1, from memory; the example derived.
 */
export function greatestSolidHeight(wire: number, totalCoils: number, ends: EndType): number {
  return wire * (totalCoils + 1.5 * ENDS[ends].taller);
}

/**
 * Length of wire in a number of coils.
 *
 * Equation: l = pi D N
 * Units: `meanDiameter` D mm, `coils` N dimensionless; result mm.
 * Valid: the pitch angle is neglected, under 1 % up to 8 degrees.
 * Example: wireLength(76, 7) = 1671.3
 * Source: derived; the example derived.
 */
export function wireLength(meanDiameter: number, coils: number): number {
  return Math.PI * meanDiameter * coils;
}

/**
 * Mass of the wire in a number of coils.
 *
 * Equation: m = rho pi^2 d^2 D N / 4
 * Units: `wire` d mm, `meanDiameter` D mm, `coils` N dimensionless, `density` rho kg/mm^3; result kg.
 * Valid: N total coils for the whole spring (ground ends weigh a little less), N active coils for surge; the pitch
 * angle is neglected, under 1 % up to 8 degrees.
 * Example: springMass(12.5, 76, 7, 7.85e-6) = 1.610
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., sec. 10-8; the example derived.
 */
export function springMass(wire: number, meanDiameter: number, coils: number, density: number): number {
  return (density * wireLength(meanDiameter, coils) * Math.PI * wire ** 2) / 4;
}

/**
 * First surge frequency: the coils swinging between two held ends.
 *
 * Equation: f = (1/2) sqrt(1000 k / m), which equals d / (2 pi n D^2) sqrt(G / (2 rho))
 * Units: `rate` k N/mm, `activeMass` m of the active coils kg; result Hz.
 * Valid: both ends held between seats, no coil touching another.
 * Example: surgeFrequency(1.7512683524647636, 0.039386) = 105.43
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-25; example: 8th ed.
 * solutions manual, Problem 10-26, p. 278 (10 lbf/in; prints 105.433 Hz).
 */
export function surgeFrequency(rate: number, activeMass: number): number {
  return 0.5 * Math.sqrt((1000 * rate) / activeMass);
}

/**
 * Slenderness ratio of a compression spring.
 *
 * Equation: lambda = alpha L_0 / D
 * Units: `freeLength` L_0 mm, `meanDiameter` D mm, `endCondition` alpha dimensionless; result dimensionless.
 * Valid: alpha 0.5 between flat parallel seats, 0.707 one seat flat and the other hinged, 1 both hinged, 2 one end free.
 * Example: slendernessRatio(162.8, 28.5, 0.5) = 2.856
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-11 and Table 10-2; the
 * example derived from Problem 10-3.
 */
export function slendernessRatio(freeLength: number, meanDiameter: number, endCondition: number): number {
  return (endCondition * freeLength) / meanDiameter;
}

/**
 * Slenderness ratio up to which a spring cannot buckle at any deflection.
 *
 * Equation: lambda_0 = pi sqrt(2 (E - G) / (2 G + E))
 * Units: `elasticModulus` E and `shearModulus` G in the same unit; result dimensionless.
 * Valid: E > G > 0; for steel the result is close to 2.63.
 * Example: slendernessLimit(30, 11.5) = 2.62
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-12 and 10-13 (2.63 for
 * steel); the example derived.
 */
export function slendernessLimit(elasticModulus: number, shearModulus: number): number {
  return Math.PI * Math.sqrt((2 * (elasticModulus - shearModulus)) / (2 * shearModulus + elasticModulus));
}

/**
 * Deflection at which a spring without a guide buckles.
 *
 * Equation: y = L_0 E/(2 (E - G)) (1 - sqrt(1 - (lambda_0/lambda)^2)); Infinity where lambda <= lambda_0. The
 * criterion of EN 13906-1, s_K = L_0 0.5/(1 - G/E) (1 - sqrt(1 - (1 - G/E)/(0.5 + G/E) (pi D/(nu L_0))^2)), is the
 * same equation with nu for alpha.
 * Units: `freeLength` L_0 mm, `meanDiameter` D mm, `endCondition` alpha dimensionless, `elasticModulus` E and
 * `shearModulus` G in the same unit; result mm.
 * Valid: E > G > 0; alpha as in `slendernessRatio`. A spring on a sleeve rests on the sleeve instead of buckling away.
 * Example: criticalDeflection(400, 70, 0.5, 206000, 79500) = 194.6
 * Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th/11th ed., Eq. 10-10 to 10-12; EN 13906-1
 * from memory; the example derived.
 */
export function criticalDeflection(
  freeLength: number,
  meanDiameter: number,
  endCondition: number,
  elasticModulus: number,
  shearModulus: number,
): number {
  const share =
    slendernessLimit(elasticModulus, shearModulus) / slendernessRatio(freeLength, meanDiameter, endCondition);
  if (share >= 1) return Number.POSITIVE_INFINITY;
  const scale = elasticModulus / (2 * (elasticModulus - shearModulus));
  return freeLength * scale * (1 - Math.sqrt(1 - share * share));
}

/**
 * Least sum of the gaps between coils that a spring should keep under its highest static load: closer than this
 * single coils start to touch and the rate rises.
 *
 * Equation: S_a = n (0.0015 D^2/d + 0.1 d)
 * Units: `wire` d mm, `meanDiameter` D mm, `activeCoils` n dimensionless; result mm.
 * Valid: cold-coiled springs under static load; under shock or vibration the standard asks for more.
 * Example: leastGapSum(10, 72, 8) = 14.2
 * Source: EN 13906-1, from memory; the example derived.
 */
export function leastGapSum(wire: number, meanDiameter: number, activeCoils: number): number {
  return activeCoils * ((0.0015 * meanDiameter ** 2) / wire + 0.1 * wire);
}

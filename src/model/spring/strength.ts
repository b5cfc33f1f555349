/**
 * Strength of spring wire against its diameter. Apart from the other figures of a material, so that a page which only
 * judges stress carries no more; their sources stand with the rest in `materials.ts`.
 */

/** R_m = A/d^m: A in MPa mm^m, d in mm. */
export interface Strength {
  readonly strengthConstant: number;
  readonly strengthExponent: number;
}

export const STRENGTH = {
  music_wire: { strengthConstant: 2211, strengthExponent: 0.145 },
  hard_drawn: { strengthConstant: 1783, strengthExponent: 0.19 },
  oil_tempered: { strengthConstant: 1855, strengthExponent: 0.187 },
  chrome_vanadium: { strengthConstant: 2005, strengthExponent: 0.168 },
  chrome_silicon: { strengthConstant: 1974, strengthExponent: 0.108 },
  chrome_silicon_en: { strengthConstant: 1974, strengthExponent: 0.108 },
} as const satisfies Record<string, Strength>;

/** @throws RangeError for a name that is not in the table: readers of files check names before they get here. */
export function materialIn<T extends object>(table: T, name: string): T[keyof T] {
  if (!Object.hasOwn(table, name)) throw new RangeError(`no material ${name}; known: ${Object.keys(table).join(', ')}`);
  return table[name as keyof T];
}

/** R_m of a wire, MPa; diameter in mm. Beyond the fitted range it is an extrapolation, which `validity.ts` flags. */
export function ultimateStrengthOf(material: string, diameter: number): number {
  const { strengthConstant, strengthExponent } = materialIn(STRENGTH, material);
  return tensileStrength(strengthConstant, strengthExponent, diameter);
}

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

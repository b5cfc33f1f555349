/**
 * Spring wire: moduli, strength constants and density, each with its source.
 *
 * The American and European figures for the same steel differ by 3 % in G, and so in the rate of a given geometry;
 * so both stand here under names of their own, and the shear modulus of an estimate can be given outright.
 */

import { materialIn, STRENGTH, type Strength } from './strength.ts';

/** A value that holds up to a wire diameter (mm), in MPa. */
interface Band {
  readonly upTo: number;
  readonly value: number;
}

export interface Material extends Strength {
  readonly label: string;
  /** E and G, MPa, by wire diameter, thin wire first; the last band has no end. */
  readonly elasticModulus: readonly Band[];
  readonly shearModulus: readonly Band[];
  /** Wire diameters the strength constants were fitted to, mm. */
  readonly fittedFrom: number;
  readonly fittedTo: number;
  /** Torsional yield strength over tensile strength, dimensionless. */
  readonly torsionalYieldShare: number;
  /** kg/mm^3 */
  readonly density: number;
  readonly sources: {
    readonly elasticModulus: string;
    readonly shearModulus: string;
    readonly strength: string;
    readonly fittedRange: string;
    readonly torsionalYield: string;
    readonly density: string;
  };
}

const SHIGLEY_MODULI =
  'Budynas & Nisbett, Shigley’s Mechanical Engineering Design, 9th ed., Table 10-5, p. 526; ' +
  'Machinery’s Handbook, 31st ed., Table 20, p. 346 (they agree)';
const HANDBOOK_MODULI = 'Machinery’s Handbook, 31st ed., Table 20, p. 346';
const SHIGLEY_STRENGTH =
  'Budynas & Nisbett, Shigley’s Mechanical Engineering Design, 10th/11th ed., constants of the worked problems of ch. 10';
const MEMORY = 'from memory';
const TABLE_10_4 = 'from memory (Shigley’s Mechanical Engineering Design, Table 10-4)';
const SHIGLEY_YIELD = 'Shigley’s Mechanical Engineering Design, 10th/11th ed., worked problems of ch. 10';
const STEEL = { density: 7.85e-6, source: 'from memory (EN 13906-1: 7.85 kg/dm3)' };

/** Edges of the tables' bands: 0.032, 0.063 and 0.125 in. */
const THIN = 0.8128;
const MIDDLE = 1.6002;
const THICK = 3.175;
const makeBands = (a: number, b: number, c: number, d: number): readonly Band[] => [
  { upTo: THIN, value: a },
  { upTo: MIDDLE, value: b },
  { upTo: THICK, value: c },
  { upTo: Number.POSITIVE_INFINITY, value: d },
];
const makeOneBand = (value: number): readonly Band[] => [{ upTo: Number.POSITIVE_INFINITY, value }];

const SHIGLEY_SOURCES: Material['sources'] = {
  elasticModulus: SHIGLEY_MODULI,
  shearModulus: SHIGLEY_MODULI,
  strength: SHIGLEY_STRENGTH,
  fittedRange: TABLE_10_4,
  torsionalYield: SHIGLEY_YIELD,
  density: STEEL.source,
};

export const MATERIALS = {
  music_wire: {
    label: 'music wire (ASTM A228)',
    elasticModulus: makeBands(203_400, 200_000, 196_500, 193_000),
    shearModulus: makeBands(82_700, 81_700, 81_000, 80_000),
    ...STRENGTH.music_wire,
    fittedFrom: 0.1,
    fittedTo: 6.5,
    torsionalYieldShare: 0.45,
    density: STEEL.density,
    sources: SHIGLEY_SOURCES,
  },
  hard_drawn: {
    label: 'hard-drawn wire (ASTM A227)',
    // 28.8, 28.7, 28.6, 28.5 Mpsi; the tables print G in both systems.
    elasticModulus: makeBands(198_600, 197_900, 197_200, 196_500),
    shearModulus: makeBands(80_700, 80_000, 79_300, 78_600),
    ...STRENGTH.hard_drawn,
    fittedFrom: 0.7,
    fittedTo: 12.7,
    torsionalYieldShare: 0.45,
    density: STEEL.density,
    sources: SHIGLEY_SOURCES,
  },
  oil_tempered: {
    label: 'oil-tempered wire (ASTM A229)',
    elasticModulus: makeOneBand(196_500),
    shearModulus: makeOneBand(77_200),
    ...STRENGTH.oil_tempered,
    fittedFrom: 0.5,
    fittedTo: 12.7,
    torsionalYieldShare: 0.5,
    density: STEEL.density,
    sources: SHIGLEY_SOURCES,
  },
  chrome_vanadium: {
    label: 'chrome-vanadium wire (ASTM A232)',
    elasticModulus: makeOneBand(203_400),
    shearModulus: makeOneBand(77_200),
    ...STRENGTH.chrome_vanadium,
    fittedFrom: 0.8,
    fittedTo: 11.1,
    torsionalYieldShare: 0.65,
    density: STEEL.density,
    sources: {
      elasticModulus:
        'Shigley’s Mechanical Engineering Design, 9th ed., Table 10-5, p. 526 (Machinery’s Handbook, 31st ed., has 28.5 Mpsi, 196.5 GPa)',
      shearModulus: SHIGLEY_MODULI,
      strength: TABLE_10_4,
      fittedRange: TABLE_10_4,
      torsionalYield: MEMORY,
      density: STEEL.source,
    },
  },
  chrome_silicon: {
    label: 'chrome-silicon wire (ASTM A401)',
    elasticModulus: makeOneBand(203_400),
    shearModulus: makeOneBand(77_200),
    ...STRENGTH.chrome_silicon,
    fittedFrom: 1.6,
    fittedTo: 9.5,
    torsionalYieldShare: 0.65,
    density: STEEL.density,
    sources: {
      elasticModulus: HANDBOOK_MODULI,
      shearModulus: HANDBOOK_MODULI,
      strength: TABLE_10_4,
      fittedRange: TABLE_10_4,
      torsionalYield: MEMORY,
      density: STEEL.source,
    },
  },
  chrome_silicon_en: {
    label: 'chrome-silicon wire, European moduli (EN 10270-2)',
    elasticModulus: makeOneBand(206_000),
    shearModulus: makeOneBand(79_500),
    ...STRENGTH.chrome_silicon_en,
    fittedFrom: 1.6,
    fittedTo: 9.5,
    torsionalYieldShare: 0.65,
    density: STEEL.density,
    sources: {
      elasticModulus: 'from memory (EN 10270-2)',
      shearModulus: 'from memory (EN 10270-2)',
      strength: 'from memory (the American constants of the same steel; the European standard tabulates classes)',
      fittedRange: TABLE_10_4,
      torsionalYield: MEMORY,
      density: STEEL.source,
    },
  },
} as const satisfies Record<string, Material>;

export type MaterialName = keyof typeof MATERIALS;
export const MATERIAL_NAMES = Object.keys(MATERIALS) as readonly MaterialName[];

/** Which steels a spring of unknown wire may be of. */
export const GRADES = {
  any: { label: 'any spring wire, hard-drawn included', steels: MATERIAL_NAMES },
  tempered: {
    label: 'oil-tempered or alloyed wire, not hard-drawn',
    steels: MATERIAL_NAMES.filter((name) => name !== 'hard_drawn'),
  },
  alloy: {
    label: 'chrome-vanadium or chrome-silicon wire',
    steels: MATERIAL_NAMES.filter((name) => name.startsWith('chrome_')),
  },
} as const satisfies Record<string, { readonly label: string; readonly steels: readonly MaterialName[] }>;
export type Grade = keyof typeof GRADES;
export const GRADE_NAMES = Object.keys(GRADES) as readonly Grade[];

/** @throws RangeError for a name that is not in the table. */
export function materialOf(name: string): Material {
  return materialIn(MATERIALS, name);
}

/** G of a wire, MPa; diameter in mm. */
export function shearModulusOf(material: string, diameter: number): number {
  return findInBand(materialOf(material).shearModulus, diameter);
}

/** E of a wire, MPa; diameter in mm. */
export function elasticModulusOf(material: string, diameter: number): number {
  return findInBand(materialOf(material).elasticModulus, diameter);
}

function findInBand(bands: readonly Band[], diameter: number): number {
  const band = bands.find((b) => diameter <= b.upTo);
  if (band === undefined) throw new RangeError(`no wire of ${diameter} mm`);
  return band.value;
}

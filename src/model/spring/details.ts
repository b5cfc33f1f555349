/** What a spring's wire says about it beyond rate and solid height: shown as information, never a verdict. */
import {
  bergstraesserFactor,
  criticalDeflection,
  slendernessRatio,
  springIndex,
  springMass,
  springRate,
  surgeFrequency,
  uncorrectedStress,
} from '../formula/coil.ts';
import type { Spring, WireData } from '../parts.ts';
import { elasticModulusOf, type Material, materialOf, shearModulusOf } from './materials.ts';
import { ultimateStrengthOf } from './strength.ts';

/** Ends of a spring for buckling (EN 13906-1, from memory): both between flat, parallel seats, or one seat that can tilt. */
export const SEATS = { flat: 0.5, tilting: 0.7 } as const;
type Seats = keyof typeof SEATS;

export interface SpringDetails {
  /** Everything below follows from estimated wire. */
  readonly estimated: boolean;
  /** Mean coil diameter, mm, and spring index. */
  readonly meanDiameter: number;
  readonly index: number;
  /** kg */
  readonly mass: number;
  /** Hz */
  readonly surgeFrequency: number;
  /** Uncorrected and Bergstraesser stress at solid, and the wire's tensile strength, MPa. */
  readonly stressAtSolid: number;
  readonly correctedStressAtSolid: number;
  readonly tensileStrength: number;
  /** Slenderness, and the deflection at which an unguided spring buckles, mm; Infinity: never. */
  readonly slenderness: Readonly<Record<Seats, number>>;
  readonly criticalDeflection: Readonly<Record<Seats, number>>;
  /** Travel to solid over free length, dimensionless. */
  readonly workingShare: number;
  /** Rate that wire, coils and bore would give with the material's own G, N/mm: to hold against the given rate. */
  readonly rateFromGeometry: number;
  readonly breaches: readonly Breach[];
}

/** Null where neither wire nor an estimate of it exists. The bore is taken as bare: a coating adds under 0.5 % to D. */
export function springDetails(spring: Spring): SpringDetails | null {
  const { wire } = spring;
  if (wire === null) return null;
  const meanDiameter = spring.bore + wire.diameter;
  return {
    estimated: wire.estimated,
    meanDiameter,
    index: springIndex(meanDiameter, wire.diameter),
    ...vibrationOf(spring, wire, meanDiameter),
    ...stressOf(spring, wire, meanDiameter),
    ...stabilityOf(spring, wire, meanDiameter),
    workingShare: (spring.freeLength - spring.solid.height) / spring.freeLength,
    breaches: breachesOf(spring, wire, meanDiameter),
  };
}

function vibrationOf(spring: Spring, wire: WireData, meanDiameter: number) {
  const { density } = materialOf(wire.material);
  const activeMass = springMass(wire.diameter, meanDiameter, wire.activeCoils, density);
  return {
    mass: springMass(wire.diameter, meanDiameter, wire.totalCoils, density),
    surgeFrequency: surgeFrequency(spring.rate, activeMass),
  };
}

function stressOf(spring: Spring, wire: WireData, meanDiameter: number) {
  const force = spring.rate * (spring.freeLength - spring.solid.height);
  const stressAtSolid = uncorrectedStress(force, meanDiameter, wire.diameter);
  return {
    stressAtSolid,
    correctedStressAtSolid: stressAtSolid * bergstraesserFactor(springIndex(meanDiameter, wire.diameter)),
    tensileStrength: ultimateStrengthOf(wire.material, wire.diameter),
  };
}

function stabilityOf(spring: Spring, wire: WireData, meanDiameter: number) {
  const elastic = elasticModulusOf(wire.material, wire.diameter);
  const shear = shearModulusOf(wire.material, wire.diameter);
  return {
    slenderness: forSeats((seats) => slendernessRatio(spring.freeLength, meanDiameter, seats)),
    criticalDeflection: forSeats((seats) => criticalDeflection(spring.freeLength, meanDiameter, seats, elastic, shear)),
    rateFromGeometry: springRate(shear, wire.diameter, meanDiameter, wire.activeCoils),
  };
}

function forSeats(compute: (factor: number) => number): Record<Seats, number> {
  return { flat: compute(SEATS.flat), tilting: compute(SEATS.tilting) };
}

function breachesOf(spring: Spring, wire: WireData, meanDiameter: number): Breach[] {
  const measures = {
    wire: wire.diameter,
    index: springIndex(meanDiameter, wire.diameter),
    'mean diameter': meanDiameter,
    'free length': spring.freeLength,
    'active coils': wire.activeCoils,
  };
  return breaches(measures, wire.material);
}

// Ranges inside which the spring formulas are known to hold. Outside them a number is still given, and flagged:
// each row says what it bounds, from where to where, and who says so.

export interface ValidityRow {
  readonly id: ValidityId;
  readonly what: string;
  /** Unit of `from` and `to`: `mm`, or empty for a pure number. */
  readonly unit: 'mm' | '';
  readonly quantity: 'wire' | 'index' | 'mean diameter' | 'free length' | 'active coils';
  /** Null: no bound on that side. */
  readonly from: number | null;
  readonly to: number | null;
  readonly source: string;
}

type ValidityId = 'strength_fit' | 'wire' | 'index' | 'mean_diameter' | 'free_length' | 'active_coils';

const EN_15800 = 'EN 15800, scope: cold-coiled compression springs';

/** The rows that hold for every material. */
export const VALIDITY: readonly ValidityRow[] = [
  {
    id: 'wire',
    what: 'wire of cold-coiled springs',
    quantity: 'wire',
    unit: 'mm',
    from: 0.07,
    to: 16,
    source: EN_15800,
  },
  { id: 'index', what: 'spring index D/d', quantity: 'index', unit: '', from: 4, to: 20, source: EN_15800 },
  {
    id: 'mean_diameter',
    what: 'mean coil diameter',
    quantity: 'mean diameter',
    unit: 'mm',
    from: 0.63,
    to: 200,
    source: EN_15800,
  },
  {
    id: 'free_length',
    what: 'free length',
    quantity: 'free length',
    unit: 'mm',
    from: null,
    to: 630,
    source: EN_15800,
  },
  { id: 'active_coils', what: 'active coils', quantity: 'active coils', unit: '', from: 2, to: null, source: EN_15800 },
];

/** The wire diameters a material's strength constants were fitted to: beyond, the strength is an extrapolation. */
export function strengthFit(material: string): ValidityRow {
  const { label, fittedFrom, fittedTo, sources }: Material = materialOf(material);
  return {
    id: 'strength_fit',
    what: `strength constants of ${label}`,
    quantity: 'wire',
    unit: 'mm',
    from: fittedFrom,
    to: fittedTo,
    source: sources.fittedRange,
  };
}

export interface Breach {
  readonly row: ValidityRow;
  readonly value: number;
}

/** The rows a spring's measures fall outside of; lengths in mm. */
function breaches(measures: Readonly<Record<ValidityRow['quantity'], number>>, material: string): Breach[] {
  return [strengthFit(material), ...VALIDITY]
    .map((row) => ({ row, value: measures[row.quantity] }))
    .filter(({ row, value }) => value < (row.from ?? value) || value > (row.to ?? value));
}

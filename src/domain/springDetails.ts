/** What a spring's wire says about it beyond rate and solid height: shown as information, never a verdict. */
import {
  bergstraesserFactor,
  criticalDeflection,
  leastGapSum,
  slendernessRatio,
  springIndex,
  springMass,
  springRate,
  surgeFrequency,
  uncorrectedStress,
} from './formula/coil.ts';
import { elasticModulusOf, materialOf, shearModulusOf, ultimateStrengthOf } from './materials.ts';
import type { Spring, WireData } from './parts.ts';
import { type Breach, breaches } from './validity.ts';

/** Both ends between flat, parallel seats. */
const FLAT_SEATS = 0.5;

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
  /** Slenderness between flat seats, and the deflection at which an unguided spring buckles, mm; Infinity: never. */
  readonly slenderness: number;
  readonly criticalDeflection: number;
  /** Sum of gaps between coils the spring should keep, mm. */
  readonly leastGapSum: number;
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
    leastGapSum: leastGapSum(wire.diameter, meanDiameter, wire.activeCoils),
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
    slenderness: slendernessRatio(spring.freeLength, meanDiameter, FLAT_SEATS),
    criticalDeflection: criticalDeflection(spring.freeLength, meanDiameter, FLAT_SEATS, elastic, shear),
    rateFromGeometry: springRate(shear, wire.diameter, meanDiameter, wire.activeCoils),
  };
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

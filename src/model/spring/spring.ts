/**
 * From what is known about a spring to what the corner model needs: its rate and its solid height, each with how it
 * is known. Lengths in mm, rates in N/mm, moduli and stresses in MPa.
 */
import {
  activeCoilsForRate,
  type EndType,
  greatestSolidHeight,
  inactiveCoils,
  springRate,
  uncorrectedStress,
} from '../formula/coil.ts';
import type { SolidHeight, Spring, WireData } from '../parts.ts';
import { rootBetween } from '../solve.ts';
import { GRADES, type Grade, shearModulusOf } from './materials.ts';
import { ultimateStrengthOf } from './strength.ts';

export interface SpringGiven {
  readonly name: string;
  readonly price: number | null;
  readonly freeLength: number;
  /** Null: computed from wire, coils and bore, which must then be given. */
  readonly rate: number | null;
  /** Inner diameter, over the coating. */
  readonly bore: number;
  readonly solidHeight: number | null;
  /** Bare wire diameter. */
  readonly wire: number | null;
  readonly totalCoils: number | null;
  /** Null: nobody states the shape of the ends. */
  readonly ends: EndType | null;
  /** Thickness of the coating, mm per surface; null: nobody states one. */
  readonly coating: number | null;
  readonly estimate: EstimateSettings;
}

interface EstimateSettings {
  readonly material: string;
  /** Steels that an estimate's tall end may be of; null: the material is stated. */
  readonly grade: Grade | null;
  /** MPa; null: the material's own. */
  readonly shearModulus: number | null;
  /** Uncorrected stress at solid over tensile strength at the thin and at the thick end of an estimate. */
  readonly thinStressShare: number;
  readonly thickStressShare: number;
}

/**
 * What is taken of a spring where nobody says more: ends and material common practice, no source; the shares of strength
 * from memory.
 */
export const COMMON_SPRING = {
  ends: 'closed_ground',
  estimate: { material: 'chrome_silicon', grade: 'any', thinStressShare: 0.56, thickStressShare: 0.45 },
} as const satisfies { readonly ends: EndType; readonly estimate: Omit<EstimateSettings, 'shearModulus'> };

/** Why a spring can't be worked with; `resolveSpring` throws a RangeError on it, so readers of files ask first. */
export type SpringFault = 'rate_unknown' | 'no_active_coils' | 'solid_not_shorter';

/** @throws RangeError when no wire has both the given rate and the given solid height, which is then too low. */
export function springFault(given: SpringGiven): SpringFault | null {
  if (given.rate === null && (given.wire === null || given.totalCoils === null)) return 'rate_unknown';
  if (given.totalCoils !== null && given.totalCoils <= deadCoils(given)) return 'no_active_coils';
  // A free length that not even the thinnest wire's dead coils leave room for has no estimate to ask.
  if (given.rate !== null && computeSolid(given, given.rate, THINNEST) >= given.freeLength) return 'solid_not_shorter';
  return resolveChecked(given).solid.height < given.freeLength ? null : 'solid_not_shorter';
}

/** @throws RangeError when `springFault` names a fault. */
export function resolveSpring(given: SpringGiven): Spring {
  const fault = springFault(given);
  if (fault !== null) throw new RangeError(`spring ${given.name}: ${fault}`);
  return resolveChecked(given);
}

/** Whether nothing but lengths is known of a spring: neither a rate nor what it would follow from, or no bore. */
export function isBare({ rate, bore, wire, totalCoils }: SpringGiven): boolean {
  return Number.isNaN(bore) || (rate === null && (wire === null || totalCoils === null));
}

/**
 * A spring judged by its lengths alone: free, and solid as given or from wire and coils. Its rate is NaN where it is not
 * known.
 * @throws RangeError when its solid height is not known, or not below the free length
 */
export function bareSpring(given: SpringGiven): Spring {
  const { name, price, freeLength, bore, wire, totalCoils } = given;
  const isCounted = given.solidHeight === null && wire !== null && totalCoils !== null;
  const height = isCounted ? greatestSolidHeight(wire + coats(given), totalCoils, endsOf(given)) : given.solidHeight;
  if (height === null || height >= freeLength) throw new RangeError(`spring ${name}: solid_not_shorter`);
  const solid = takeExact(height, isCounted ? 'wire x coils' : 'catalogue');
  return { name, price, freeLength, rate: given.rate ?? Number.NaN, bore, solid, wire: null, rateEstimated: false };
}

function resolveChecked(given: SpringGiven): Spring {
  const { name, price, freeLength, bore } = given;
  const rate = given.rate ?? computeRate(given);
  return { name, price, freeLength, rate, bore, ...findSolidAndWire(given, rate), rateEstimated: given.rate === null };
}

function computeRate(given: SpringGiven): number {
  // `springFault` has refused a spring that has neither its rate nor both of these.
  const wire = given.wire as number;
  const activeCoils = (given.totalCoils as number) - deadCoils(given);
  return springRate(chooseModulus(given), wire, computeMeanDiameter(given, wire), activeCoils);
}

/** Solid height, the best known first: given; wire x counted coils; estimated. */
function findSolidAndWire(given: SpringGiven, rate: number): { solid: SolidHeight; wire: WireData } {
  const wire = findKnownWire(given, rate);
  const counted = given.wire !== null && given.totalCoils !== null;
  if (given.solidHeight !== null) {
    const from = wire ?? findWireOfSolid(given, rate, given.solidHeight);
    return { solid: takeExact(given.solidHeight, 'catalogue'), wire: describeWire(given, rate, from) };
  }
  if (wire === null) return estimateSolidAndWire(given, rate);
  const solid = counted ? takeExact(computeSolid(given, rate, wire), 'wire x coils') : boundSolid(given, rate);
  return { solid, wire: describeWire(given, rate, wire) };
}

/** American and European tables give the same steel a G that differs by 3 %. */
const MODULUS_SPREAD = 1.03;

/**
 * Wire or coils unknown but not both: the missing one follows from the rate, and is as sure as G. Coil bind is judged on
 * the tallest of the results for G, and for G 3 % lower and higher; ends that nobody states may be taller.
 */
function boundSolid(given: SpringGiven, rate: number): SolidHeight {
  const [low, , high] = solveModuli(given, rate);
  const tall = solveModuli({ ...given, ends: chooseTallest(given).ends }, rate).map(({ height }) => height);
  const most = Math.max(high.height, ...tall.filter((height) => height < given.freeLength));
  return {
    source: 'estimated',
    height: high.height,
    least: low.height,
    most,
    thinWire: low.wire,
    thickWire: high.wire,
  };
}

/** Lowest first. */
function solveModuli(given: SpringGiven, rate: number): [SolidAt, SolidAt, SolidAt] {
  const nominal = chooseModulus(given);
  const results = [nominal / MODULUS_SPREAD, nominal, nominal * MODULUS_SPREAD].map((shearModulus) => {
    const variant = { ...given, estimate: { ...given.estimate, shearModulus } };
    const wire = findKnownWire(variant, rate) as number;
    return { wire, height: computeSolid(variant, rate, wire) };
  });
  return results.sort((one, other) => one.height - other.height) as [SolidAt, SolidAt, SolidAt];
}

interface SolidAt {
  readonly wire: number;
  readonly height: number;
}

function takeExact(height: number, source: SolidHeight['source']): SolidHeight {
  return { source, height, least: height, most: height, thinWire: null, thickWire: null };
}

/** Wire and coils unknown: both ends of what the wire can be, and coil bind judged on the thick one. */
function estimateSolidAndWire(given: SpringGiven, rate: number): { solid: SolidHeight; wire: WireData } {
  const thinWire = findStressedWire(given, rate, given.estimate.thinStressShare);
  const thickWire = findStressedWire(given, rate, given.estimate.thickStressShare);
  const height = computeSolid(given, rate, thickWire);
  const least = computeSolid(given, rate, thinWire);
  return {
    solid: { source: 'estimated', height, least, most: findTallestSolid(given, rate, height), thinWire, thickWire },
    wire: describeWire(given, rate, thickWire),
  };
}

/**
 * The tall side of an estimate: the thick end in the steel and with the ends that make it tallest of all that nobody
 * excludes. With ends that add length S(d) is greater at every wire, so the stress at solid is lower, the share is met by
 * a thinner wire, and L - S, which is in proportion to d^(3-m)/D there, is less: the spring is taller.
 */
function findTallestSolid(given: SpringGiven, rate: number, height: number): number {
  const { ends, steels } = chooseTallest(given);
  const heights = steels.flatMap((material) => {
    const variant = { ...given, ends, estimate: { ...given.estimate, material } };
    // Coating on so many coils that not even the thinnest wire is left: no such spring.
    if (computeSolid(variant, rate, THINNEST) >= given.freeLength) return [];
    return [computeSolid(variant, rate, findStressedWire(variant, rate, given.estimate.thickStressShare))];
  });
  return Math.max(height, ...heights);
}

function chooseTallest({ ends, estimate }: SpringGiven) {
  return {
    ends: ends ?? TALLEST_ENDS,
    steels: estimate.grade === null ? [estimate.material] : GRADES[estimate.grade].steels,
  };
}

/** Two dead coils, and 1.5 wire diameters more because they are not ground: no other ends are taller. */
const TALLEST_ENDS: EndType = 'closed';

/**
 * The wire whose uncorrected stress at solid is a share of its tensile strength.
 *
 * There is exactly one. At a fixed rate k and bore the coils are n = G d^4/(8 D^3 k) with D = bore + d, so the solid
 * height S = d (n + e) rises with d: the slope of ln(d n) by ln d is 5 - 3 d/D > 0 because D > d. Stress over strength is
 * h(d) = 8 k (L - S) D d^m / (pi A d^3). While S < L the factor L - S falls to 0, and D d^(m-3) = bore d^(m-3) + d^(m-2)
 * falls because m < 2. So h falls strictly from +Infinity at d = 0 to 0 at the wire that is solid at the free length,
 * and meets any share once. G is held at the value for thick wire, since a banded G would put steps into S; all bands
 * end at 3.2 mm, below any wire that carries a car.
 */
function findStressedWire(given: SpringGiven, rate: number, share: number): number {
  const excess = (wire: number) => {
    const force = rate * (given.freeLength - computeSolid(given, rate, wire));
    const stress = uncorrectedStress(force, computeMeanDiameter(given, wire), wire);
    return stress - share * ultimateStrengthOf(given.estimate.material, wire);
  };
  return rootBetween(
    excess,
    THINNEST,
    findThickWire((wire) => computeSolid(given, rate, wire) - given.freeLength),
  );
}

/** The given wire; with counted coils and a rate the wire that gives both; else null. */
function findKnownWire(given: SpringGiven, rate: number): number | null {
  if (given.wire !== null) return given.wire;
  if (given.totalCoils === null) return null;
  const active = given.totalCoils - deadCoils(given);
  // d^4/D^3 rises with d, so there is one wire.
  const excess = (wire: number) => countActive(given, rate, wire) - active;
  return rootBetween(excess, THINNEST, findThickWire(excess));
}

/** The wire that has this solid height at this rate: one, because S rises with d. */
function findWireOfSolid(given: SpringGiven, rate: number, solid: number): number {
  const excess = (wire: number) => computeSolid(given, rate, wire) - solid;
  if (excess(LEAST_WIRE) >= 0)
    throw new RangeError(`spring ${given.name}: no wire has both this rate and ${solid} mm solid`);
  return rootBetween(excess, THINNEST, findThickWire(excess));
}

/** The thinnest wire of a spring that could carry a corner, mm: own choice, a fifth of what is usual. */
export const LEAST_WIRE = 1;

/** mm; thinner than any wire, so that what falls or rises with the wire has its first sign here. */
const THINNEST = 1e-3;

/** A wire at which a rising function is no longer below 0. */
function findThickWire(rising: (wire: number) => number): number {
  let wire = 1;
  while (rising(wire) < 0) wire *= 2;
  return wire;
}

/** Greatest solid height of a wire: its coils counted, or following from the rate; the coating lies on every coil. */
function computeSolid(given: SpringGiven, rate: number, wire: number): number {
  return greatestSolidHeight(wire + coats(given), countTotal(given, rate, wire), endsOf(given));
}

function countTotal(given: SpringGiven, rate: number, wire: number): number {
  return given.totalCoils ?? countActive(given, rate, wire) + deadCoils(given);
}

function endsOf({ ends }: SpringGiven): EndType {
  return ends ?? COMMON_SPRING.ends;
}

function deadCoils(given: SpringGiven): number {
  return inactiveCoils(endsOf(given));
}

/** What the coating adds to a wire's diameter. */
function coats({ coating }: SpringGiven): number {
  return 2 * (coating ?? 0);
}

function countActive(given: SpringGiven, rate: number, wire: number): number {
  return activeCoilsForRate(chooseModulus(given), wire, computeMeanDiameter(given, wire), rate);
}

/** The bore is measured over the coating, the mean diameter runs through the middle of the bare wire. */
function computeMeanDiameter(given: SpringGiven, wire: number): number {
  return given.bore + coats(given) + wire;
}

function chooseModulus({ estimate, wire }: SpringGiven): number {
  return estimate.shearModulus ?? shearModulusOf(estimate.material, wire ?? Number.POSITIVE_INFINITY);
}

function describeWire(given: SpringGiven, rate: number, diameter: number): WireData {
  const totalCoils = countTotal(given, rate, diameter);
  return {
    diameter,
    totalCoils,
    activeCoils: totalCoils - deadCoils(given),
    material: given.estimate.material,
    materialGiven: given.estimate.grade === null,
    estimated: given.wire === null,
  };
}

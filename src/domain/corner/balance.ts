/**
 * Balance of forces at one corner: spring, gas and stop along the damper, times the motion ratio, plus twisted
 * rubber bushes, carry the load at the wheel (virtual work). Forces in N, heights and lengths in mm.
 */
import { stopForce } from '../bumpStop.ts';
import { gasForceCharge, gasForceLinear } from '../formula/gas.ts';
import { ratioAt } from '../motion.ts';
import type { Damper } from '../parts.ts';
import { rootBetween } from '../solve.ts';
import { deflectionUnder, forceAt } from '../stack.ts';
import type { Geometry } from './geometry.ts';
import { type Corner, damperLengthAt, type Site } from './site.ts';

/** Gas in the damper changes slowly at rest: isothermal. */
const STANDING_EXPONENT = 1;

export interface Standing {
  /** `H` and `l`: ride height and damper length. */
  readonly height: number;
  readonly length: number;
  readonly motionRatio: number;
  /** Load carried at the wheel. */
  readonly load: number;
  /** `F_d`, axial force needed at the damper; what gas, stop and spring give of it. */
  readonly axialForce: number;
  readonly gasForce: number;
  readonly stopForce: number;
  readonly springForce: number;
  /** Force of the twisted bushes at the wheel. */
  readonly bushForce: number;
  /** `x`, deflection of the spring stack; `P`, lower spring seat above the lower eye. */
  readonly deflection: number;
  readonly perch: number;
}

/** The damper's gas push at a damper length, N. */
export function gasForceAt(damper: Damper, length: number): number {
  const { gas } = damper;
  const stroke = damper.extended - length;
  if (gas.kind === 'none') return 0;
  if (gas.kind === 'charge') {
    return gasForceCharge(gas.chargePressure, gas.rodArea, gas.gasVolume, stroke, STANDING_EXPONENT);
  }
  return gasForceLinear(gas.outForce, gas.inForce ?? gas.outForce, damper.extended - damper.compressed, stroke);
}

/** Force of the twisted rubber bushes at the wheel, N: 0 at the height where they are unloaded. */
export function bushForceAt(site: Site, height: number): number {
  return site.bushes ? site.bushes.rate * (site.bushes.unloadedHeight - height) : 0;
}

/** From a ride height to the perch that holds it: explicit for any motion curve. */
export function standingAt(site: Site, corner: Corner, geometry: Geometry, height: number, load: number): Standing {
  const length = damperLengthAt(site, corner.mount, height);
  const motionRatio = ratioAt(site.motion, height);
  const bushForce = bushForceAt(site, height);
  const axialForce = (load - bushForce) / motionRatio;
  const gasForce = gasForceAt(corner.damper, length);
  const stop = stopForce(corner.bumpStop, geometry.stopLength - length);
  const springForce = axialForce - gasForce - stop;
  const deflection = deflectionUnder(geometry.stack, springForce);
  const perch = length - geometry.seatBelowShoulder - geometry.stack.freeLength + deflection;
  return {
    height,
    length,
    motionRatio,
    load,
    axialForce,
    gasForce,
    stopForce: stop,
    springForce,
    bushForce,
    deflection,
    perch,
  };
}

/** The forces at a ride height with the perch set, whatever load that balances; the solid stack keeps its solid force. */
export function forcesAt(site: Site, corner: Corner, geometry: Geometry, height: number, perch: number): Standing {
  const length = damperLengthAt(site, corner.mount, height);
  const motionRatio = ratioAt(site.motion, height);
  const { stack } = geometry;
  const squeezed = stack.freeLength - (length - geometry.seatBelowShoulder - perch);
  const deflection = Math.min(Math.max(0, squeezed), stack.mainTravel + stack.helperTravel);
  const springForce = forceAt(stack, deflection);
  const gasForce = gasForceAt(corner.damper, length);
  const stop = stopForce(corner.bumpStop, geometry.stopLength - length);
  const bushForce = bushForceAt(site, height);
  const axialForce = springForce + gasForce + stop;
  const load = axialForce * motionRatio + bushForce;
  return {
    height,
    length,
    motionRatio,
    load,
    axialForce,
    gasForce,
    stopForce: stop,
    springForce,
    bushForce,
    deflection,
    perch,
  };
}

/** The perch that holds a ride height under a load, mm. */
export function perchFor(site: Site, corner: Corner, geometry: Geometry, height: number, load: number): number {
  return standingAt(site, corner, geometry, height, load).perch;
}

/**
 * What the corner carries at a ride height less the load, N at the wheel, the perch set to `perch`: positive when
 * the corner would rise. Infinite where the stack is solid.
 */
export function surplusAt(
  site: Site,
  corner: Corner,
  geometry: Geometry,
  height: number,
  load: number,
  perch: number,
): number {
  const length = damperLengthAt(site, corner.mount, height);
  const deflection = geometry.stack.freeLength - (length - geometry.seatBelowShoulder - perch);
  return surplusWith(site, corner, geometry, height, load, forceAt(geometry.stack, deflection));
}

/** The same with the force of the spring stack given, N. */
export function surplusWith(
  site: Site,
  corner: Corner,
  geometry: Geometry,
  height: number,
  load: number,
  springForce: number,
): number {
  const length = damperLengthAt(site, corner.mount, height);
  const stop = stopForce(corner.bumpStop, geometry.stopLength - length);
  const axial = springForce + gasForceAt(corner.damper, length) + stop;
  return axial * ratioAt(site.motion, height) + bushForceAt(site, height) - load;
}

/**
 * From a perch to the ride height at which the corner stands under a load, mm: between the closed stop and full
 * droop, and one of these two where the balance lies beyond it.
 */
export function heightOn(site: Site, corner: Corner, geometry: Geometry, load: number, perch: number): number {
  const surplus = (height: number) => surplusAt(site, corner, geometry, height, load, perch);
  const { closedHeight, droopHeight } = geometry;
  if (closedHeight >= droopHeight || surplus(closedHeight) <= 0) return closedHeight;
  if (surplus(droopHeight) >= 0) return droopHeight;
  return rootBetween(surplus, closedHeight, droopHeight);
}

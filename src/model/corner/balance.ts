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
import { type Corner, damperLengthAt, type Site, type SiteLoad } from './site.ts';

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
  /** `x`, deflection of the spring stack; `P`, perch seat above the lower eye. */
  readonly deflection: number;
  readonly perch: number;
}

/**
 * The damper's gas push at a damper length, at rest.
 *
 * Units: `damper` lengths in mm, forces in N, pressure in MPa; `length` lower eye to rod shoulder mm; result N.
 * Valid: isothermal (exponent 1), as gas settles at rest; linear between the two pushes where those are given instead.
 * Source: see `gasForceCharge` and `gasForceLinear`.
 */
export function gasForceAt(damper: Damper, length: number): number {
  const { gas } = damper;
  const stroke = damper.extended - length;
  if (gas.kind === 'none') return 0;
  if (gas.kind === 'charge') {
    return gasForceCharge(gas.chargePressure, gas.rodArea, gas.gasVolume, stroke, STANDING_EXPONENT);
  }
  return gasForceLinear(gas.outForce, gas.inForce ?? gas.outForce, damper.extended - damper.compressed, stroke);
}

/**
 * Force of the twisted rubber bushes at the wheel: 0 at the height where they are unloaded, upwards on the body below it.
 *
 * Equation: F = k_p (H_p - H)
 * Units: `site` rate k_p in N/mm and height H_p in mm; `height` H mm; result N.
 * Valid: small twist, rubber that neither slips nor creeps; 0 where no bushes are given.
 * Source: definition of the rate, derived.
 */
export function bushForceAt(site: Site, height: number): number {
  return site.bushes ? site.bushes.rate * (site.bushes.unloadedHeight - height) : 0;
}

/**
 * From a ride height to the perch that holds it under a load: explicit for any motion curve.
 *
 * Equation: F_d = (W - F_bush) / MR; F_s = F_d - F_g - F_stop; P = l - a_seat - L0 + x(F_s)
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `height` H mm, `load` W at the wheel N; result forces in N, lengths in mm.
 * Valid: a motion ratio above 0. A spring force below 0 leaves the stack at its free length: the corner then does not stand.
 * Source: virtual work, derived; the deflection of springs in series, see `deflectionUnder`.
 */
export function standingAt(site: Site, corner: Corner, geometry: Geometry, height: number, load: number): Standing {
  // Written out, here and below: a record spread from another costs a third of a sweep's time.
  const length = damperLengthAt(site, corner.mount, height);
  const motionRatio = ratioAt(site.motion, height);
  const bushForce = bushForceAt(site, height);
  const axialForce = (load - bushForce) / motionRatio;
  const gasForce = gasForceAt(corner.damper, length);
  const stop = stopForce(corner.bumpStop, geometry.squeezeLength - length);
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

/**
 * The forces at a ride height with the perch set, whatever load that balances.
 *
 * Equation: W = (F_s + F_g + F_stop) MR + F_bush
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `height` H and `perch` P mm; result forces in N, lengths in mm.
 * Valid: any height; a solid stack keeps its solid force, since what metal adds is not known.
 * Source: virtual work, derived.
 */
export function forcesAt(site: Site, corner: Corner, geometry: Geometry, height: number, perch: number): Standing {
  const length = damperLengthAt(site, corner.mount, height);
  const motionRatio = ratioAt(site.motion, height);
  const { stack } = geometry;
  const squeezed = stack.freeLength - (length - geometry.seatBelowShoulder - perch);
  const deflection = Math.min(Math.max(0, squeezed), stack.mainTravel + stack.helperTravel);
  const springForce = forceAt(stack, deflection);
  const gasForce = gasForceAt(corner.damper, length);
  const stop = stopForce(corner.bumpStop, geometry.squeezeLength - length);
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

/**
 * The perch that holds a ride height under a load.
 *
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `height` mm, `load` at the wheel N; result mm above the lower eye.
 * Valid: as `standingAt`.
 * Source: see `standingAt`.
 */
export function perchFor(site: Site, corner: Corner, geometry: Geometry, height: number, load: number): number {
  return standingAt(site, corner, geometry, height, load).perch;
}

/**
 * What the corner carries at a ride height less the load: positive when the corner would rise.
 *
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `height` and `perch` mm, `load` at the wheel N; result N at the wheel.
 * Valid: any height; Infinity where the stack is solid.
 * Source: see `forcesAt`.
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

/**
 * The same with the force of the spring stack given instead of the perch.
 *
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `height` mm, `load` at the wheel N, `springForce` along the damper N;
 * result N at the wheel.
 * Valid: any height.
 * Source: see `forcesAt`.
 */
export function surplusWith(
  site: Site,
  corner: Corner,
  geometry: Geometry,
  height: number,
  load: number,
  springForce: number,
): number {
  const length = damperLengthAt(site, corner.mount, height);
  const stop = stopForce(corner.bumpStop, geometry.squeezeLength - length);
  const axial = springForce + gasForceAt(corner.damper, length) + stop;
  return axial * ratioAt(site.motion, height) + bushForceAt(site, height) - load;
}

/**
 * From a perch to the ride height at which the corner stands under a load.
 *
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `load` at the wheel N, `perch` mm; result mm, hub to arch.
 * Valid: a wheel rate above 0 over the travel, or else one of several balances is found. Between the closed stop and full
 * droop, and one of these two where the balance lies beyond it.
 * Source: root of `surplusAt`, see `rootBetween`.
 */
export function heightOn(site: Site, corner: Corner, geometry: Geometry, load: number, perch: number): number {
  const surplus = (height: number) => surplusAt(site, corner, geometry, height, load, perch);
  const { closedHeight, droopHeight } = geometry;
  if (closedHeight >= droopHeight || surplus(closedHeight) <= 0) return closedHeight;
  if (surplus(droopHeight) >= 0) return droopHeight;
  return rootBetween(surplus, closedHeight, droopHeight);
}

/**
 * How far the perch stands above the place at which the car under a load state would just close its stop. Height tells
 * nothing there: the closed stop ends it, whatever the load.
 *
 * Equation: P - P(H_closed, W_state)
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `perch` P mm, `load` in N; result mm along the damper, negative: too low.
 * Valid: a setup that may stand on its stop.
 * Source: see `standingAt`.
 */
export function perchAboveClosed(
  site: Site,
  corner: Corner,
  geometry: Geometry,
  perch: number,
  load: SiteLoad,
): number {
  return perch - perchFor(site, corner, geometry, geometry.lowestStanding, load.sprungLoad);
}

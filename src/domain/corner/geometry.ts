/**
 * Lengths that follow from the parts alone, before any load: where sleeve, perch, seat and stop are, and at which
 * damper length each pair of parts would meet. All along the damper axis from the lower eye, in mm.
 */
import { closedLength } from '../bumpStop.ts';
import type { Perch, Sleeve } from '../parts.ts';
import { type SpringStack, springStack } from '../stack.ts';
import { type Corner, damperLengthAt, rideHeightAt, type Site } from './site.ts';

export interface Geometry {
  /** `T`, top of the sleeve above the lower eye. */
  readonly sleeveTop: number;
  /** `P_min` and `P_max`, lowest and highest place of the lower spring seat above the lower eye. */
  readonly perchLowest: number;
  readonly perchHighest: number;
  /** `a_fl` and `a_seat`, flange and upper spring seat below the rod shoulder. */
  readonly flangeBelowShoulder: number;
  readonly seatBelowShoulder: number;
  /** What the bump stop meets, and its height above the lower eye (`B` of the stop's formulas). */
  readonly stopMeets: 'body' | 'sleeve';
  readonly stopMeetsAt: number;
  /** Damper length at which the stop is just met, and at which it is closed. */
  readonly stopLength: number;
  readonly closedLength: number;
  /** Damper length at full droop: the damper's own, or shorter where something else ends the droop. */
  readonly droopLength: number;
  /** Ride heights of the three. */
  readonly stopHeight: number;
  readonly closedHeight: number;
  readonly droopHeight: number;
  readonly stack: SpringStack;
}

export function geometryOf(site: Site, corner: Corner): Geometry {
  const { damper, mount, isolator, bumpStop } = corner;
  const sleeveTop = sleeveTopOf(corner.sleeve);
  const flangeBelowShoulder = seatRaise(corner) + mount.flangeDepth;
  const stopMeets = sleeveStopsBumpStop(site, corner, sleeveTop) ? 'sleeve' : 'body';
  const stopMeetsAt = stopMeets === 'sleeve' ? sleeveTop : damper.bodyLength;
  const stopLength = stopMeetsAt + bumpStop.packer + bumpStop.length;
  const closed = stopMeetsAt + bumpStop.packer + closedLength(bumpStop);
  const droopLength = droopLengthOf(site, corner);
  return {
    sleeveTop,
    ...perchLimits(corner.sleeve, corner.perch),
    flangeBelowShoulder,
    seatBelowShoulder: flangeBelowShoulder + (isolator?.thickness ?? 0),
    stopMeets,
    stopMeetsAt,
    stopLength,
    closedLength: closed,
    droopLength,
    stopHeight: rideHeightAt(site, mount, stopLength),
    closedHeight: rideHeightAt(site, mount, closed),
    droopHeight: rideHeightAt(site, mount, droopLength),
    stack: springStack(corner.spring, corner.helper),
  };
}

/** `T = G - e + L_slv - t`: top of the sleeve above the lower eye. */
export function sleeveTopOf(sleeve: Sleeve): number {
  return sleeveFootOf(sleeve) + sleeve.length - sleeve.trim;
}

/** Lowest and highest place of the lower spring seat: perch down on its lock ring, and up at the sleeve's top. */
export function perchLimits(sleeve: Sleeve, perch: Perch): Pick<Geometry, 'perchLowest' | 'perchHighest'> {
  return {
    perchLowest: sleeveFootOf(sleeve) + perch.lockRing + perch.height,
    perchHighest: sleeveTopOf(sleeve) - perch.inset,
  };
}

function sleeveFootOf(sleeve: Sleeve): number {
  return sleeve.ledgeHeight - sleeve.grooveDrop;
}

/** A part passes a bore only with the passing clearance to spare. Diameters in mm. */
export function passes(site: Site, diameter: number, bore: number): boolean {
  return bore - diameter >= site.margins.passing;
}

/** The raise that counts for seat and flange: a seat that moves with the rod doesn't see the spacer. */
function seatRaise(corner: Corner): number {
  return corner.mount.seat === 'fixed' ? corner.mount.raise : corner.mount.bareRaise;
}

/** A sleeve that stands proud of the body stops a bump stop too wide to enter it. */
export function sleeveStopsBumpStop(site: Site, corner: Corner, sleeveTop: number): boolean {
  return sleeveTop > corner.damper.bodyLength && !passes(site, corner.bumpStop.diameter, corner.sleeve.bore);
}

/** A strap, joint or driveshaft may end the droop before the damper does. */
function droopLengthOf(site: Site, corner: Corner): number {
  if (site.lowestWheelHeight === null) return corner.damper.extended;
  return Math.min(corner.damper.extended, damperLengthAt(site, corner.mount, site.lowestWheelHeight));
}

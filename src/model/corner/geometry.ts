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
  /** `P_min` and `P_max`, lowest and highest place of the perch seat above the lower eye. */
  readonly perchLowest: number;
  readonly perchHighest: number;
  /** `a_fl` and `a_seat`, flange and upper seat below the rod shoulder. */
  readonly flangeBelowShoulder: number;
  readonly seatBelowShoulder: number;
  /** What the bump stop meets; a proud sleeve whose bore it passes without clearance it may land on or enter. */
  readonly stopMeets: 'body' | 'sleeve' | 'sleeve or body';
  /**
   * Height above the lower eye of what ends the travel, and of what the stop is squeezed against (`B` of the stop's
   * formulas): the sleeve and the body where it may be either.
   */
  readonly stopMeetsAt: number;
  readonly stopClosesAt: number;
  /** Damper length at which the stop may first be met, from which its force counts, and at which it is closed. */
  readonly stopLength: number;
  readonly squeezeLength: number;
  readonly closedLength: number;
  /** Damper length at full droop: the damper's own, or shorter where something else ends the droop. */
  readonly droopLength: number;
  /** Their ride heights. */
  readonly stopHeight: number;
  readonly squeezeHeight: number;
  readonly closedHeight: number;
  /** Lowest ride height the car may stand at: the stop just met or, where the setup allows standing on it, closed. */
  readonly lowestStanding: number;
  readonly droopHeight: number;
  readonly stack: SpringStack;
}

/**
 * Lengths that follow from the parts alone, all along the damper axis from the lower eye.
 *
 * Equation: T = G - e + L_slv - t; a_fl = r + s (r without spacer for a seat that moves with the rod); a_seat = a_fl + i;
 * l_stop = B + p + b; l_closed = B + p + b_c, B the body's top or the top of a proud sleeve the stop can't enter
 * Units: `site` and `corner` in mm; result mm.
 * Valid: parts on one axis. With less than the passing clearance between its bore and the stop a proud sleeve may be landed
 * on or entered. Each is judged where it is worse: travel with the sleeve, met first; clearances, the stop's force and how
 * far the car sinks on it with the body, met last.
 * Source: geometry of the parts, derived.
 */
export function geometryOf(site: Site, corner: Corner): Geometry {
  const { damper, mount, isolator, bumpStop } = corner;
  const sleeveTop = sleeveTopOf(corner.sleeve);
  const flangeBelowShoulder = seatRaise(corner) + mount.flangeDepth;
  const stopMeets = stopMeetsOf(site, corner, sleeveTop);
  const stopMeetsAt = stopMeets === 'body' ? damper.bodyLength : sleeveTop;
  const stopClosesAt = stopMeets === 'sleeve' ? sleeveTop : damper.bodyLength;
  const stopLength = stopMeetsAt + bumpStop.packer + bumpStop.length;
  const squeezeLength = stopClosesAt + bumpStop.packer + bumpStop.length;
  const closed = stopClosesAt + bumpStop.packer + closedLength(bumpStop);
  const lowestLength = site.standingOnStop ? stopMeetsAt + bumpStop.packer + closedLength(bumpStop) : stopLength;
  const droopLength = droopLengthOf(site, corner);
  const stopHeight = rideHeightAt(site, mount, stopLength);
  // Mostly one and the same length: its height is a root to be found.
  const heightOf = (length: number) => (length === stopLength ? stopHeight : rideHeightAt(site, mount, length));
  return {
    sleeveTop,
    ...perchLimits(corner.sleeve, corner.perch),
    flangeBelowShoulder,
    seatBelowShoulder: flangeBelowShoulder + (isolator?.thickness ?? 0),
    stopMeets,
    stopMeetsAt,
    stopClosesAt,
    stopLength,
    squeezeLength,
    closedLength: closed,
    droopLength,
    stopHeight,
    squeezeHeight: heightOf(squeezeLength),
    closedHeight: rideHeightAt(site, mount, closed),
    droopHeight: rideHeightAt(site, mount, droopLength),
    lowestStanding: heightOf(lowestLength),
    stack: springStack(corner.spring, corner.helper),
  };
}

/**
 * Top of the sleeve above the lower eye.
 *
 * Equation: T = G - e + L_slv - t
 * Units: `sleeve` in mm; result mm.
 * Valid: a sleeve trimmed at its top that stands on its ledge.
 * Example: sleeveTopOf({"ledgeHeight":160,"grooveDrop":0,"length":140,"trim":15}) = 285
 * Source: geometry of the parts, derived.
 */
export function sleeveTopOf(sleeve: Sleeve): number {
  return sleeveFootOf(sleeve) + sleeve.length - sleeve.trim;
}

/**
 * Lowest and highest place of the perch seat: perch down on its lock ring, and up at the sleeve's top.
 *
 * Equation: P_min = G - e + lock ring + perch height; P_max = T - inset
 * Units: `sleeve` and `perch` in mm; result mm above the lower eye.
 * Valid: a lock ring below the perch.
 * Example: perchLimits({"ledgeHeight":160,"grooveDrop":0,"length":140,"trim":15}, {"lockRing":8,"height":11,"inset":0}).perchLowest = 179
 * Source: geometry of the parts, derived.
 */
export function perchLimits(sleeve: Sleeve, perch: Perch): Pick<Geometry, 'perchLowest' | 'perchHighest'> {
  return {
    perchLowest: sleeveFootOf(sleeve) + perch.lockRing + perch.height,
    perchHighest: sleeveTopOf(sleeve) - perch.inset,
  };
}

function sleeveFootOf(sleeve: Sleeve): number {
  return sleeve.ledgeHeight - sleeve.grooveDrop;
}

/**
 * Whether a part passes a bore: only with the passing clearance to spare.
 *
 * Units: `site` margins in mm, `diameter` and `bore` mm; result true or false.
 * Valid: round parts on one axis.
 * Source: definition of the passing clearance.
 */
export function passes(site: Site, diameter: number, bore: number): boolean {
  return bore - diameter >= site.margins.passing;
}

/** The raise that counts for seat and flange: a seat that moves with the rod doesn't see the spacer. */
function seatRaise(corner: Corner): number {
  return corner.mount.seat === 'fixed' ? corner.mount.raise : corner.mount.bareRaise;
}

function stopMeetsOf(site: Site, corner: Corner, sleeveTop: number): Geometry['stopMeets'] {
  if (!sleeveStopsBumpStop(site, corner, sleeveTop)) return 'body';
  return corner.bumpStop.diameter > corner.sleeve.bore ? 'sleeve' : 'sleeve or body';
}

/**
 * Whether a sleeve that stands proud of the body meets the bump stop, or may meet it: the stop does not pass its bore.
 *
 * Units: `site` margins and `corner` parts in mm, `sleeveTop` mm above the lower eye; result true or false.
 * Valid: a stop that keeps its diameter.
 * Source: geometry of the parts, derived.
 */
export function sleeveStopsBumpStop(site: Site, corner: Corner, sleeveTop: number): boolean {
  return sleeveTop > corner.damper.bodyLength && !passes(site, corner.bumpStop.diameter, corner.sleeve.bore);
}

/** A strap, joint or driveshaft may end the droop before the damper does. */
function droopLengthOf(site: Site, corner: Corner): number {
  if (site.lowestWheelHeight === null) return corner.damper.extended;
  return Math.min(corner.damper.extended, damperLengthAt(site, corner.mount, site.lowestWheelHeight));
}

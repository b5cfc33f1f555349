/**
 * Hard contacts: every way metal can meet metal, the damper length at which it happens, and the clearance left at
 * full bump. A combination works only if the bump stop is met before any of them.
 */
import { coilBindMargin } from './coilGaps.ts';
import type { Geometry } from './geometry.ts';
import { passes } from './geometry.ts';
import { type Corner, damperLengthAt, rideHeightAt, type Site } from './site.ts';

export const CONTACTS = [
  'coil_bind',
  'damper',
  'sleeve_isolator',
  'sleeve_flange',
  'sleeve_washers',
  'sleeve_plate',
  'body_isolator',
  'body_flange',
  'tyre_arch',
] as const;
export type ContactName = (typeof CONTACTS)[number];

export interface Contact {
  readonly name: ContactName;
  /** Damper length at which the parts meet, mm. */
  readonly length: number;
  /** Clearance at full bump along the damper, bush give taken off, mm; negative: they would meet first. */
  readonly clearance: number;
  /** The same clearance as travel of the wheel, mm. */
  readonly atWheel: number;
  /** The margin it must keep, mm. */
  readonly margin: number;
}

/**
 * Damper lengths of all contacts that exist for this corner, in the order of `CONTACTS`.
 *
 * Equation: coil bind at P + a_seat + S0; sleeve and body against isolator, flange, washers and plate by their own geometry;
 * the tyre on the arch at l(H_arch)
 * Units: `site`, `corner`, `geometry` in mm; `perch` P mm, for coil bind only; result mm.
 * Valid: parts on one axis; a part passes a bore with the scenario's passing clearance to spare.
 * Source: geometry of the parts, derived.
 */
export function contactLengths(site: Site, corner: Corner, geometry: Geometry, perch: number): [ContactName, number][] {
  const found: [ContactName, number][] = [
    ['coil_bind', perch + geometry.seatBelowShoulder + geometry.stack.solidLength],
    ['damper', corner.damper.compressed],
  ];
  addFixedMetal(found, site, corner, geometry);
  found.push(['tyre_arch', damperLengthAt(site, corner.mount, site.tyreOnArchHeight)]);
  return found;
}

/**
 * The contacts at full bump with their clearances, in the order of `CONTACTS`.
 *
 * Equation: clearance = l_full - l_contact - bush give
 * Units: `site`, `corner`, `geometry` in mm; `perch` and `fullLength` l_full mm; result mm, along the damper and at the wheel.
 * Valid: negative where metal meets before full bump.
 * Source: geometry of the parts, derived.
 */
export function contactsAt(
  site: Site,
  corner: Corner,
  geometry: Geometry,
  perch: number,
  fullLength: number,
): Contact[] {
  const wheelAtFull = rideHeightAt(site, corner.mount, fullLength);
  return contactLengths(site, corner, geometry, perch).map(([name, length]) => {
    const clearance = fullLength - length - giveFor(corner, name);
    const atWheel = wheelAtFull - rideHeightAt(site, corner.mount, fullLength - clearance);
    return { name, length, clearance, atWheel, margin: marginFor(site, corner, name) };
  });
}

/** What stops a wheel on its way: metal or the closed stop in bump, and whatever ends its droop. */
export type WheelStop = ContactName | 'closed_stop' | 'droop';

/**
 * Where a wheel's travel ends in bump: at the first hard contact, or at the closed stop where that comes before.
 *
 * Units: `site`, `corner`, `geometry` in mm; `perch` mm; result ride height mm, and what stops the wheel there.
 * Valid: rigid metal, bush give left out; of two at one length the first in the order of `CONTACTS`, the stop before all.
 * Source: geometry of the parts, derived.
 */
export function travelEnd(site: Site, corner: Corner, geometry: Geometry, perch: number) {
  const stop: [WheelStop, number] = ['closed_stop', geometry.closedLength];
  const [at, length] = contactLengths(site, corner, geometry, perch).reduce<[WheelStop, number]>(
    (first, next) => (next[1] > first[1] ? next : first),
    stop,
  );
  return { at, height: rideHeightAt(site, corner.mount, length) };
}

/**
 * Rising of the shoulder in the mount's bush; what meets the rod's own parts moves with the rod and is excepted.
 *
 * Units: `corner` lengths in mm, `name` of the contact; result mm.
 * Valid: any contact.
 */
export function giveFor(corner: Corner, name: ContactName): number {
  const ridesOnRod = name === 'damper' || name === 'sleeve_washers';
  return ridesOnRod ? 0 : corner.mount.bushGive;
}

/**
 * The margin that a contact's clearance must keep.
 *
 * Units: `site` margins and `corner` spring in mm, `name` of the contact; result mm along the damper.
 * Valid: any contact: coil bind, damper, sleeve, body and tyre have one each; that to coil bind may differ between springs.
 */
export function marginFor(site: Site, corner: Pick<Corner, 'spring'>, name: ContactName): number {
  const { margins } = site;
  if (name === 'coil_bind') return coilBindMargin(margins.coilBind, corner.spring).value;
  if (name === 'damper') return margins.damper;
  if (name === 'tyre_arch') return margins.tyre;
  return name.startsWith('sleeve') ? margins.sleeve : margins.body;
}

/**
 * Sleeve and body against isolator, flange, washers and plate: which exist depends on what passes which bore.
 * The body against washers or plate is no contact of its own: the body's top is closed, so the bump stop lies
 * between it and the washers and keeps them its closed length apart.
 */
function addFixedMetal(found: [ContactName, number][], site: Site, corner: Corner, geometry: Geometry): void {
  const { damper, sleeve, mount, bumpStop } = corner;
  const { sleeveTop } = geometry;
  addUpperParts(found, site, corner, geometry, SLEEVE_ABOVE, sleeve.outerDiameter, sleeveTop);
  if (geometry.stopMeets === 'sleeve') {
    // The stop lies between sleeve and washers: closed, it keeps them its closed length apart.
  } else if (bumpStop.packer > 0 && !passes(site, bumpStop.packerDiameter, sleeve.bore)) {
    found.push(['sleeve_washers', sleeveTop + bumpStop.packer]);
  } else if (!passes(site, mount.washerDiameter, sleeve.bore)) {
    found.push(['sleeve_washers', sleeveTop]);
  } else if (passesUpperParts(site, corner, sleeve.outerDiameter)) {
    // The plate is above the shoulder, so the sleeve may rise past the shoulder before it meets the plate.
    found.push(['sleeve_plate', sleeveTop - (mount.lowerBush + mount.washers)]);
  }
  addUpperParts(found, site, corner, geometry, BODY_ABOVE, damper.bodyDiameter, damper.bodyLength);
}

/** What a part meets above it: the isolator, or the mount's flange. */
type Above = readonly [isolator: ContactName, flange: ContactName];
const SLEEVE_ABOVE: Above = ['sleeve_isolator', 'sleeve_flange'];
const BODY_ABOVE: Above = ['body_isolator', 'body_flange'];

/** A part with its top at `top` against the isolator and the flange it doesn't pass. Spigots are met first. */
function addUpperParts(
  found: [ContactName, number][],
  site: Site,
  corner: Corner,
  geometry: Geometry,
  [onIsolator, onFlange]: Above,
  diameter: number,
  top: number,
): void {
  const { isolator, mount } = corner;
  if (isolator && !passes(site, diameter, isolator.bore)) {
    found.push([onIsolator, top + geometry.seatBelowShoulder + isolator.spigot]);
  }
  if (!passes(site, diameter, mount.bore)) {
    found.push([onFlange, top + geometry.flangeBelowShoulder + mount.spigot]);
  }
}

function passesUpperParts(site: Site, corner: Corner, diameter: number): boolean {
  const { isolator, mount } = corner;
  return passes(site, diameter, mount.bore) && (isolator === null || passes(site, diameter, isolator.bore));
}

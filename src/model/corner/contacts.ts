/**
 * Hard contacts: every way metal can meet metal, the damper length at which it happens, and the clearance left at
 * full bump. A combination works only if the bump stop is met before any of them.
 */
import { baseAt } from '../motion.ts';
import { rootBetween } from '../solve.ts';
import { standingAt, surplusAt, surplusWith } from './balance.ts';
import { coilBindMargin, leastGapsOf } from './coilGaps.ts';
import { type Geometry, passes } from './geometry.ts';
import { type Corner, damperLengthAt, rideHeightAt, type Site } from './site.ts';

/** Whose way a contact ends, and so whose margin it must keep. */
export type ContactPart = 'spring' | 'damper' | 'sleeve' | 'body' | 'tyre';

/** Faces that can meet, from the lower to the upper end of the corner. */
export type Face =
  | ('solid spring' | 'sleeve top' | 'body top' | 'contact length' | 'tower on tyre')
  | ('upper seat' | 'isolator' | 'flange' | 'washers' | 'plate' | 'shoulder' | 'tower');

interface ContactRecord {
  readonly label: string;
  /** The same in a narrow column. */
  readonly short: string;
  readonly part: ContactPart;
  /** Met by parts of the rod, with which the body rises in the mount's bush: the bush gives nothing. */
  readonly ridesOnRod?: true;
  /** Damper length at which the parts meet, mm; null where these parts cannot. */
  readonly length: (site: Site, corner: Corner, geometry: Geometry, perch: number) => number | null;
  /** The faces that meet, the lower one first. */
  readonly faces: readonly [lower: Face, upper: Face];
}

/**
 * The body against washers or plate is no contact of its own: the body's top is closed, so the bump stop lies
 * between it and the washers and keeps them its closed length apart.
 */
export const CONTACT = {
  coil_bind: {
    ...{ label: 'coil bind', short: 'coil bind', part: 'spring' },
    length: (_, __, geometry, perch) => perch + geometry.seatBelowShoulder + geometry.stack.solidLength,
    faces: ['solid spring', 'upper seat'],
  },
  damper: {
    ...{ label: 'damper bottoming inside', short: 'damper bottoms', part: 'damper', ridesOnRod: true },
    length: (_, { damper }) => damper.compressed,
    faces: ['contact length', 'shoulder'],
  },
  sleeve_isolator: {
    ...{ label: 'sleeve on isolator', short: 'sleeve to isolator', part: 'sleeve' },
    length: (site, corner, geometry) =>
      onIsolator(site, corner, geometry, corner.sleeve.outerDiameter, geometry.sleeveTop),
    faces: ['sleeve top', 'isolator'],
  },
  sleeve_flange: {
    ...{ label: 'sleeve on mount flange', short: 'sleeve to flange', part: 'sleeve' },
    length: (site, corner, geometry) =>
      onFlange(site, corner, geometry, corner.sleeve.outerDiameter, geometry.sleeveTop),
    faces: ['sleeve top', 'flange'],
  },
  sleeve_washers: {
    ...{ label: 'sleeve on washers or packer', short: 'sleeve to washers', part: 'sleeve', ridesOnRod: true },
    length: sleeveOnWashers,
    faces: ['sleeve top', 'washers'],
  },
  sleeve_plate: {
    ...{ label: 'sleeve on the mount’s plate', short: 'sleeve to plate', part: 'sleeve' },
    length: sleeveOnPlate,
    faces: ['sleeve top', 'plate'],
  },
  body_isolator: {
    ...{ label: 'body on isolator', short: 'body to isolator', part: 'body' },
    length: (site, corner, geometry) =>
      onIsolator(site, corner, geometry, corner.damper.bodyDiameter, corner.damper.bodyLength),
    faces: ['body top', 'isolator'],
  },
  body_flange: {
    ...{ label: 'body on mount flange', short: 'body to flange', part: 'body' },
    length: (site, corner, geometry) =>
      onFlange(site, corner, geometry, corner.damper.bodyDiameter, corner.damper.bodyLength),
    faces: ['body top', 'flange'],
  },
  tyre_arch: {
    ...{ label: 'tyre on arch', short: 'tyre to arch', part: 'tyre' },
    length: (site, { mount }) => damperLengthAt(site, mount, site.tyreOnArchHeight),
    // Tyre and arch are beside the damper: the tower plane sinks as far as the arch does.
    faces: ['tower on tyre', 'tower'],
  },
} as const satisfies Record<string, ContactRecord>;

export type ContactName = keyof typeof CONTACT;
export const CONTACTS = Object.keys(CONTACT) as ContactName[];

/** Their damper lengths in the symbols of the quantities; null: read off a curve. Apart, so that no page carries it. */
export const CONTACT_EXPRESSIONS: Readonly<
  Record<ContactName, string | null | ((length: number | undefined, geometry: Geometry) => string)>
> = {
  coil_bind: 'P + a_seat + S0',
  damper: 'l_in',
  sleeve_isolator: 'T + a_seat + h_isp',
  sleeve_flange: 'T + a_fl + h_spig',
  sleeve_washers: (length, { sleeveTop }) => (length === sleeveTop ? 'T' : 'T + p'),
  sleeve_plate: 'T - (h_bush + h_wash)',
  body_isolator: 'B + a_seat + h_isp',
  body_flange: 'B + a_fl + h_spig',
  tyre_arch: null,
};

/** The contact of the spring's own coils; all others are metal, or the tyre. */
export const COIL_BIND = 'coil_bind' satisfies ContactName;

/** What stops a wheel on its way: metal or the closed stop in bump, and whatever ends its droop. */
export type WheelStop = ContactName | 'closed_stop' | 'droop';

/**
 * What a person calls an end of a wheel's way.
 *
 * Units: `stop` by its name; result words.
 * Valid: every stop.
 */
export function wheelStopLabel(stop: WheelStop): string {
  if (stop === 'closed_stop') return 'bump stop closed';
  return stop === 'droop' ? 'full droop' : CONTACT[stop].label;
}

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
  const found: [ContactName, number][] = [];
  for (const name of CONTACTS) {
    const length = (CONTACT[name] as ContactRecord).length(site, corner, geometry, perch);
    if (length !== null) found.push([name, length]);
  }
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
  return 'ridesOnRod' in CONTACT[name] ? 0 : corner.mount.bushGive;
}

/**
 * The margin that a contact's clearance must keep.
 *
 * Units: `site` margins and `corner` spring in mm, `name` of the contact; result mm along the damper.
 * Valid: any contact: coil bind, damper, sleeve, body and tyre have one each; that to coil bind may differ between springs.
 */
export function marginFor(site: Site, corner: Pick<Corner, 'spring'>, name: ContactName): number {
  const { part } = CONTACT[name];
  return part === 'spring' ? coilBindMargin(site.margins.coilBind, corner.spring).value : site.margins[part];
}

/**
 * The least sum of gaps between coils where a corner that keeps its margin to coil bind comes nearer than that; null where
 * it does not.
 *
 * Units: `corner` and its `contacts` in mm; result mm, its clearance beside it.
 * Valid: see `leastGapsOf`.
 */
export function gapsMissed({
  corner,
  contacts,
}: {
  readonly corner: Pick<Corner, 'spring'>;
  readonly contacts: readonly Pick<Contact, 'name' | 'clearance' | 'margin'>[];
}): { readonly clearance: number; readonly least: number } | null {
  const least = leastGapsOf(corner.spring);
  const bind = contacts.find(({ name }) => name === COIL_BIND) as Contact;
  return least !== null && bind.clearance >= bind.margin && bind.clearance < least
    ? { clearance: bind.clearance, least }
    : null;
}

/** A part with its top at `top` against the isolator's spigot, where it doesn't pass its bore. */
function onIsolator(site: Site, { isolator }: Corner, geometry: Geometry, diameter: number, top: number) {
  const isMet = isolator !== null && !passes(site, diameter, isolator.bore);
  return isMet ? top + geometry.seatBelowShoulder + isolator.spigot : null;
}

/** The same against the mount's flange. */
function onFlange(site: Site, { mount }: Corner, geometry: Geometry, diameter: number, top: number) {
  return passes(site, diameter, mount.bore) ? null : top + geometry.flangeBelowShoulder + mount.spigot;
}

/** Where the stop lies between sleeve and washers it keeps them, closed, its closed length apart. */
function sleeveOnWashers(site: Site, { sleeve, mount, bumpStop }: Corner, { stopMeets, sleeveTop }: Geometry) {
  if (stopMeets === 'sleeve') return null;
  if (bumpStop.packer > 0 && !passes(site, bumpStop.packerDiameter, sleeve.bore)) return sleeveTop + bumpStop.packer;
  return passes(site, mount.washerDiameter, sleeve.bore) ? null : sleeveTop;
}

/** The plate is above the shoulder, so a sleeve that passes all else may rise past the shoulder before it meets the plate. */
function sleeveOnPlate(site: Site, corner: Corner, geometry: Geometry) {
  const { sleeve, mount, isolator } = corner;
  const isStopped = geometry.stopMeets === 'sleeve' || sleeveOnWashers(site, corner, geometry) !== null;
  const rises =
    passes(site, sleeve.outerDiameter, mount.bore) &&
    (isolator === null || passes(site, sleeve.outerDiameter, isolator.bore));
  return !isStopped && rises ? geometry.sleeveTop - (mount.lowerBush + mount.washers) : null;
}

// Full bump: how short the damper gets, by the setup's bump policy.

export interface FullBump {
  /** `l_full` and the ride height there. */
  readonly length: number;
  readonly height: number;
}

/**
 * The design position at full bump. `closed`: the stop fully closed. `load`: the balance of spring, gas and stop
 * under the multiple of the heaviest sprung load, kept between the stop closed and the stop just met (at the latest, where a sleeve
 * may be landed on or entered).
 *
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `perch` mm; result mm.
 * Valid: with `load`, a harder hit goes further in.
 * Source: root of `surplusAt`, see `rootBetween`.
 */
export function fullBumpOf(site: Site, corner: Corner, geometry: Geometry, perch: number): FullBump {
  const { closedHeight, squeezeHeight } = geometry;
  if (site.bump.kind === 'closed') return { length: geometry.closedLength, height: closedHeight };
  const load = bumpLoad(site);
  const surplus = (height: number) => surplusAt(site, corner, geometry, height, load, perch);
  if (surplus(closedHeight) <= 0) return { length: geometry.closedLength, height: closedHeight };
  if (surplus(squeezeHeight) >= 0) return { length: geometry.squeezeLength, height: squeezeHeight };
  const height = rootBetween(surplus, closedHeight, squeezeHeight);
  return { length: baseAt(site.motion, height) + corner.mount.raise, height };
}

/**
 * Load at the wheel under which full bump is judged with the `load` policy; 0 with `closed`.
 *
 * Equation: n x the heaviest sprung load of all load states
 * Units: `site` loads in N; result N.
 * Valid: any setup.
 * Source: definition of the policy.
 */
export function bumpLoad(site: Site): number {
  return site.bump.kind === 'load' ? site.bump.multiple * site.heaviestLoad : 0;
}

/**
 * Damper length at full bump with the spring stack under a force. With the load policy full bump itself depends on the
 * perch, so the length is solved at which this force balances the bump load.
 *
 * Units: `site`, `corner`, `geometry` in mm and N; `springForce` N; result mm.
 * Valid: as `fullBumpOf`.
 * Source: root of `surplusWith`, see `rootBetween`.
 */
export function fullLengthUnder(site: Site, corner: Corner, geometry: Geometry, springForce: number): number {
  if (site.bump.kind === 'closed') return geometry.closedLength;
  const surplus = (height: number) => surplusWith(site, corner, geometry, height, bumpLoad(site), springForce);
  const { closedHeight, squeezeHeight } = geometry;
  if (surplus(closedHeight) <= 0) return geometry.closedLength;
  if (surplus(squeezeHeight) >= 0) return geometry.squeezeLength;
  return damperLengthAt(site, corner.mount, rootBetween(surplus, closedHeight, squeezeHeight));
}

/**
 * The lowest perch at which full bump is no shorter than a damper length.
 *
 * Units: `site`, `corner`, `geometry` in mm and N; `needed` damper length mm; result mm; -Infinity: any perch, Infinity: none.
 * Valid: as `fullBumpOf`.
 * Source: see `standingAt`.
 */
export function perchClearing(site: Site, corner: Corner, geometry: Geometry, needed: number): number {
  if (needed <= geometry.closedLength) return Number.NEGATIVE_INFINITY;
  if (site.bump.kind === 'closed' || needed > geometry.squeezeLength) return Number.POSITIVE_INFINITY;
  const standing = standingAt(site, corner, geometry, rideHeightAt(site, corner.mount, needed), bumpLoad(site));
  return standing.springForce <= 0 ? Number.NEGATIVE_INFINITY : standing.perch;
}

/** Fit: diameters that must pass through or over each other, and the stack on the rod's thread. */
import type { Geometry } from './geometry.ts';
import type { Corner, Site } from './site.ts';

export const FITS = [
  'spring_over_sleeve',
  'spring_over_spigot',
  'sleeve_over_body',
  'helper_over_sleeve',
  'coupler_over_sleeve',
  'stop_in_mount',
  'stop_in_isolator',
  'thread_start',
  'thread_end',
] as const;
export type FitName = (typeof FITS)[number];

export interface Fit {
  readonly name: FitName;
  /** What must be at least `needed`, mm: a diametral clearance, or a length of thread to spare. */
  readonly spare: number;
  readonly needed: number;
}

/**
 * Every fit that exists for this corner.
 *
 * Units: `site`, `corner`, `geometry` in mm; result mm to spare and needed: on diameter, or of thread.
 * Valid: round parts on one axis.
 * Source: geometry of the parts, derived.
 */
export function fitsOf(site: Site, corner: Corner, geometry: Geometry): Fit[] {
  const fits: Fit[] = [{ name: 'sleeve_over_body', spare: bodySlop(corner.sleeve, corner.damper), needed: 0 }];
  addStackFits(fits, site, corner);
  addHeadFits(fits, site, corner, geometry);
  return fits;
}

/**
 * The sleeve over the body: a shim takes up what is loose, so it only has to go over.
 * Equation: slop = sleeve bore - body diameter
 * Units: bore of `sleeve` and body of `damper` mm; result mm on diameter, at least 0 where the sleeve goes over.
 * Valid: any sleeve and damper; negative where the sleeve does not go over.
 * Source: geometry of the parts.
 */
export function bodySlop(sleeve: Corner['sleeve'], damper: Corner['damper']): number {
  return sleeve.bore - damper.bodyDiameter;
}

/**
 * Spring, helper and coupler over sleeve and perch.
 *
 * Units: `site` margins and `corner` parts in mm; result mm on diameter.
 * Valid: what slides along the sleeve needs the passing clearance, what sits on the spigot only has to go over.
 */
export function stackFits(site: Site, corner: StackParts): Fit[] {
  const fits: Fit[] = [];
  addStackFits(fits, site, corner);
  return fits;
}

type StackParts = Pick<Corner, 'sleeve' | 'perch' | 'helper' | 'spring'>;

function addStackFits(fits: Fit[], site: Site, corner: StackParts): void {
  const { sleeve, spring, perch, helper } = corner;
  const needed = site.margins.passing;
  const over = sleeve.outerDiameter;
  fits.push({ name: 'spring_over_sleeve', spare: spring.bore - over, needed });
  if (perch.spigotDiameter !== null) {
    fits.push({ name: 'spring_over_spigot', spare: lowestBore(corner) - perch.spigotDiameter, needed: 0 });
  }
  if (!helper) return;
  fits.push({ name: 'helper_over_sleeve', spare: helper.bore - over, needed });
  if (helper.coupler > 0) fits.push({ name: 'coupler_over_sleeve', spare: helper.couplerBore - over, needed });
}

/**
 * What doesn't depend on sleeve, perch or spring: the stop in mount and isolator, nuts on the rod's thread.
 *
 * Units: `site`, `corner`, `geometry` in mm; result mm on diameter, or of thread.
 * Valid: a rod end that is given; without one its thread is not checked.
 */
export function headFits(site: Site, corner: Corner, geometry: Geometry): Fit[] {
  const fits: Fit[] = [];
  addHeadFits(fits, site, corner, geometry);
  return fits;
}

function addHeadFits(fits: Fit[], site: Site, corner: Corner, geometry: Geometry): void {
  addStopFits(fits, corner, geometry, site.margins.passing);
  addThreadFits(fits, corner);
}

/** The spring that stands on the perch: the main spring, or the helper where one is fitted below it. */
function lowestBore(corner: StackParts): number {
  return corner.helper ? Math.min(corner.helper.bore, corner.spring.bore) : corner.spring.bore;
}

/** A bump stop that reaches up past the flange or the isolator's face must pass their bores. */
function addStopFits(fits: Fit[], corner: Corner, geometry: Geometry, passing: number): void {
  const { bumpStop, mount, isolator } = corner;
  const top = bumpStop.packer;
  const bottom = bumpStop.packer + bumpStop.length;
  if (top < geometry.flangeBelowShoulder + mount.spigot) {
    fits.push({ name: 'stop_in_mount', spare: mount.bore - bumpStop.diameter, needed: passing });
  }
  const isolatorBottom = geometry.seatBelowShoulder + (isolator?.spigot ?? 0);
  if (isolator && top < isolatorBottom && bottom > geometry.flangeBelowShoulder) {
    fits.push({ name: 'stop_in_isolator', spare: isolator.bore - bumpStop.diameter, needed: passing });
  }
}

/** The nut must not bottom on the plain shank, and nut and jam nut must both be on full thread. */
function addThreadFits(fits: Fit[], { rodEnd, mount }: Corner): void {
  if (!rodEnd) return;
  const stack = mount.washers + mount.lowerBush + rodEnd.plateThickness + rodEnd.upperBush + rodEnd.upperWashers;
  fits.push({ name: 'thread_start', spare: stack - rodEnd.threadStart, needed: 0 });
  fits.push({ name: 'thread_end', spare: rodEnd.threadEnd - stack - rodEnd.nut - rodEnd.jamNut, needed: 0 });
}

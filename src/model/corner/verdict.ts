/**
 * A corner judged for its checks alone: the same findings as the whole model's, without what only a reader of one
 * combination asks for (clearances at the wheel, rates under each load state), so that advice can try many corners.
 */
import { heightOn, standingAt } from './balance.ts';
import { type Contact, type ContactName, contactLengths, fullBumpOf, giveFor, marginFor } from './contacts.ts';
import { type Finding, findingsOf } from './findings.ts';
import { geometryOf } from './geometry.ts';
import { ratesAt } from './rates.ts';
import type { Corner, Site } from './site.ts';
import { type CornerState, sideStates } from './state.ts';

/** A state whose contacts have no clearance at the wheel (NaN) and whose load states share the standing rates. */
export function lightState(site: Site, corner: Corner, geometry = geometryOf(site, corner)): CornerState {
  const height = site.target.targetHeight;
  const standing = standingAt(site, corner, geometry, height, site.sprungLoad);
  const { perch } = standing;
  const full = fullBumpOf(site, corner, geometry, perch);
  const rates = ratesAt(site, corner, geometry, standing, site.sprungMass);
  return {
    site,
    corner,
    geometry,
    standing,
    rates,
    full,
    contacts: lightContacts(site, corner, contactLengths(site, corner, geometry, perch), full.length),
    bumpTravel: height - geometry.stopHeight,
    droopTravel: geometry.droopHeight - height,
    slack: geometry.droopLength - geometry.seatBelowShoulder - perch - geometry.stack.freeLength,
    loads: site.loads.map((load) => {
      const loaded = heightOn(site, corner, geometry, load.sprungLoad, perch);
      const travels = { bumpTravel: loaded - geometry.stopHeight, droopTravel: geometry.droopHeight - loaded };
      return { load, height: loaded, ...travels, rates };
    }),
    sides: sideStates(site, corner, geometry, height, (own, parts, lengths, seat, length) =>
      lightContacts(own, parts, contactLengths(own, parts, lengths, seat), length),
    ),
  };
}

/** Contacts at their damper lengths, without their clearance at the wheel (NaN). */
export function lightContacts(
  site: Site,
  corner: Corner,
  lengths: readonly (readonly [ContactName, number])[],
  full: number,
): Contact[] {
  return lengths.map(([name, length]) => {
    const clearance = full - length - giveFor(corner, name);
    return { name, length, clearance, atWheel: Number.NaN, margin: marginFor(site, corner, name) };
  });
}

export function findingsAt(site: Site, corner: Corner): Finding[] {
  return findingsOf(lightState(site, corner));
}

export function works(site: Site, corner: Corner): boolean {
  return findingsAt(site, corner).length === 0;
}

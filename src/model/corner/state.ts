/**
 * One corner, judged: the story of the model from parts to clearances.
 *
 *   parts -> geometry -> standing at the target height -> full bump -> contacts
 *                                \-> rates and frequencies      \-> load states
 */
import type { SideName } from '../scenario.ts';
import { forceAt } from '../stack.ts';
import { heightOn, perchFor, type Standing, standingAt } from './balance.ts';
import { COIL_BIND, type Contact, contactsAt, type FullBump, fullBumpOf } from './contacts.ts';
import { type Geometry, geometryOf } from './geometry.ts';
import { type Rates, ratesAt } from './rates.ts';
import { type Corner, type Site, type SiteLoad, siteAtSide } from './site.ts';

export interface CornerState {
  readonly site: Site;
  readonly corner: Corner;
  readonly geometry: Geometry;
  readonly standing: Standing;
  readonly rates: Rates;
  readonly full: FullBump;
  readonly contacts: readonly Contact[];
  /** Travel of the wheel from standing to the stop just met, and to full droop, mm. */
  readonly bumpTravel: number;
  readonly droopTravel: number;
  /** Looseness of the spring at full droop, mm: positive rattles, negative is preload. */
  readonly slack: number;
  readonly loads: readonly LoadedState[];
  /** At the load of either side; empty where one load stands for both. */
  readonly sides: readonly SideState[];
}

/** Full bump and contacts on one side of the axle, its perch set for the same ride height under its own load. */
interface SideState {
  readonly name: SideName;
  readonly perch: number;
  readonly full: FullBump;
  readonly contacts: readonly Contact[];
}

/** The corner under a load state, the perch left where the design load put it. */
export interface LoadedState {
  readonly load: SiteLoad;
  readonly height: number;
  readonly bumpTravel: number;
  readonly droopTravel: number;
  readonly rates: Rates;
}

/**
 * Judges one combination standing at a ride height, the setup's target unless given.
 *
 * Units: `site`, `corner`, `geometry` in mm, N, kg and N/mm; `height` hub to arch mm; result in the same units, frequencies in Hz.
 * Valid: any combination: what fails says so in its numbers, and `findingsOf` names it.
 * Source: see the functions it calls.
 */
export function cornerState(
  site: Site,
  corner: Corner,
  height = site.target.targetHeight,
  geometry = geometryOf(site, corner),
): CornerState {
  const standing = standingAt(site, corner, geometry, height, site.sprungLoad);
  const full = fullBumpOf(site, corner, geometry, standing.perch);
  return {
    site,
    corner,
    geometry,
    standing,
    rates: ratesAt(site, corner, geometry, standing, site.sprungMass),
    full,
    contacts: contactsAt(site, corner, geometry, standing.perch, full.length),
    bumpTravel: height - geometry.stopHeight,
    droopTravel: geometry.droopHeight - height,
    slack: geometry.droopLength - geometry.seatBelowShoulder - standing.perch - geometry.stack.freeLength,
    loads: site.loads.map((load) => loadedState(site, corner, geometry, standing.perch, load)),
    sides: sideStates(site, corner, geometry, height, contactsAt),
  };
}

/**
 * Full bump and contacts at the load of either side, the perch set for a ride height.
 *
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `height` hub to arch mm, `contactsOf` reads the contacts of a full
 * bump; result mm.
 * Valid: any combination; no sides where one load stands for both.
 * Source: see `standingAt`, `fullBumpOf` and `contactsAt`.
 */
export function sideStates(
  site: Site,
  corner: Corner,
  geometry: Geometry,
  height: number,
  contactsOf: typeof contactsAt,
): SideState[] {
  return site.sides.map((side) => {
    const own = siteAtSide(site, side);
    const perch = perchFor(own, corner, geometry, height, own.sprungLoad);
    const full = fullBumpOf(own, corner, geometry, perch);
    return { name: side.name, perch, full, contacts: contactsOf(own, corner, geometry, perch, full.length) };
  });
}

function loadedState(site: Site, corner: Corner, geometry: Geometry, perch: number, load: SiteLoad): LoadedState {
  const height = heightOn(site, corner, geometry, load.sprungLoad, perch);
  const standing = standingAt(site, corner, geometry, height, load.sprungLoad);
  return {
    load,
    height,
    bumpTravel: height - geometry.stopHeight,
    droopTravel: geometry.droopHeight - height,
    rates: ratesAt(site, corner, geometry, standing, load.sprungMass),
  };
}

/**
 * A clearance at full bump as it is with the stop fully closed: all metal comes nearer alike, bush give taken off.
 *
 * Equation: c - (l_full - l_closed)
 * Units: `state` of the judged corner in mm, `clearance` c mm; result mm.
 * Valid: any contact; the same figure where full bump is the stop closed.
 * Source: geometry of the parts, derived.
 */
export function clearanceClosed({ full, geometry }: Pick<CornerState, 'full' | 'geometry'>, clearance: number): number {
  return clearance - (full.length - geometry.closedLength);
}

/**
 * Whether forces and rates at full bump are known: not where it squeezes a stop that came without a force curve.
 *
 * Units: `state` of the judged corner, lengths in mm; result true or false.
 * Valid: any corner.
 */
export function isStopForceKnown(state: CornerState): boolean {
  const { corner, geometry, full } = state;
  return corner.bumpStop.curve !== null || full.length >= geometry.squeezeLength;
}

/**
 * Contact with the least clearance beyond its margin.
 *
 * Units: `state` of the judged corner in mm; result mm.
 * Valid: any corner; of two equal ones the first in the order of `CONTACTS`.
 */
export function thinnestContact(state: CornerState): Contact {
  return thinnestOf(state.contacts);
}

/**
 * Contact with the least clearance beyond its margin of all but the spring's own: metal, damper and tyre.
 *
 * Units: `state` of the judged corner in mm; result mm.
 * Valid: any corner: a damper can always bottom inside.
 */
export function thinnestMetal(state: CornerState): Contact {
  return thinnestOf(state.contacts.filter((c) => c.name !== COIL_BIND));
}

function thinnestOf(contacts: readonly Contact[]): Contact {
  return contacts.reduce((thin, c) => (c.clearance - c.margin < thin.clearance - thin.margin ? c : thin));
}

/**
 * Force of the spring stack at full bump: no more than its solid force, which metal takes over.
 *
 * Units: `state` of the judged corner in mm and N/mm; result N.
 * Valid: any corner.
 * Source: see `forceAt`.
 */
export function stackForceAtFullBump(state: CornerState): number {
  const { geometry, standing, full } = state;
  const deflection = geometry.stack.freeLength - (full.length - geometry.seatBelowShoulder - standing.perch);
  const most = geometry.stack.mainTravel + geometry.stack.helperTravel;
  return forceAt(geometry.stack, Math.min(deflection, most));
}

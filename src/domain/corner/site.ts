/**
 * What stands fixed while parts are tried: one axle's wheel, motion and loads together with what one setup
 * asks of it. Every combination of that axle and setup is judged at the same site.
 */
import { STANDARD_GRAVITY } from '../constants.ts';
import { baseAt, heightAt, type MotionCurve, motionCurve } from '../motion.ts';
import type { BumpStop, Damper, Helper, Isolator, Mount, Perch, RodEnd, Sleeve, Spring } from '../parts.ts';
import type { Axle, AxleName, AxleTarget, BumpPolicy, Margins, Setup } from '../scenario.ts';

/** One option of each part family: a combination for one corner. */
export interface Corner {
  readonly damper: Damper;
  readonly mount: Mount;
  readonly isolator: Isolator | null;
  readonly bumpStop: BumpStop;
  readonly rodEnd: RodEnd | null;
  readonly sleeve: Sleeve;
  readonly perch: Perch;
  readonly helper: Helper | null;
  readonly spring: Spring;
}

export interface Site {
  readonly axle: AxleName;
  readonly motion: MotionCurve;
  readonly unsprungMass: number;
  /** Sprung mass of one corner at the design load, kg. */
  readonly sprungMass: number;
  /** `W`, sprung load at the wheel, N. */
  readonly sprungLoad: number;
  readonly tyreRate: number;
  readonly tyreOnArchHeight: number;
  readonly lowestWheelHeight: number | null;
  readonly bushes: Axle['bushes'];
  readonly target: AxleTarget;
  readonly bump: BumpPolicy;
  readonly standingOnStop: boolean;
  readonly frequencyBasis: 'body' | 'ride';
  readonly loads: readonly SiteLoad[];
  /** Sprung load of the heaviest state, N: full bump is judged with it. */
  readonly heaviestLoad: number;
  readonly margins: Margins;
}

/** What of a scenario and of a setup a site is made from. */
export interface SiteGivens {
  readonly axles: Readonly<Record<AxleName, Omit<Axle, 'wheelLoads' | 'roll' | 'options'>>>;
  readonly margins: Margins;
}
export type SiteSetup = Pick<Setup, 'axles' | 'bump' | 'standingOnStop' | 'frequencyBasis' | 'loadStates'>;

/** A load state at this axle: the sprung mass and load of one corner. */
export interface SiteLoad {
  readonly name: string;
  readonly sprungMass: number;
  readonly sprungLoad: number;
}

/**
 * What stands fixed for one axle and setup: motion, loads and what is asked for.
 *
 * Equation: W = (wheel load - unsprung mass) g_n
 * Units: `scenario` and `setup` in mm, N, kg and N/mm, `axleName` front or rear, `wheelLoad` the axle's unless one
 * side's is given, kg; result in the same units.
 * Valid: a checked scenario: the wheel load above the unsprung mass, a motion ratio above 0.
 * Source: g_n exact (NIST SP 811 App. B.8).
 */
export function siteOf(
  scenario: SiteGivens,
  setup: SiteSetup,
  axleName: AxleName,
  wheelLoad = scenario.axles[axleName].wheelLoad,
): Site {
  const axle = scenario.axles[axleName];
  const sprungMass = wheelLoad - axle.unsprungMass;
  const loads = setup.loadStates.map((state) => {
    const mass = sprungMass + state.extra[axleName];
    return { name: state.name, sprungMass: mass, sprungLoad: mass * STANDARD_GRAVITY };
  });
  const sprungLoad = sprungMass * STANDARD_GRAVITY;
  return {
    axle: axleName,
    motion: motionCurve(axle.motion),
    unsprungMass: axle.unsprungMass,
    sprungMass,
    sprungLoad,
    tyreRate: axle.tyreRate,
    tyreOnArchHeight: axle.tyreOnArchHeight,
    lowestWheelHeight: axle.lowestWheelHeight,
    bushes: axle.bushes,
    target: setup.axles[axleName],
    bump: setup.bump,
    standingOnStop: setup.standingOnStop,
    frequencyBasis: setup.frequencyBasis,
    loads,
    heaviestLoad: Math.max(sprungLoad, ...loads.map((l) => l.sprungLoad)),
    margins: scenario.margins,
  };
}

/**
 * Damper length at a ride height with this mount: raising the mount by 1 mm lengthens it by 1 mm.
 *
 * Equation: l = base(H) + r
 * Units: `site` motion and `mount` raise r in mm, `height` H mm; result mm.
 * Valid: inside the measured heights; outside the curve goes on straight.
 * Source: see `baseAt`.
 */
export function damperLengthAt(site: Site, mount: Mount, height: number): number {
  return baseAt(site.motion, height) + mount.raise;
}

/**
 * Ride height at a damper length with this mount: the inverse of `damperLengthAt`.
 *
 * Units: `site` motion and `mount` raise in mm, `length` mm; result mm, hub to arch.
 * Valid: as `damperLengthAt`.
 * Source: see `heightAt`.
 */
export function rideHeightAt(site: Site, mount: Mount, length: number): number {
  return heightAt(site.motion, length - mount.raise);
}

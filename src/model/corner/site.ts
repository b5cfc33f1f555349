/**
 * What stands fixed while parts are tried: one axle's wheel, motion and loads together with what one setup
 * asks of it. Every combination of that axle and setup is judged at the same site.
 */
import { baseAt, heightAt, type MotionCurve, motionCurve } from '../motion.ts';
import type { BumpStop, Damper, Helper, Isolator, Mount, Perch, RodEnd, Sleeve, Spring } from '../parts.ts';
import {
  type Axle,
  type AxleName,
  type AxleOwn,
  type AxleTarget,
  type BumpPolicy,
  type Margins,
  type Setup,
  SIDE_NAMES,
  type SideName,
} from '../scenario.ts';
import { STANDARD_GRAVITY } from '../units.ts';

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

export interface Site extends AxleOwn {
  readonly axle: AxleName;
  readonly motion: MotionCurve;
  /** Sprung mass of one corner at the design load, kg. */
  readonly sprungMass: number;
  /** `W`, sprung load at the wheel, N. */
  readonly sprungLoad: number;
  readonly target: AxleTarget;
  readonly bump: BumpPolicy;
  readonly standingOnStop: boolean;
  readonly frequencyBasis: 'body' | 'ride';
  readonly loads: readonly SiteLoad[];
  /** Sprung load of the heaviest state, N: full bump is judged with it. */
  readonly heaviestLoad: number;
  /** Left and right where each has a load of its own: no metal may meet on either. */
  readonly sides: readonly SiteSide[];
  readonly margins: Margins;
}

/** The load of one side, kg and N; with the perch set for the same height its spring and full bump differ. */
export interface SiteSide {
  readonly name: SideName;
  readonly sprungMass: number;
  readonly sprungLoad: number;
  readonly heaviestLoad: number;
}

/** What the wheels of an axle carry, kg: one wheel, and either side where they differ. */
export interface Carried {
  readonly wheelLoad: number;
  readonly wheelLoads?: Axle['wheelLoads'];
}

/** What of a scenario and of a setup a site is made from. */
interface SiteGivens {
  readonly axles: Readonly<Record<AxleName, Omit<Axle, 'wheelLoads' | 'roll' | 'options'> & Carried>>;
  readonly margins: Margins;
}
type SiteSetup = Pick<Setup, 'axles' | 'bump' | 'standingOnStop' | 'frequencyBasis' | 'loadStates'>;

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
 * Units: `scenario` and `setup` in mm, N, kg and N/mm, `axleName` front or rear, `carried` the axle's unless one
 * side's is given, kg; result in the same units.
 * Valid: a checked scenario: the wheel load above the unsprung mass, a motion ratio above 0.
 * Source: g_n exact (NIST SP 811 App. B.8).
 */
export function siteOf(
  scenario: SiteGivens,
  setup: SiteSetup,
  axleName: AxleName,
  carried = scenario.axles[axleName] as Carried,
): Site {
  const { wheelLoad, wheelLoads: own, motion, roll, options, ...fixed } = scenario.axles[axleName] as Axle;
  const extras = setup.loadStates.map((state) => ({ name: state.name, extra: state.extra[axleName] }));
  const loadsOf = (wheelLoad: number) => {
    const mass = wheelLoad - fixed.unsprungMass;
    const loads = extras.map(({ name, extra }) => ({ name, ...sprung(mass + extra) }));
    const own = sprung(mass);
    return { ...own, loads, heaviestLoad: Math.max(own.sprungLoad, ...loads.map((l) => l.sprungLoad)) };
  };
  const { wheelLoads } = carried;
  const sides = wheelLoads ? SIDE_NAMES.map((name) => sideOf(name, loadsOf(wheelLoads[name]))) : [];
  return {
    axle: axleName,
    ...fixed,
    motion: motionCurve(motion),
    ...loadsOf(carried.wheelLoad),
    sides,
    target: setup.axles[axleName],
    bump: setup.bump,
    standingOnStop: setup.standingOnStop,
    frequencyBasis: setup.frequencyBasis,
    margins: scenario.margins,
  };
}

function sprung(sprungMass: number) {
  return { sprungMass, sprungLoad: sprungMass * STANDARD_GRAVITY };
}

function sideOf(name: SideName, { sprungMass, sprungLoad, heaviestLoad }: Omit<SiteSide, 'name'>): SiteSide {
  return { name, sprungMass, sprungLoad, heaviestLoad };
}

/**
 * The site as one side of its axle has it: its load and the bump load that follows. Load states are left out, since only
 * metal is asked of a side.
 *
 * Units: `site` and `side` in kg and N; result in the same units.
 * Valid: a side of that site.
 */
export function siteAtSide(site: Site, { sprungMass, sprungLoad, heaviestLoad }: SiteSide): Site {
  return { ...site, sprungMass, sprungLoad, heaviestLoad, loads: [], sides: [] };
}

/**
 * The load states whose standing height has to be held against the closed stop: where the car may stand on its stop. In
 * any other setup the least bump travel, never below 0, keeps them clear of it.
 *
 * Units: `site` loads in N; result the states.
 * Valid: any setup.
 */
export function standingStates(site: Site): readonly SiteLoad[] {
  return site.standingOnStop ? site.loads : [];
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

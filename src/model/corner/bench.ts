/**
 * The corner on the bench: what its parts decide among themselves, before any wheel, load or wish is known. Only lengths
 * along the damper are asked: what meets on the way in, and between which places the perch seat is safe.
 *
 * A dimension that nobody measured is NaN. It is judged twice, as if its parts met and as if they passed: what holds both
 * ways is sure, and what differs says what to measure.
 */
import type { MotionCurve } from '../motion.ts';
import type { AxleName, AxleOwn, AxleTarget, Margins } from '../scenario.ts';
import { CHECK, CORNER_CHECKS, type LimitName, recordOf } from './checks.ts';
import { CONTACT, type Contact, contactsAt } from './contacts.ts';
import { type Fit, fitsOf } from './fit.ts';
import { type Geometry, geometryOf } from './geometry.ts';
import type { Corner, Site } from './site.ts';

/** One millimetre of height is one of damper length. */
const ALONG_THE_DAMPER: MotionCurve = {
  heights: [0, 1000],
  bases: [0, 1000],
  slopes: [1, 1],
  ratioAtMiddle: 1,
  ratioSlope: 0,
  middle: 500,
};

/** Asks for nothing but a spring that stays seated: the safe side of what a setup may allow. */
export const NO_WISHES: AxleTarget = {
  targetHeight: 0,
  wantedFrom: 0,
  wantedTo: 0,
  leastBumpTravel: 0,
  goodBumpTravel: 1,
  leastDroopTravel: 0,
  frequencyFrom: 0,
  frequencyTo: Number.POSITIVE_INFINITY,
  wantedFrequency: null,
  allowedSlack: 0,
  dampingFrom: null,
  dampingTo: null,
};

/**
 * A site without a wheel: no load, no tyre, nothing but the damper ends the droop, full bump with the stop closed. What
 * else the axle is stays.
 *
 * Units: `own` of the axle and `margins` in mm, `axle` front or rear; result in mm, its "ride height" the damper length less the mount's raise.
 * Valid: lengths along the damper alone; forces, frequencies and travels of the wheel mean nothing at it.
 * Source: definition.
 */
export function benchSite(axle: AxleName, { assumed, ...own }: AxleOwn, margins: Margins): Site {
  return {
    axle,
    ...own,
    unsprungMass: 0,
    tyreRate: Number.NaN,
    tyreOnArchHeight: Number.NEGATIVE_INFINITY,
    lowestWheelHeight: null,
    bushes: null,
    motion: ALONG_THE_DAMPER,
    sprungMass: 0,
    sprungLoad: 0,
    heaviestLoad: 0,
    sides: [],
    loads: [],
    target: NO_WISHES,
    bump: { kind: 'closed' },
    standingOnStop: false,
    frequencyBasis: 'body',
    margins,
  };
}

/** An end of the safe range of the perch seat, mm above the lower eye, with the limit that binds there. */
export interface PerchEnd {
  readonly perch: number;
  readonly limit: LimitName;
}

export interface BenchState {
  readonly site: Site;
  readonly corner: Corner;
  readonly geometry: Geometry;
  /** Lowest and highest safe place of the perch seat; -+Infinity where no place would do. */
  readonly low: PerchEnd;
  readonly high: PerchEnd;
  /** Highest less lowest, mm; negative: no place is safe. */
  readonly range: number;
  /** Metal against metal at the closed stop, whatever the perch. */
  readonly contacts: readonly Contact[];
  /** Fits whose dimensions are all known. */
  readonly fits: readonly Fit[];
  /** Those that nobody can judge. */
  readonly unjudged: readonly Fit['name'][];
}

/**
 * One combination of parts on the bench.
 *
 * Units: `site` of the bench and `corner` in mm, a dimension that was not measured NaN; result mm.
 * Valid: lengths known, diameters known or not; parts that may or may not pass each other are taken to meet.
 * Source: the limits of the checks, see `CHECK`.
 */
export function benchState(site: Site, corner: Corner): BenchState {
  const geometry = geometryOf(site, corner);
  const [low, high] = [pickEnd(site, corner, geometry, 'below'), pickEnd(site, corner, geometry, 'above')];
  const fits = fitsOf(site, corner, geometry);
  return {
    site,
    corner,
    geometry,
    low,
    high,
    range: high.perch - low.perch,
    contacts: contactsAt(site, corner, geometry, low.perch, geometry.closedLength).filter(isMetal),
    fits: fits.filter(({ spare }) => !Number.isNaN(spare)),
    unjudged: fits.filter(({ spare }) => Number.isNaN(spare)).map(({ name }) => name),
  };
}

const isMetal = ({ name }: Contact) => CONTACT[name].part !== 'spring' && CONTACT[name].part !== 'tyre';

/** The limit of the perch that binds; of a stress that nobody can work out there is none. */
function pickEnd(site: Site, corner: Corner, geometry: Geometry, way: 'below' | 'above'): PerchEnd {
  const ends = CORNER_CHECKS.flatMap((check) => recordOf(check)[way]?.({ site, corner, geometry }) ?? [])
    .filter(([, kind, perch]) => kind === 'perch' && !Number.isNaN(perch))
    .map(([limit, , perch]): PerchEnd => ({ limit: limit as LimitName, perch }));
  const binds = (a: PerchEnd, b: PerchEnd) => (way === 'below' ? b.perch > a.perch : b.perch < a.perch);
  return ends.reduce((a, b) => (binds(a, b) ? b : a));
}

/** What keeps parts from working on the bench, by how much, mm. */
export type BenchFault =
  | { readonly kind: 'contact'; readonly name: Contact['name']; readonly short: number }
  | { readonly kind: 'size'; readonly name: Fit['name']; readonly short: number }
  | { readonly kind: 'range'; readonly low: LimitName; readonly high: LimitName; readonly short: number };

/**
 * Everything that fails, in the order of contacts and fits, the range of the perch last.
 *
 * Units: `state` of the bench in mm; result mm missing.
 * Valid: what could be judged.
 */
export function benchFaults({ contacts, fits, low, high, range }: BenchState): BenchFault[] {
  const faults: BenchFault[] = [];
  for (const { name, clearance, margin } of contacts) {
    if (clearance < margin) faults.push({ kind: 'contact', name, short: margin - clearance });
  }
  for (const { name, spare, needed } of fits) {
    if (spare < needed) faults.push({ kind: 'size', name, short: needed - spare });
  }
  // A hard contact that fails leaves no place for the perch either, and is named above.
  if (range < 0 && range > Number.NEGATIVE_INFINITY) {
    faults.push({ kind: 'range', low: low.limit, high: high.limit, short: -range });
  }
  return faults;
}

/**
 * The contact with the least to spare beyond its margin; a damper can always bottom inside, so there is one.
 *
 * Units: `state` of the bench in mm; result mm.
 * Valid: any parts.
 */
export function thinnestOnBench({ contacts }: BenchState): Contact {
  return contacts.reduce((thin, c) => (c.clearance - c.margin < thin.clearance - thin.margin ? c : thin));
}

/** `depends`: works if what was not measured passes, and not if it meets. */
export type BenchVerdict = 'works' | 'depends' | 'fails';

/** Diameters whose size decides what passes what, by part; bores let pass, the others have to. */
const DECIDING = {
  damper: { bodyDiameter: 'passes' },
  mount: { bore: 'lets pass', washerDiameter: 'passes' },
  isolator: { bore: 'lets pass' },
  bumpStop: { diameter: 'passes', packerDiameter: 'passes' },
  sleeve: { bore: 'lets pass', outerDiameter: 'passes' },
} as const;

/**
 * The same parts with every diameter that was not measured such that nothing meets by it.
 *
 * Units: `corner` in mm; result mm, with bores of +Infinity and diameters of 0 in place of NaN.
 * Valid: for what passes what alone.
 */
export function passingCorner(corner: Corner): Corner {
  const parts = Object.entries(DECIDING).map(([family, fields]) => {
    const part = corner[family as keyof typeof DECIDING] as unknown as Readonly<Record<string, number>> | null;
    if (part === null) return [family, null];
    const passing = Object.entries(fields)
      .filter(([field]) => Number.isNaN(part[field]))
      .map(([field, way]) => [field, way === 'passes' ? 0 : Number.POSITIVE_INFINITY]);
    return [family, { ...part, ...Object.fromEntries(passing) }];
  });
  return { ...corner, ...Object.fromEntries(parts) };
}

/** How little wider than a sleeve's bore a stop is taken to be that lands on it, mm. */
const BARELY = 1e-9;

/**
 * What was not measured at its best: all of it passes; or the stop lands on a proud sleeve, where it closes earlier.
 *
 * Units: `corner` in mm; result mm.
 * Valid: as `passingCorner`; a sleeve that still goes over its body, and a stop no wider than it has to be.
 */
export function hopefulCorners(corner: Corner): Corner[] {
  const passing = passingCorner(corner);
  const { bumpStop, sleeve } = corner;
  if (!Number.isNaN(bumpStop.diameter) && !Number.isNaN(sleeve.bore)) return [passing];
  const bore = Number.isNaN(sleeve.bore) ? passing.damper.bodyDiameter : sleeve.bore;
  const diameter = Number.isNaN(bumpStop.diameter) ? bore + BARELY : bumpStop.diameter;
  const landing = { sleeve: { ...passing.sleeve, bore }, bumpStop: { ...passing.bumpStop, diameter } };
  return [passing, { ...passing, ...landing }];
}

export interface BenchJudgement {
  readonly verdict: BenchVerdict;
  /** With everything that may meet taken to meet. */
  readonly state: BenchState;
  readonly faults: readonly BenchFault[];
  /** With what was not measured at its best, and what fails even so: nothing measured could mend it. */
  readonly hoped: BenchState;
  readonly sure: readonly BenchFault[];
}

/**
 * The verdict on one combination, sure where what was not measured does not matter.
 *
 * Units: `site` of the bench and `corner` in mm; result mm.
 * Valid: as `benchState`.
 * Source: both extremes of what was not measured.
 */
export function judgeOnBench(site: Site, corner: Corner): BenchJudgement {
  const state = benchState(site, corner);
  const faults = benchFaults(state);
  if (faults.length === 0) return { verdict: 'works', state, faults, hoped: state, sure: [] };
  const best = hopefulCorners(corner)
    .map((one) => benchState(site, one))
    .map((hoped) => ({ hoped, sure: benchFaults(hoped) }))
    .reduce((a, b) => (b.sure.length < a.sure.length ? b : a));
  return { verdict: best.sure.length === 0 ? 'depends' : 'fails', state, faults, ...best };
}

/**
 * What a reader calls a contact, a fit or a range that fails.
 *
 * Units: `fault` of the bench in mm; result words.
 * Valid: any fault.
 */
export function benchFaultLabel(fault: BenchFault): string {
  if (fault.kind === 'contact') return CONTACT[fault.name].label;
  return fault.kind === 'size' ? CHECK.fit.label : 'no safe place for the perch';
}

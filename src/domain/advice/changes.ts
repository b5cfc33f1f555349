/**
 * The continuous changes a cure may consist of: how to read and set each on a corner, between which limits, and how
 * little of it could possibly make up a shortfall.
 */

import type { CheckName } from '../checks.ts';
import { bushForceAt, gasForceAt } from '../corner/balance.ts';
import { CLEAR_OF_STOP, CLOSED_BY, type Finding } from '../corner/findings.ts';
import { sleeveStopsBumpStop, sleeveTopOf } from '../corner/geometry.ts';
import { gasRateAt } from '../corner/rates.ts';
import { type Corner, damperLengthAt, type Site } from '../corner/site.ts';
import { uncorrectedStress } from '../formula/coil.ts';
import { leastRatio, ratioAt } from '../motion.ts';
import type { WireData } from '../parts.ts';
import { kneeForce, rateUnder, springStack } from '../stack.ts';
import type { CureKind } from './types.ts';

export interface ContinuousChange {
  readonly kind: Exclude<CureKind, 'helper'>;
  /** The family of the part it is made on, and that part's name. */
  readonly family: 'sleeve' | 'mount' | 'bumpStop';
  readonly part: (corner: Corner) => string;
  readonly get: (corner: Corner) => number;
  readonly set: (corner: Corner, value: number) => Corner;
  /** Least and greatest value looked at, mm. */
  readonly limits: (corner: Corner) => readonly [least: number, most: number];
  /** Whether it can do anything about a finding at all. */
  readonly touches: (finding: Finding, corner: Corner, site: Site) => boolean;
  /** How far, at most, a millimetre of it moves the length a finding is about, mm; what it doesn't touch doesn't count. */
  readonly perMm: (finding: Finding, corner: Corner, site: Site) => number;
}

/** Limits of what is looked at, mm: beyond them parts would be made anew rather than changed. Common practice, no source. */
export const LIMITS = { trim: 60, spacer: 40, shortestStop: 20, groove: 30 } as const;

/** Values in a workshop's steps, mm. */
export const STEP = 0.5;

/** Diameters that no cut, spacer or groove changes, and the stack on the rod end, which stands above the shoulder. */
const FIXED_FITS = new Set([
  ...['spring_over_sleeve', 'spring_over_spigot', 'sleeve_over_body', 'helper_over_sleeve', 'coupler_over_sleeve'],
  ...['thread_start', 'thread_end'],
]);

const isFixedFit = ({ check, detail }: Finding) => check === 'fit' && FIXED_FITS.has(detail);
/** What a cut or a groove changes: the sleeve's own contacts and the perch's places, and more only where stop meets sleeve. */
const sleeveTouches = (finding: Finding, corner: Corner, site: Site) =>
  isOfSleeve(finding) || (stopCanMeetSleeve(site, corner) && finding.check !== 'fit' && finding.check !== 'frequency');
/** A cut lowers the sleeve's top alone: the perch's lowest place stays. */
const cutTouches = (finding: Finding, corner: Corner, site: Site) =>
  sleeveTouches(finding, corner, site) && (finding.check !== 'perch_low' || stopCanMeetSleeve(site, corner));
const sleevePerMm = (_: Finding, corner: Corner, site: Site) => (stopCanMeetSleeve(site, corner) ? mostPerMm(site) : 1);

const headTouches = (finding: Finding) => !isFixedFit(finding);
const spacerTouches = (finding: Finding, corner: Corner, site: Site) =>
  headTouches(finding) && !(finding.check === 'frequency' && rateOverSpacers(site, corner) !== null);
/** A seat that rises with the mount leaves the perch where it is, but for what the gas gives or takes. */
const spacerPerMm = ({ check }: Finding, corner: Corner, site: Site) => {
  const isPerch = check === 'perch_low' || check === 'perch_high';
  const rate = isPerch && corner.mount.seat === 'fixed' ? rateOverSpacers(site, corner) : null;
  return rate === null ? mostPerMm(site) : evenGasRate(corner) / rate;
};

/** What a stop that carries nothing at ride height can't change: neither forces there nor the perch nor the droop. */
const APART_FROM_STOP = new Set(['unloaded_spring', 'perch_low', 'perch_high', 'spring_loose', 'frequency']);
const stopTouches = (finding: Finding, corner: Corner, site: Site) =>
  headTouches(finding) && !(APART_FROM_STOP.has(finding.check) && onlyEndsTravel(site, corner));
/** Clearances and the spring's deflection at full bump follow the stop closed, bump travel the stop just met. */
const stopPerMm = ({ check }: Finding, corner: Corner, site: Site) =>
  check !== 'bump_travel' && onlyEndsTravel(site, corner) ? corner.bumpStop.closedFraction : mostPerMm(site);

/** Whether the stop does nothing but end the travel, by its closed length: the corner stands clear of it. */
function onlyEndsTravel(site: Site, corner: Corner): boolean {
  return site.bump.kind === 'closed' && standsClear(site, corner);
}

function standsClear(site: Site, corner: Corner): boolean {
  const { sleeve, damper, bumpStop, mount } = corner;
  const sleeveTop = sleeveTopOf(sleeve);
  const met = sleeveStopsBumpStop(site, corner, sleeveTop) ? sleeveTop : damper.bodyLength;
  return damperLengthAt(site, mount, site.target.targetHeight) >= met + bumpStop.packer + bumpStop.length;
}

/**
 * The stack's rate at ride height where it is the same with every spacer, and the frequency with it, N/mm: the gas must
 * push evenly over the stroke, and what that adds or takes must leave the stack beyond its knee. Null where it may change.
 */
function rateOverSpacers(site: Site, corner: Corner): number | null {
  const { damper, mount, spring, helper } = corner;
  if (damper.gas.kind === 'charge' || !standsClear(site, corner)) return null;
  const height = site.target.targetHeight;
  const axial = (site.sprungLoad - bushForceAt(site, height)) / ratioAt(site.motion, height);
  const force = axial - gasForceAt(damper, damperLengthAt(site, mount, height));
  const stack = springStack(spring, helper);
  return force - LIMITS.spacer * evenGasRate(corner) > kneeForce(stack) ? rateUnder(stack, force) : null;
}

/** Rate of gas that pushes evenly over the stroke, whichever way, N/mm. */
function evenGasRate({ damper }: Corner): number {
  return Math.abs(gasRateAt(damper, damper.extended, 'vibrating'));
}

/** Checks that only sleeve and perch decide once head and springs are chosen. */
export function isOfSleeve({ check }: Finding): boolean {
  return check === 'sleeve_metal' || check === 'perch_low' || check === 'perch_high';
}

/** Whether the sleeve, left whole, would stand proud of the body and be met by the stop. */
export function stopCanMeetSleeve(site: Site, corner: Corner): boolean {
  return sleeveStopsBumpStop(site, corner, corner.sleeve.ledgeHeight + corner.sleeve.length);
}

/**
 * How a change may be advised on a corner. In a single tube the piston runs on the inside of the wall that a groove would
 * weaken, gas pressure behind it; where nobody said what the body is, a groove is the last thing to think of.
 */
export type Advised = 'freely' | 'last' | 'never';

export function howAdvised({ kind }: ContinuousChange, { damper }: Corner): Advised {
  if (kind !== 'groove' || damper.body === 'twin_tube') return 'freely';
  return damper.body === 'unknown' ? 'last' : 'never';
}

export const CHANGES: readonly ContinuousChange[] = [
  {
    kind: 'trim',
    family: 'sleeve',
    part: ({ sleeve }) => sleeve.name,
    get: ({ sleeve }) => sleeve.trim,
    set: (corner, trim) => ({ ...corner, sleeve: { ...corner.sleeve, trim } }),
    limits: ({ sleeve }) => [0, Math.min(LIMITS.trim, sleeve.length - STEP)],
    touches: cutTouches,
    perMm: sleevePerMm,
  },
  {
    kind: 'spacer',
    family: 'mount',
    part: ({ mount }) => mount.name,
    get: ({ mount }) => mount.spacer,
    set: (corner, spacer) => ({ ...corner, mount: withSpacer(corner.mount, spacer) }),
    limits: () => [0, LIMITS.spacer],
    touches: spacerTouches,
    perMm: spacerPerMm,
  },
  {
    kind: 'stop',
    family: 'bumpStop',
    part: ({ bumpStop }) => bumpStop.name,
    get: ({ bumpStop }) => bumpStop.length,
    set: (corner, length) => ({ ...corner, bumpStop: { ...corner.bumpStop, length } }),
    limits: ({ bumpStop }) => [Math.min(LIMITS.shortestStop, bumpStop.uncutLength), bumpStop.uncutLength],
    touches: stopTouches,
    perMm: stopPerMm,
  },
  {
    kind: 'groove',
    family: 'sleeve',
    part: ({ sleeve }) => sleeve.name,
    get: ({ sleeve }) => sleeve.grooveDrop,
    set: (corner, grooveDrop) => ({ ...corner, sleeve: { ...corner.sleeve, grooveDrop } }),
    limits: ({ sleeve }) => [0, Math.min(LIMITS.groove, sleeve.ledgeHeight)],
    touches: sleeveTouches,
    perMm: sleevePerMm,
  },
];

/** A spacer lifts the shoulder of a mount bolted above the tower and lowers that of one bolted below it. */
function withSpacer(mount: Corner['mount'], spacer: number): Corner['mount'] {
  const raise = mount.bolted === 'above' ? mount.bareRaise + spacer : mount.bareRaise - spacer;
  return { ...mount, spacer, raise };
}

/**
 * The least change that could make up all shortfalls, mm. A millimetre of change moves the damper's length, the seat or
 * a contact by one; at the wheel that is 1/MR, and the perch may move another one against it: no length of the model moves
 * by more than 1 + 1/MR. A frequency only follows the damper's gas, by far less than 0.01 Hz a mm. On its stop a car stands
 * on a spring of any rate: nothing that follows the perch or the frequency is bounded there. What counts otherwise bounds
 * nothing.
 */
export function leastChange(findings: readonly Finding[], site: Site): number {
  const perMm = mostPerMm(site);
  const onStop = mayStandOnStop(findings, site);
  let least = 0;
  for (const finding of findings) least = Math.max(least, leastFor(finding, perMm, onStop));
  return least;
}

/** A car that may stand on its stop, or does so and fails by it. */
function mayStandOnStop(findings: readonly Finding[], site: Site): boolean {
  return (
    site.standingOnStop || findings.some(({ check, detail }) => check === 'bump_travel' && detail === CLEAR_OF_STOP)
  );
}

function mostPerMm({ motion }: Site): number {
  return 1 + 1 / leastRatio(motion);
}

const MOST_HZ_PER_MM = 0.01;

/** What the parts alone decide, wherever the perch has to be. */
const OF_PARTS: ReadonlySet<CheckName> = new Set([
  'damper_bottoms',
  'sleeve_metal',
  'body_metal',
  'tyre_on_arch',
  'bump_travel',
  'droop_travel',
]);

function leastFor({ check, detail, shortfall }: Finding, perMm: number, onStop: boolean): number {
  if (check === 'fit' || check === 'unloaded_spring' || check === 'overstressed' || detail === 'unstable') return 0;
  // A place of the perch on the stop's force.
  if (detail.startsWith(CLOSED_BY) || (onStop && !OF_PARTS.has(check))) return 0;
  return shortfall / (check === 'frequency' ? MOST_HZ_PER_MM : perMm);
}

/**
 * The least of one change that could make up all shortfalls, mm: no step short of it can work. Stress is in proportion to
 * the spring's force, which follows the deflection at full bump by no more than the stiffer spring's rate.
 */
export function leastStep(change: ContinuousChange, findings: readonly Finding[], corner: Corner, site: Site): number {
  const onStop = mayStandOnStop(findings, site);
  let least = 0;
  for (const finding of findings) {
    const perMm = change.perMm(finding, corner, site);
    const { check, shortfall } = finding;
    const needed =
      check === 'overstressed' && !onStop
        ? shortfall / (stressPerMm(corner) * perMm)
        : leastFor(finding, perMm, onStop);
    least = Math.max(least, needed);
  }
  return least;
}

/** Stress that a millimetre of deflection adds at most, MPa, for a spring whose wire is known: no other is overstressed. */
function stressPerMm({ spring, helper }: Corner): number {
  const { diameter } = spring.wire as WireData;
  return uncorrectedStress(Math.max(spring.rate, helper?.rate ?? 0), spring.bore + diameter, diameter);
}

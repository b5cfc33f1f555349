/**
 * The continuous changes a cure may consist of: how to read and set each on a corner, between which limits, and how
 * little of it could possibly make up a shortfall.
 */
import type { Finding } from '../corner/findings.ts';
import { sleeveStopsBumpStop } from '../corner/geometry.ts';
import type { Corner, Site } from '../corner/site.ts';
import { leastRatio } from '../motion.ts';
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
const headTouches = (finding: Finding) => !isFixedFit(finding);

/** Checks that only sleeve and perch decide once head and springs are chosen. */
export function isOfSleeve({ check }: Finding): boolean {
  return check === 'sleeve_metal' || check === 'perch_low' || check === 'perch_high';
}

/** Whether the sleeve, left whole, would stand proud of the body and be met by the stop. */
export function stopCanMeetSleeve(site: Site, corner: Corner): boolean {
  return sleeveStopsBumpStop(site, corner, corner.sleeve.ledgeHeight + corner.sleeve.length);
}

export const CHANGES: readonly ContinuousChange[] = [
  {
    kind: 'trim',
    family: 'sleeve',
    part: ({ sleeve }) => sleeve.name,
    get: ({ sleeve }) => sleeve.trim,
    set: (corner, trim) => ({ ...corner, sleeve: { ...corner.sleeve, trim } }),
    limits: ({ sleeve }) => [0, Math.min(LIMITS.trim, sleeve.length - STEP)],
    touches: sleeveTouches,
  },
  {
    kind: 'spacer',
    family: 'mount',
    part: ({ mount }) => mount.name,
    get: ({ mount }) => mount.spacer,
    set: (corner, spacer) => ({ ...corner, mount: withSpacer(corner.mount, spacer) }),
    limits: () => [0, LIMITS.spacer],
    touches: headTouches,
  },
  {
    kind: 'stop',
    family: 'bumpStop',
    part: ({ bumpStop }) => bumpStop.name,
    get: ({ bumpStop }) => bumpStop.length,
    set: (corner, length) => ({ ...corner, bumpStop: { ...corner.bumpStop, length } }),
    limits: ({ bumpStop }) => [Math.min(LIMITS.shortestStop, bumpStop.uncutLength), bumpStop.uncutLength],
    touches: headTouches,
  },
  {
    kind: 'groove',
    family: 'sleeve',
    part: ({ sleeve }) => sleeve.name,
    get: ({ sleeve }) => sleeve.grooveDrop,
    set: (corner, grooveDrop) => ({ ...corner, sleeve: { ...corner.sleeve, grooveDrop } }),
    limits: ({ sleeve }) => [0, Math.min(LIMITS.groove, sleeve.ledgeHeight)],
    touches: sleeveTouches,
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
 * by more than 1 + 1/MR. A frequency only follows the damper's gas, by far less than 0.01 Hz a mm, unless the car may
 * stand on its stop. What counts otherwise bounds nothing.
 */
export function leastChange(findings: readonly Finding[], site: Site): number {
  const perMm = 1 + 1 / leastRatio(site.motion);
  return Math.max(0, ...findings.map((f) => leastFor(f, perMm, site.standingOnStop)));
}

const MOST_HZ_PER_MM = 0.01;

function leastFor({ check, detail, shortfall }: Finding, perMm: number, onStop: boolean): number {
  if (check === 'fit' || check === 'unloaded_spring' || check === 'overstressed' || detail === 'unstable') return 0;
  if (check === 'frequency') return onStop ? 0 : shortfall / MOST_HZ_PER_MM;
  return shortfall / perMm;
}

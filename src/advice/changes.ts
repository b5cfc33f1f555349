/**
 * The continuous changes a cure may consist of: how to read and set each on a corner, between which limits, and how
 * little of it could possibly make up a shortfall.
 */
import { bushForceAt, gasForceAt } from '../model/corner/balance.ts';
import type { Decider } from '../model/corner/checkRecord.ts';
import {
  CHECK,
  CHECK_ADVICE,
  type CheckName,
  CLEAR_OF_STOP,
  CLOSED_BY,
  recordOf,
  UNSTABLE,
} from '../model/corner/checks.ts';
import type { Finding } from '../model/corner/findings.ts';
import { FIT, type FitName } from '../model/corner/fit.ts';
import { sleeveStopsBumpStop, sleeveTopOf } from '../model/corner/geometry.ts';
import { gasRateAt } from '../model/corner/rates.ts';
import { type Corner, damperLengthAt, type Site } from '../model/corner/site.ts';
import { uncorrectedStress } from '../model/formula/coil.ts';
import { leastRatio, ratioAt } from '../model/motion.ts';
import type { WireData } from '../model/parts.ts';
import { kneeForce, rateUnder, springStack } from '../model/stack.ts';
import type { CureKind } from '../result/advice.ts';

/** A dimension that a change sets. */
export interface ChangeSize {
  readonly kind: Exclude<CureKind, 'helper'>;
  /** The family of the part it is made on, and that part's name. */
  readonly family: 'sleeve' | 'mount' | 'bumpStop';
  readonly part: (corner: Corner) => string;
  readonly get: (corner: Corner) => number;
  readonly set: (corner: Corner, value: number) => Corner;
  /** Least and greatest value tried, mm. */
  readonly limits: (corner: Corner) => readonly [least: number, most: number];
}

/** What it does. */
interface ChangeEffect {
  /** Whether it can do anything about a finding at all. */
  readonly touches: (finding: Finding, corner: Corner, site: Site) => boolean;
  /** How far, at most, a millimetre of it moves the length a finding is about, mm; what it doesn't touch doesn't count. */
  readonly perMm: (finding: Finding, corner: Corner, site: Site) => number;
}

export interface ContinuousChange extends ChangeSize, ChangeEffect {}

/** Limits of what is tried, mm: beyond them parts would be made anew rather than changed. Common practice, no source. */
export const LIMITS = { trim: 60, spacer: 40, shortestStop: 20, groove: 30, lowerMount: 20, higherMount: 40 } as const;

/** Values in a workshop's steps, mm. */
export const STEP = 0.5;

type Where = Pick<Finding, 'check' | 'detail'>;

const fitIn = ({ check, detail }: Where) => (recordOf(check).isFit ? FIT[detail as FitName] : null);
const isFrequency = ({ check }: Where) => CHECK[check].unit === 'Hz';
const isDecidedBy = (check: CheckName, decider: Decider) => CHECK_ADVICE[check].decidedBy.includes(decider);

/** Diameters that no cut, spacer or groove changes, and the stack on the rod end, which stands above the shoulder. */
const isFixedFit = (where: Where) => (fitIn(where)?.of ?? 'stop') !== 'stop';
/** What a cut or a groove changes: the sleeve's own contacts and the perch's places, and more only where stop meets sleeve. */
const sleeveTouches = (finding: Finding, corner: Corner, site: Site) =>
  isOfSleeve(finding) || (stopCanMeetSleeve(site, corner) && fitIn(finding) === null && !isFrequency(finding));
/** A cut lowers the sleeve's top alone: the perch's lowest place stays. */
const cutTouches = (finding: Finding, corner: Corner, site: Site) =>
  sleeveTouches(finding, corner, site) && (isDecidedBy(finding.check, 'sleeve') || stopCanMeetSleeve(site, corner));
const sleevePerMm = (_: Finding, corner: Corner, site: Site) => (stopCanMeetSleeve(site, corner) ? mostPerMm(site) : 1);

const touchesUnlessFixed = (finding: Finding) => !isFixedFit(finding);
const spacerTouches = (finding: Finding, corner: Corner, site: Site) =>
  touchesUnlessFixed(finding) && !(isFrequency(finding) && rateOverSpacers(site, corner) !== null);
/** A seat that rises with the mount leaves the perch where it is, but for what the gas gives or takes. */
const spacerPerMm = ({ check }: Finding, corner: Corner, site: Site) => {
  const isPerch = isDecidedBy(check, 'perch') && !isDecidedBy(check, 'stack');
  const rate = isPerch && corner.mount.seat === 'fixed' ? rateOverSpacers(site, corner) : null;
  return rate === null ? mostPerMm(site) : evenGasRate(corner) / rate;
};

/** What a stop that carries nothing at ride height can't change: neither forces there nor the perch nor the droop. */
const isApartFromStop = ({ check }: Where) => !isDecidedBy(check, 'damper set') && !recordOf(check).atFullBump;
const stopTouches = (finding: Finding, corner: Corner, site: Site) =>
  touchesUnlessFixed(finding) && !(isApartFromStop(finding) && onlyEndsTravel(site, corner));
/** Clearances and the spring's deflection at full bump follow the stop closed, bump travel the stop just met. */
const stopPerMm = ({ check }: Finding, corner: Corner, site: Site) =>
  !recordOf(check).atStopMet && onlyEndsTravel(site, corner) ? corner.bumpStop.closedFraction : mostPerMm(site);

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

/** Checks that only sleeve and perch decide once damper set and springs are chosen. */
export function isOfSleeve({ check }: Finding): boolean {
  return CHECK_ADVICE[check].decidedBy.every((decider) => decider === 'sleeve' || decider === 'perch');
}

/** What neither sleeve nor perch has a part in, as long as the stop meets the body. */
export function isFixedToDamperSet(where: Pick<Finding, 'check' | 'detail'>): boolean {
  const fit = fitIn(where);
  return fit === null ? !recordOf(where.check).isOnSeat : fit.of === 'stop' || fit.of === 'thread';
}

/** Whether the sleeve, left whole, would stand proud of the body and be met by the stop. */
export function stopCanMeetSleeve(site: Site, corner: Corner): boolean {
  return sleeveStopsBumpStop(site, corner, corner.sleeve.ledgeHeight + corner.sleeve.length);
}

/**
 * How a change may be advised on a corner. In a single tube the piston runs on the inside of the wall that a groove would
 * weaken, gas pressure behind it; where the body is not known, a groove is the last resort.
 */
export type Advisability = 'freely' | 'last' | 'never';

export function advisabilityOf({ kind }: ContinuousChange, { damper }: Corner): Advisability {
  if (kind !== 'groove' || damper.body === 'twin_tube') return 'freely';
  return damper.body === 'unknown' ? 'last' : 'never';
}

const TRIM_SIZE: ChangeSize = {
  kind: 'trim',
  family: 'sleeve',
  part: ({ sleeve }) => sleeve.name,
  get: ({ sleeve }) => sleeve.trim,
  set: (corner, trim) => ({ ...corner, sleeve: { ...corner.sleeve, trim } }),
  limits: ({ sleeve }) => [0, Math.min(LIMITS.trim, sleeve.length - STEP)],
};

export const CHANGE_SIZES: readonly ChangeSize[] = [
  TRIM_SIZE,
  {
    kind: 'spacer',
    family: 'mount',
    part: ({ mount }) => mount.name,
    get: ({ mount }) => mount.spacer,
    set: (corner, spacer) => ({ ...corner, mount: withSpacer(corner.mount, spacer) }),
    limits: () => [0, LIMITS.spacer],
  },
  {
    kind: 'stop',
    family: 'bumpStop',
    part: ({ bumpStop }) => bumpStop.name,
    get: ({ bumpStop }) => bumpStop.length,
    set: (corner, length) => ({ ...corner, bumpStop: { ...corner.bumpStop, length } }),
    limits: ({ bumpStop }) => [Math.min(LIMITS.shortestStop, bumpStop.uncutLength), bumpStop.uncutLength],
  },
  {
    kind: 'groove',
    family: 'sleeve',
    part: ({ sleeve }) => sleeve.name,
    get: ({ sleeve }) => sleeve.grooveDrop,
    set: (corner, grooveDrop) => ({ ...corner, sleeve: { ...corner.sleeve, grooveDrop } }),
    limits: ({ sleeve }) => [0, Math.min(LIMITS.groove, sleeve.ledgeHeight)],
  },
];

/** Another mount, alike but for the height at which it holds the rod shoulder. */
const MOUNT_SIZE: ChangeSize = {
  kind: 'mount',
  family: 'mount',
  part: ({ mount }) => mount.name,
  get: ({ mount }) => mount.raise,
  set: (corner, raise) => ({ ...corner, mount: { ...corner.mount, spacer: 0, bareRaise: raise, raise } }),
  limits: ({ mount }) => [mount.bareRaise - LIMITS.lowerMount, mount.bareRaise + LIMITS.higherMount],
};

const EFFECTS: Readonly<Record<ChangeSize['kind'], ChangeEffect>> = {
  mount: { touches: touchesUnlessFixed, perMm: (_, __, site) => mostPerMm(site) },
  trim: { touches: cutTouches, perMm: sleevePerMm },
  spacer: { touches: spacerTouches, perMm: spacerPerMm },
  stop: { touches: stopTouches, perMm: stopPerMm },
  groove: { touches: sleeveTouches, perMm: sleevePerMm },
};

const withEffects = (size: ChangeSize): ContinuousChange => ({ ...size, ...EFFECTS[size.kind] });

export const CHANGES: readonly ContinuousChange[] = /* @__PURE__ */ CHANGE_SIZES.map(withEffects);
export const TRIM = /* @__PURE__ */ withEffects(TRIM_SIZE);
export const MOUNT_HEIGHT = /* @__PURE__ */ withEffects(MOUNT_SIZE);

/** A spacer lifts the shoulder of a mount bolted above the tower and lowers that of one bolted below it. */
export function withSpacer(mount: Corner['mount'], spacer: number): Corner['mount'] {
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
const mayStandOnStop = (findings: readonly Finding[], site: Site) =>
  site.standingOnStop || findings.some(({ detail }) => detail === CLEAR_OF_STOP);

function mostPerMm({ motion }: Site): number {
  return 1 + 1 / leastRatio(motion);
}

const MOST_HZ_PER_MM = 0.01;

/** What the parts alone decide, wherever the perch has to be. */
const isOfParts = (check: CheckName) => !isDecidedBy(check, 'perch') && !isDecidedBy(check, 'stack');

function leastFor(finding: Finding, perMm: number, onStop: boolean): number {
  const { check, detail, shortfall } = finding;
  const { unit } = CHECK[check];
  if (recordOf(check).isFit || (unit !== 'mm' && unit !== 'Hz') || detail === UNSTABLE) return 0;
  // A place of the perch on the stop's force.
  if (detail.startsWith(CLOSED_BY) || (onStop && !isOfParts(check))) return 0;
  return shortfall / (unit === 'Hz' ? MOST_HZ_PER_MM : perMm);
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
      CHECK[check].unit === 'MPa' && !onStop
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

/**
 * The height window: how far the corner can be wound down and up, both ends named by the limit that binds.
 *
 * Every limit is either a ride height or a place of the perch; a place of the perch becomes a ride height by
 * solving the balance. Winding the perch up raises the car only while the wheel rate with settled gas stays above 0, so a
 * window exists only where that holds all the way. What need not rise or fall with height, the frequency and the load on
 * the spring, limits what the others leave, see `heldRange`. No height inside the window fails a check of the corner that
 * depends on it.
 */
import { ratioAt, ratioSlopeAt } from '../motion.ts';
import { rootBetween } from '../solve.ts';
import { deflectionUnder, forceAt, kneeForce } from '../stack.ts';
import { perchFor, standingAt } from './balance.ts';
import type { Sited } from './checkRecord.ts';
import { type CheckName, CORNER_CHECKS, type EndName, type LimitName, METAL_CHECKS, recordOf } from './checks.ts';
import { type HeldEnd, type HeldLimit, heldRange } from './heldRange.ts';
import { ratesAt } from './rates.ts';
import { siteAtSide } from './site.ts';
import type { CornerState } from './state.ts';

export interface WindowEnd {
  /** Hub to arch, mm; NaN where the limit that binds is out of reach of any height. */
  readonly height: number;
  /** Lower spring seat above the lower eye there, mm. */
  readonly perch: number;
  /** The limit that binds. */
  readonly limit: LimitName;
}

export interface HeightWindow {
  readonly low: WindowEnd;
  readonly high: WindowEnd;
  /** False when the limits leave nothing between them. */
  readonly usable: boolean;
  /** Every limit from below and from above; the highest and the lowest of them bind. -+Infinity: beyond reach. */
  readonly lower: readonly Limit[];
  readonly upper: readonly Limit[];
}

export interface Limit {
  readonly name: LimitName;
  readonly height: number;
}

/** How far the limits of frequency and spring force are looked for: as far as they could bind, or over the whole travel. */
type Reach = 'window' | 'travel';

/**
 * The usable heights, both ends named by the limit that binds; null when the balance isn't stable over the range, so
 * that winding has no single effect. Where the frequency keeps its window in several ranges of heights, the one with the
 * target height counts, or else the one nearest to it.
 *
 * Units: `state` of the judged corner in mm, N and N/mm; result mm, heights hub to arch and places of the perch.
 * Valid: a wheel rate with settled gas above 0 from the closed stop to full droop, which is checked.
 * Source: roots of the balance for each limit, see `rootBetween`; bounds over stretches of heights, see `heldRange`.
 */
export function heightWindow(state: CornerState): HeightWindow | null {
  return findWindow(state, 'window');
}

/**
 * The same with every limit that there is over the whole travel, those too that others keep from binding.
 *
 * Units: `state` of the judged corner in mm, N and N/mm; result mm, heights hub to arch and places of the perch.
 * Valid: as `heightWindow`.
 */
export function windowOverTravel(state: CornerState): HeightWindow | null {
  return findWindow(state, 'travel');
}

function findWindow(state: CornerState, reach: Reach): HeightWindow | null {
  if (!isStableThroughout(state)) return null;
  const lower = findLimits(state, 'below');
  const upper = findLimits(state, 'above');
  addHeldLimits(state, lower, upper, reach);
  const low = pickHighest(lower);
  const high = pickLowest(upper);
  return { low: makeEnd(state, low), high: makeEnd(state, high), usable: high.height >= low.height, lower, upper };
}

/** What of a window covers a wanted range. */
interface Covering extends Pick<HeightWindow, 'usable'> {
  readonly low: Pick<WindowEnd, 'height'>;
  readonly high: Pick<WindowEnd, 'height'>;
}

/**
 * Share of the wanted range that the window covers; a wanted range of one point is covered or not.
 *
 * Equation: max(0, min(high, to) - max(low, from)) / (to - from)
 * Units: `window` heights in mm, `from` and `to` mm; result 0 to 1.
 * Valid: `from` up to `to`; 0 without a usable window.
 * Example: coveredShare({"usable":true,"low":{"height":331},"high":{"height":341}}, 322, 344) = 0.4545
 * Source: definition of the share.
 */
export function coveredShare(window: Covering | null, from: number, to: number): number {
  if (window === null || !window.usable) return 0;
  if (to <= from) return from >= window.low.height && from <= window.high.height ? 1 : 0;
  return Math.max(0, Math.min(window.high.height, to) - Math.max(window.low.height, from)) / (to - from);
}

/** mm */
const ROUNDING = 1e-9;

const pickHighest = (limits: readonly Limit[]) => limits.reduce((a, b) => (b.height > a.height ? b : a));
const pickLowest = (limits: readonly Limit[]) => limits.reduce((a, b) => (b.height < a.height ? b : a));

/** Frequency and load on the spring, in what the other limits leave; +Infinity where they leave no height that passes. */
function addHeldLimits(state: CornerState, lower: Limit[], upper: Limit[], reach: Reach): void {
  const all = findSearchRange(state);
  const lowest = Math.max(pickHighest(lower).height, all[0]);
  const highest = Math.min(pickLowest(upper).height, all[1]);
  if (lowest > highest) return;
  const { targetHeight } = state.site.target;
  const nearest = Math.min(highest, Math.max(lowest, targetHeight));
  // A limit that is met at the target, but for rounding, leaves the target itself: where it starts from decides last digits.
  const wanted = Math.abs(nearest - targetHeight) < ROUNDING ? targetHeight : nearest;
  const within = [lowest, highest] as const;
  const held = heldRange(state, { wanted, within, asked: reach === 'window' ? within : all, all });
  if (typeof held === 'string') {
    lower.push({ name: HELD_ENDS[held], height: Number.POSITIVE_INFINITY });
    return;
  }
  const push = (limits: Limit[], end: HeldEnd | null) =>
    end && limits.push({ name: HELD_ENDS[end.limit], height: end.height });
  push(lower, held.low);
  push(upper, held.high);
}

const HELD_ENDS = Object.assign({}, ...CORNER_CHECKS.map((check) => recordOf(check).held)) as Record<
  HeldLimit,
  LimitName
>;

const NOT_METAL = CORNER_CHECKS.filter((check) => !METAL_CHECKS.includes(check));

/** The limits of all checks; of metal also at the load of either side, each side's perch set for the same height. */
function findLimits(state: CornerState, way: 'below' | 'above'): Limit[] {
  const { site, corner, geometry } = state;
  const sides = site.sides.flatMap((side) =>
    findLimitsAmong(METAL_CHECKS, { site: siteAtSide(site, side), corner, geometry }, way).map(
      ({ name, height }): Limit => ({ name: `${name as EndName}:${side.name}`, height }),
    ),
  );
  return [...findLimitsAmong(NOT_METAL, state, way), ...findLimitsAmong(METAL_CHECKS, state, way), ...sides];
}

function findLimitsAmong(checks: readonly CheckName[], state: Sited, way: 'below' | 'above'): Limit[] {
  const heightOfPerch = findHeightsOfPerches(state);
  return checks.flatMap((check) => {
    const limits = recordOf(check)[way]?.(state) ?? [];
    return limits.map(([name, kind, value]): Limit => {
      return { name: name as LimitName, height: kind === 'height' ? value : heightOfPerch(value) };
    });
  });
}

/** Ride heights at the load of the site by where the perch is; -+Infinity where they lie beyond the search range. */
function findHeightsOfPerches(state: Sited): (perch: number) => number {
  const { site, corner, geometry } = state;
  const [lowest, highest] = findSearchRange(state);
  const perchAt = (height: number) => perchFor(site, corner, geometry, height, site.sprungLoad);
  const [atLowest, atHighest] = [perchAt(lowest), perchAt(highest)];
  // Every search asks for the two ends, so they are worked out once.
  const known = (height: number) => (height === lowest ? atLowest : height === highest ? atHighest : perchAt(height));
  return (perch) => {
    if (atLowest - perch > 0) return Number.NEGATIVE_INFINITY;
    if (atHighest - perch < 0) return Number.POSITIVE_INFINITY;
    return rootBetween((height) => known(height) - perch, lowest, highest);
  };
}

/** Heights between which limits are looked for: from the stop closed to full droop, and never empty. */
function findSearchRange(state: Sited): [number, number] {
  const { closedHeight, droopHeight } = state.geometry;
  return [closedHeight, Math.max(closedHeight, droopHeight)];
}

/** An end of the window; NaN where no height within reach meets the limit that binds. */
function makeEnd(state: CornerState, limit: Limit): WindowEnd {
  if (!Number.isFinite(limit.height)) return { height: Number.NaN, perch: Number.NaN, limit: limit.name };
  const perch = perchFor(state.site, state.corner, state.geometry, limit.height, state.site.sprungLoad);
  return { height: limit.height, perch, limit: limit.name };
}

/**
 * Whether the wheel rate, the gas settled, stays above 0 from the closed stop to full droop. It is least where the stack is softest
 * and the motion ratio smallest, so most corners pass on that bound alone; the rest are looked at point by point.
 */
function isStableThroughout(state: CornerState): boolean {
  const { site } = state;
  const [lowest, highest] = findSearchRange(state);
  const steepest = Math.max(
    ratioSlopeAt(site.motion, lowest),
    ratioSlopeAt(site.motion, highest),
    site.motion.ratioSlope,
  );
  if (steepest <= 0) return true;
  const softest = findSoftestRate(state);
  const ratio = ratioAt(site.motion, lowest);
  const loads = [site, ...site.loads, ...site.sides].map((l) => l.sprungLoad);
  if (softest * ratio ** 3 > Math.max(...loads) * steepest && site.bushes === null) return true;
  return loads.every((load) => sampleWheelRates(state, lowest, highest, load).every((rate) => rate > 0));
}

function findSoftestRate(state: CornerState): number {
  const { stack } = state.geometry;
  const knee = kneeForce(stack);
  const x = deflectionUnder(stack, knee);
  const early = knee > 0 ? forceAt(stack, x / 2) / (x / 2) : stack.mainRate;
  return Math.min(early, stack.mainRate);
}

const STABILITY_SAMPLES = 65;

function sampleWheelRates(state: CornerState, lowest: number, highest: number, load: number): number[] {
  const { site, corner, geometry } = state;
  return Array.from({ length: STABILITY_SAMPLES }, (_, k) => {
    const height = lowest + (k * (highest - lowest)) / (STABILITY_SAMPLES - 1);
    const standing = standingAt(site, corner, geometry, height, load);
    return ratesAt(site, corner, geometry, standing, site.sprungMass).settledWheel;
  });
}

/** A judged corner with its height window: what every corner quantity is read from. */
export interface Working {
  readonly state: CornerState;
  readonly window: HeightWindow | null;
}

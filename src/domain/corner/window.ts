/**
 * The height window: how far the corner can be wound down and up, both ends named by the limit that binds.
 *
 * Every limit is either a ride height or a place of the perch; a place of the perch becomes a ride height by
 * solving the balance. Winding the perch up raises the car only while the wheel rate stays above 0, so a window
 * exists only where that holds all the way.
 */
import { ratioAt, ratioSlopeAt } from '../motion.ts';
import { rootBetween } from '../solve.ts';
import { deflectionUnder, forceAt, kneeForce } from '../stack.ts';
import { perchFor, standingAt, surplusWith } from './balance.ts';
import { type ContactName, contactLengths, giveFor, marginFor } from './contacts.ts';
import { bumpLoad } from './fullBump.ts';
import { ratesAt } from './rates.ts';
import { damperLengthAt, rideHeightAt } from './site.ts';
import type { CornerState } from './state.ts';

export interface WindowEnd {
  /** Hub to arch, mm; NaN where the limit that binds is out of reach of any height. */
  readonly height: number;
  /** Lower spring seat above the lower eye there, mm. */
  readonly perch: number;
  /** Id of the limit that binds, e.g. `perch_low`, `coil_bind`, `droop_travel`, `bump_travel:two up`. */
  readonly limit: string;
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
  readonly name: string;
  readonly height: number;
}

/**
 * The usable heights, both ends named by the limit that binds; null when the balance isn't stable over the range, so
 * that winding has no single effect.
 *
 * Units: `state` of the judged corner in mm, N and N/mm; result mm, heights hub to arch and places of the perch.
 * Valid: a wheel rate above 0 from the closed stop to full droop, which is checked.
 * Source: roots of the balance for each limit, see `rootBetween`.
 */
export function heightWindow(state: CornerState): HeightWindow | null {
  if (!isStableThroughout(state)) return null;
  const lower = lowerLimits(state);
  const upper = upperLimits(state);
  const low = lower.reduce((a, b) => (b.height > a.height ? b : a));
  const high = upper.reduce((a, b) => (b.height < a.height ? b : a));
  return { low: end(state, low), high: end(state, high), usable: high.height >= low.height, lower, upper };
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
export function coveredShare(
  window: Pick<HeightWindow, 'low' | 'high' | 'usable'> | null,
  from: number,
  to: number,
): number {
  if (window === null || !window.usable) return 0;
  if (to <= from) return from >= window.low.height && from <= window.high.height ? 1 : 0;
  return Math.max(0, Math.min(window.high.height, to) - Math.max(window.low.height, from)) / (to - from);
}

function lowerLimits(state: CornerState): Limit[] {
  const { geometry, site } = state;
  const least = site.target.leastBumpTravel;
  const stopLimit = site.standingOnStop ? geometry.closedHeight : geometry.stopHeight;
  const perches: [string, number][] = [
    ['perch_low', geometry.perchLowest],
    ['spring_loose', loosestPerch(state)],
    ...site.loads.map(({ name, sprungLoad }): [string, number] => {
      return [`bump_travel:${name}`, perchHolding(state, geometry.stopHeight + least, sprungLoad)];
    }),
    ...metalPerches(state),
  ];
  return [
    { name: 'bump_stop', height: stopLimit },
    { name: 'bump_travel', height: geometry.stopHeight + least },
    ...perches.map(([name, perch]) => ({ name, height: heightOfPerch(state, perch) })),
  ];
}

function upperLimits(state: CornerState): Limit[] {
  const { geometry, site } = state;
  const least = site.target.leastDroopTravel;
  const perches: [string, number][] = [
    ['perch_high', geometry.perchHighest],
    ['coil_bind', bindingPerch(state)],
    ...site.loads.map(({ name, sprungLoad }): [string, number] => {
      return [`droop_travel:${name}`, perchHolding(state, geometry.droopHeight - least, sprungLoad)];
    }),
  ];
  return [
    { name: 'droop', height: geometry.droopHeight },
    { name: 'droop_travel', height: geometry.droopHeight - least },
    ...perches.map(([name, perch]) => ({ name, height: heightOfPerch(state, perch) })),
  ];
}

/** `P_seated`: below it the spring comes loose further than allowed. */
function loosestPerch(state: CornerState): number {
  const { geometry, site, corner } = state;
  const allowed = Math.min(site.target.allowedSlack, corner.perch.engagement);
  return geometry.droopLength - geometry.seatBelowShoulder - geometry.stack.freeLength - allowed;
}

/**
 * `P_bind`: above it the spring goes solid before full bump. With the load policy full bump itself depends on the
 * perch, so the damper length is solved at which the stack, its margin short of solid, balances the bump load.
 */
function bindingPerch(state: CornerState): number {
  const { geometry, site, corner } = state;
  const short = giveFor(corner, 'coil_bind') + marginFor(site, 'coil_bind');
  return lengthAtBind(state, short) - geometry.seatBelowShoulder - geometry.stack.solidLength - short;
}

function lengthAtBind(state: CornerState, short: number): number {
  const { geometry, site, corner } = state;
  if (site.bump.kind === 'closed') return geometry.closedLength;
  const { stack } = geometry;
  const deflection = Math.max(0, stack.freeLength - stack.solidLength - short);
  const springForce = forceAt(stack, deflection);
  const surplus = (height: number) => surplusWith(site, corner, geometry, height, bumpLoad(site), springForce);
  const { closedHeight, stopHeight } = geometry;
  if (surplus(closedHeight) <= 0) return geometry.closedLength;
  if (surplus(stopHeight) >= 0) return geometry.stopLength;
  return damperLengthAt(site, corner.mount, rootBetween(surplus, closedHeight, stopHeight));
}

/** With the load policy a wound-down spring lets the damper go further in, so metal contacts bound the perch below. */
function metalPerches(state: CornerState): [string, number][] {
  const { site, corner, geometry } = state;
  return contactLengths(site, corner, geometry, 0)
    .filter(([name]) => name !== 'coil_bind')
    .map(([name, length]): [string, number] => [name, perchClearing(state, name, length)]);
}

/** The lowest perch at which full bump stays clear of a contact at `length`: any, some, or none. */
function perchClearing(state: CornerState, name: ContactName, length: number): number {
  const { site, corner, geometry } = state;
  const needed = length + giveFor(corner, name) + marginFor(site, name);
  if (needed <= geometry.closedLength) return Number.NEGATIVE_INFINITY;
  if (site.bump.kind === 'closed' || needed > geometry.stopLength) return Number.POSITIVE_INFINITY;
  const standing = standingAt(site, corner, geometry, rideHeightAt(site, corner.mount, needed), bumpLoad(site));
  return standing.springForce <= 0 ? Number.NEGATIVE_INFINITY : standing.perch;
}

/** The perch that holds a height under another load. */
function perchHolding(state: CornerState, height: number, load: number): number {
  return perchFor(state.site, state.corner, state.geometry, height, load);
}

/** Ride height at the design load with the perch at `perch`; -+Infinity where it lies beyond the search range. */
function heightOfPerch(state: CornerState, perch: number): number {
  const { site, corner, geometry } = state;
  const [lowest, highest] = searchRange(state);
  const excess = (height: number) => perchFor(site, corner, geometry, height, site.sprungLoad) - perch;
  if (excess(lowest) > 0) return Number.NEGATIVE_INFINITY;
  if (excess(highest) < 0) return Number.POSITIVE_INFINITY;
  return rootBetween(excess, lowest, highest);
}

/** Heights between which limits are looked for: from the stop closed to full droop, and never empty. */
function searchRange(state: CornerState): [number, number] {
  const { closedHeight, droopHeight } = state.geometry;
  return [closedHeight, Math.max(closedHeight, droopHeight)];
}

/** An end of the window; NaN where no height within reach meets the limit that binds. */
function end(state: CornerState, limit: Limit): WindowEnd {
  if (!Number.isFinite(limit.height)) return { height: Number.NaN, perch: Number.NaN, limit: limit.name };
  const perch = perchFor(state.site, state.corner, state.geometry, limit.height, state.site.sprungLoad);
  return { height: limit.height, perch, limit: limit.name };
}

/**
 * Whether the wheel rate stays above 0 from the closed stop to full droop. It is least where the stack is softest
 * and the motion ratio smallest, so most corners pass on that bound alone; the rest are looked at point by point.
 */
function isStableThroughout(state: CornerState): boolean {
  const { site } = state;
  const [lowest, highest] = searchRange(state);
  const steepest = Math.max(
    ratioSlopeAt(site.motion, lowest),
    ratioSlopeAt(site.motion, highest),
    site.motion.ratioSlope,
  );
  if (steepest <= 0) return true;
  const softest = softestRate(state);
  const ratio = ratioAt(site.motion, lowest);
  const loads = [site.sprungLoad, ...site.loads.map((l) => l.sprungLoad)];
  if (softest * ratio ** 3 > Math.max(...loads) * steepest && site.bushes === null) return true;
  return loads.every((load) => wheelRateSamples(state, lowest, highest, load).every((rate) => rate > 0));
}

function softestRate(state: CornerState): number {
  const { stack } = state.geometry;
  const knee = kneeForce(stack);
  const x = deflectionUnder(stack, knee);
  const early = knee > 0 ? forceAt(stack, x / 2) / (x / 2) : stack.mainRate;
  return Math.min(early, stack.mainRate);
}

const STABILITY_SAMPLES = 65;

function wheelRateSamples(state: CornerState, lowest: number, highest: number, load: number): number[] {
  const { site, corner, geometry } = state;
  return Array.from({ length: STABILITY_SAMPLES }, (_, k) => {
    const height = lowest + (k * (highest - lowest)) / (STABILITY_SAMPLES - 1);
    const standing = standingAt(site, corner, geometry, height, load);
    return ratesAt(site, corner, geometry, standing, site.sprungMass).wheel;
  });
}

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
import { perchFor, standingAt, surplusWith } from './balance.ts';
import { type ContactName, contactLengths, giveFor, marginFor } from './contacts.ts';
import { bumpLoad } from './fullBump.ts';
import { type HeldEnd, heldRange } from './heldRange.ts';
import { ratesAt } from './rates.ts';
import { damperLengthAt, rideHeightAt, siteAtSide, standingStates } from './site.ts';
import type { CornerState } from './state.ts';
import { forceAllowed } from './stress.ts';

export interface WindowEnd {
  /** Hub to arch, mm; NaN where the limit that binds is out of reach of any height. */
  readonly height: number;
  /** Lower spring seat above the lower eye there, mm. */
  readonly perch: number;
  /** Id of the limit that binds, e.g. `perch_low`, `coil_bind`, `frequency_to`, `bump_travel:two up`. */
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
  return windowOver(state, 'window');
}

/**
 * The same with every limit that there is over the whole travel, those too that others keep from binding.
 *
 * Units: `state` of the judged corner in mm, N and N/mm; result mm, heights hub to arch and places of the perch.
 * Valid: as `heightWindow`.
 */
export function windowOverTravel(state: CornerState): HeightWindow | null {
  return windowOver(state, 'travel');
}

function windowOver(state: CornerState, reach: Reach): HeightWindow | null {
  if (!isStableThroughout(state)) return null;
  const lower = lowerLimits(state);
  const upper = upperLimits(state);
  addHeldLimits(state, lower, upper, reach);
  const low = highestOf(lower);
  const high = lowestOf(upper);
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

/** mm */
const ROUNDING = 1e-9;

const highestOf = (limits: readonly Limit[]) => limits.reduce((a, b) => (b.height > a.height ? b : a));
const lowestOf = (limits: readonly Limit[]) => limits.reduce((a, b) => (b.height < a.height ? b : a));

/** Frequency and load on the spring, in what the other limits leave; +Infinity where they leave no height that passes. */
function addHeldLimits(state: CornerState, lower: Limit[], upper: Limit[], reach: Reach): void {
  const all = searchRange(state);
  const lowest = Math.max(highestOf(lower).height, all[0]);
  const highest = Math.min(lowestOf(upper).height, all[1]);
  if (lowest > highest) return;
  const { targetHeight } = state.site.target;
  const nearest = Math.min(highest, Math.max(lowest, targetHeight));
  // A limit that is met at the target, but for rounding, leaves the target itself: where it starts from decides last digits.
  const wanted = Math.abs(nearest - targetHeight) < ROUNDING ? targetHeight : nearest;
  const within = [lowest, highest] as const;
  const held = heldRange(state, { wanted, within, asked: reach === 'window' ? within : all, all });
  if (typeof held === 'string') {
    lower.push({ name: held, height: Number.POSITIVE_INFINITY });
    return;
  }
  const push = (limits: Limit[], end: HeldEnd | null) => end && limits.push({ name: end.limit, height: end.height });
  push(lower, held.low);
  push(upper, held.high);
}

function lowerLimits(state: CornerState): Limit[] {
  const { geometry, site } = state;
  const least = site.target.leastBumpTravel;
  const perches: [string, number][] = [
    ['perch_low', geometry.perchLowest],
    ['spring_loose', loosestPerch(state)],
    ...site.loads.map(({ name, sprungLoad }): [string, number] => {
      return [`bump_travel:${name}`, perchHolding(state, geometry.stopHeight + least, sprungLoad)];
    }),
    ...standingStates(site).map(({ name, sprungLoad }): [string, number] => {
      return [`bump_stop:${name}`, perchHolding(state, geometry.lowestStanding, sprungLoad)];
    }),
  ];
  return [
    { name: 'bump_stop', height: geometry.lowestStanding },
    { name: 'bump_travel', height: geometry.stopHeight + least },
    ...perches.map(([name, perch]) => ({ name, height: heightOfPerch(state, perch) })),
    ...onEverySide(state, metalPerches),
  ];
}

function upperLimits(state: CornerState): Limit[] {
  const { geometry, site } = state;
  const least = site.target.leastDroopTravel;
  const perches: [string, number][] = [
    ['perch_high', geometry.perchHighest],
    ...stressedPerches(state),
    ...site.loads.map(({ name, sprungLoad }): [string, number] => {
      return [`droop_travel:${name}`, perchHolding(state, geometry.droopHeight - least, sprungLoad)];
    }),
  ];
  return [
    { name: 'droop', height: geometry.droopHeight },
    { name: 'droop_travel', height: geometry.droopHeight - least },
    ...perches.map(([name, perch]) => ({ name, height: heightOfPerch(state, perch) })),
    ...onEverySide(state, (side) => [['coil_bind', bindingPerch(side)]]),
  ];
}

/** What a limit reads of a state: it may be that of one side, under its own load. */
type Sited = Pick<CornerState, 'site' | 'corner' | 'geometry'>;

/** Limits of metal at the mean load and at the load of either side, each side's perch set for the same height. */
function onEverySide(state: CornerState, perchesOf: (state: Sited) => readonly (readonly [string, number])[]): Limit[] {
  const { site, corner, geometry } = state;
  const limitsOf = (sited: Sited, ending: string) =>
    perchesOf(sited).map(([name, perch]) => ({ name: `${name}${ending}`, height: heightOfPerch(sited, perch) }));
  const ofSides = site.sides.map((side) =>
    limitsOf({ site: siteAtSide(site, side), corner, geometry }, `:${side.name}`),
  );
  return [...limitsOf(state, ''), ...ofSides.flat()];
}

/** `P_seated`: below it the spring comes loose further than allowed. */
function loosestPerch(state: CornerState): number {
  const { geometry, site, corner } = state;
  const allowed = Math.min(site.target.allowedSlack, corner.perch.engagement);
  return geometry.droopLength - geometry.seatBelowShoulder - geometry.stack.freeLength - allowed;
}

/** `P_bind`: above it the spring, its margin short of solid, would be squeezed further at full bump. */
function bindingPerch(state: Sited): number {
  const { site, corner, geometry } = state;
  const { stack } = geometry;
  const short = giveFor(corner, 'coil_bind') + marginFor(site, corner, 'coil_bind');
  const deflection = Math.max(0, stack.freeLength - stack.solidLength - short);
  return fullLengthUnder(state, forceAt(stack, deflection)) - geometry.seatBelowShoulder - stack.solidLength - short;
}

/** Above it the spring is overstressed at full bump; none where stress does not reject. */
function stressedPerches(state: CornerState): [string, number][] {
  const { geometry, corner } = state;
  const force = forceAllowed(corner.spring);
  if (force === Number.POSITIVE_INFINITY) return [];
  const gap = geometry.stack.freeLength - deflectionUnder(geometry.stack, force);
  return [['overstressed', fullLengthUnder(state, force) - geometry.seatBelowShoulder - gap]];
}

/**
 * Damper length at full bump with the spring stack under a force. With the load policy full bump itself depends on the
 * perch, so the length is solved at which this force balances the bump load.
 */
function fullLengthUnder(state: Sited, springForce: number): number {
  const { geometry, site, corner } = state;
  if (site.bump.kind === 'closed') return geometry.closedLength;
  const surplus = (height: number) => surplusWith(site, corner, geometry, height, bumpLoad(site), springForce);
  const { closedHeight, squeezeHeight } = geometry;
  if (surplus(closedHeight) <= 0) return geometry.closedLength;
  if (surplus(squeezeHeight) >= 0) return geometry.squeezeLength;
  return damperLengthAt(site, corner.mount, rootBetween(surplus, closedHeight, squeezeHeight));
}

/** With the load policy a wound-down spring lets the damper go further in, so metal contacts bound the perch below. */
function metalPerches(state: Sited): [string, number][] {
  const { site, corner, geometry } = state;
  return contactLengths(site, corner, geometry, 0)
    .filter(([name]) => name !== 'coil_bind')
    .map(([name, length]): [string, number] => [name, perchClearing(state, name, length)]);
}

/** The lowest perch at which full bump stays clear of a contact at `length`: any, some, or none. */
function perchClearing(state: Sited, name: ContactName, length: number): number {
  const { site, corner, geometry } = state;
  const needed = length + giveFor(corner, name) + marginFor(site, corner, name);
  if (needed <= geometry.closedLength) return Number.NEGATIVE_INFINITY;
  if (site.bump.kind === 'closed' || needed > geometry.squeezeLength) return Number.POSITIVE_INFINITY;
  const standing = standingAt(site, corner, geometry, rideHeightAt(site, corner.mount, needed), bumpLoad(site));
  return standing.springForce <= 0 ? Number.NEGATIVE_INFINITY : standing.perch;
}

/** The perch that holds a height under another load. */
function perchHolding(state: CornerState, height: number, load: number): number {
  return perchFor(state.site, state.corner, state.geometry, height, load);
}

/** Ride height at the load of the site with the perch at `perch`; -+Infinity where it lies beyond the search range. */
function heightOfPerch(state: Sited, perch: number): number {
  const { site, corner, geometry } = state;
  const [lowest, highest] = searchRange(state);
  const excess = (height: number) => perchFor(site, corner, geometry, height, site.sprungLoad) - perch;
  if (excess(lowest) > 0) return Number.NEGATIVE_INFINITY;
  if (excess(highest) < 0) return Number.POSITIVE_INFINITY;
  return rootBetween(excess, lowest, highest);
}

/** Heights between which limits are looked for: from the stop closed to full droop, and never empty. */
function searchRange(state: Sited): [number, number] {
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
 * Whether the wheel rate, the gas settled, stays above 0 from the closed stop to full droop. It is least where the stack is softest
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
  const loads = [site, ...site.loads, ...site.sides].map((l) => l.sprungLoad);
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
    return ratesAt(site, corner, geometry, standing, site.sprungMass).settledWheel;
  });
}

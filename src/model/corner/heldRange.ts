/**
 * Heights at which a corner keeps its frequency and its spring its load. Neither need rise or fall throughout: motion
 * ratio, gas, bushes, a stop's curve and a helper's knee bend and break them, so no root of either says on which side of
 * it the corner works. A stretch of heights is judged whole, by the least and the most that each rate and force can be on
 * it, and halved where that does not decide: no height of a range found so is only looked past.
 */
import { stopForce, stopRate } from '../bumpStop.ts';
import { ratioAt, ratioSlopeAt } from '../motion.ts';
import { kneeForce, rateUnder } from '../stack.ts';
import { bushForceAt, gasForceAt, standingAt } from './balance.ts';
import { gasRateAt, judgedFrequencyOf, ratesAt } from './rates.ts';
import { damperLengthAt } from './site.ts';
import type { CornerState } from './state.ts';

/** What ends a range of heights: the spring carries nothing, or the frequency leaves its window. */
export type HeldLimit = 'unloaded' | 'slowest' | 'fastest';

export interface HeldEnd {
  readonly limit: HeldLimit;
  readonly height: number;
}

interface HeldRange {
  /** Null: it goes on as far as anybody asks. */
  readonly low: HeldEnd | null;
  readonly high: HeldEnd | null;
}

/** Least and most, mm, N or N/mm. */
type Span = readonly [least: number, most: number];

/** mm; a shorter stretch that is still undecided is judged by its far end. */
const FINE = 1e-3;
/** mm; how near an end is found. */
const NEAR = 1e-10;
/** mm; how far beyond an end what ends it is asked. */
const BEYOND = 1e-7;

/** Heights to look at, mm. */
export interface Heights {
  /** Where to begin, inside the others. */
  readonly wanted: number;
  /** Of these one has to pass. */
  readonly within: Span;
  /** How far an end of the range is asked for. */
  readonly asked: Span;
  /** All that there are: they set how stretches are halved, so that an end does not depend on what is asked for. */
  readonly all: Span;
}

/**
 * The range of heights without a gap in which the spring carries load and the frequency keeps its window: the one with
 * the wanted height, or else the one nearest to it, of two as near the lower.
 *
 * Units: `state` of a judged corner in mm, N and N/mm; `heights` mm; result mm; the limit that fails at the wanted height
 * where none of those within passes.
 * Valid: the setup's design load.
 * Source: bounds of `k_w` and `F_s` over a stretch by interval arithmetic (Moore, Interval Analysis, 1966), derived.
 */
export function heldRange(state: CornerState, { wanted, within, asked, all }: Heights): HeldRange | HeldLimit {
  if (judgeStretch(state, asked[0], asked[1]) === true) return { low: null, high: null };
  const fails = failsAt(state, wanted);
  const inside = fails === null ? wanted : findNearestHeld(state, wanted, within);
  if (inside === null) return fails as HeldLimit;
  return { low: findEnd(state, inside, all[0], asked[0]), high: findEnd(state, inside, all[1], asked[1]) };
}

function findNearestHeld(state: CornerState, wanted: number, [lowest, highest]: Span): number | null {
  const down = findChange(state, wanted, lowest, false, lowest) ?? Number.NEGATIVE_INFINITY;
  const up = findChange(state, wanted, highest, false, highest) ?? Number.POSITIVE_INFINITY;
  const nearest = wanted - down <= up - wanted ? down : up;
  return Number.isFinite(nearest) ? nearest : null;
}

function findEnd(state: CornerState, inside: number, end: number, asked: number): HeldEnd | null {
  const height = findChange(state, inside, end, true, asked);
  if (height === null) return null;
  return { height, limit: nameLimit(state, height + Math.sign(end - inside) * BEYOND) };
}

/**
 * Walking from one height to another, the last held (or first held) one before the corner is first no longer as it is
 * `now`; nothing is looked at that begins beyond `asked`.
 */
function findChange(state: CornerState, from: number, to: number, now: boolean, asked: number): number | null {
  if ((asked - from) * (to - from) < 0) return null;
  const held = judgeStretch(state, Math.min(from, to), Math.max(from, to));
  if (held === now) return null;
  if (Math.abs(to - from) <= FINE) return isHeld(state, to) === now ? null : findEdge(state, from, to, now);
  const middle = (from + to) / 2;
  return findChange(state, from, middle, now, asked) ?? findChange(state, middle, to, now, asked);
}

/** The held side of the place between two near heights where it changes. */
function findEdge(state: CornerState, from: number, to: number, now: boolean): number {
  let [same, other] = [from, to];
  while (Math.abs(other - same) > NEAR) {
    const middle = (same + other) / 2;
    if (isHeld(state, middle) === now) same = middle;
    else other = middle;
  }
  return now ? same : other;
}

function isHeld(state: CornerState, height: number): boolean {
  return failsAt(state, height) === null;
}

function failsAt(state: CornerState, height: number): HeldLimit | null {
  const { springForce, wheel } = standAt(state, height);
  const { frequencyFrom, frequencyTo } = state.site.target;
  const frequency = judgedFrequencyOf(state.site, wheel, state.site.sprungMass);
  const held = springForce > 0 && wheel > 0 && frequency >= frequencyFrom && frequency <= frequencyTo;
  return held ? null : nameLimit(state, height);
}

/** Which of the three a height that fails one of them fails first. */
function nameLimit(state: CornerState, height: number): HeldLimit {
  const { springForce, wheel } = standAt(state, height);
  if (!(springForce > 0)) return 'unloaded';
  const frequency = judgedFrequencyOf(state.site, wheel, state.site.sprungMass);
  return frequency > state.site.target.frequencyTo ? 'fastest' : 'slowest';
}

function standAt({ site, corner, geometry }: CornerState, height: number) {
  const standing = standingAt(site, corner, geometry, height, site.sprungLoad);
  return { springForce: standing.springForce, wheel: ratesAt(site, corner, geometry, standing, site.sprungMass).wheel };
}

/** Whether all heights of a stretch are held (true), or none (false); null where its bounds do not tell. */
function judgeStretch(state: CornerState, low: number, high: number): boolean | null {
  const { site } = state;
  const { frequencyFrom, frequencyTo } = site.target;
  const [force, wheel] = boundStretch(state, low, high);
  const [least, most] = wheel.map((rate) => judgedFrequencyOf(site, rate, site.sprungMass)) as [number, number];
  if (force[0] > 0 && wheel[0] > 0 && least >= frequencyFrom && most <= frequencyTo) return true;
  return force[1] <= 0 || wheel[1] <= 0 || most < frequencyFrom || least > frequencyTo ? false : null;
}

/**
 * Least and most of the spring force and of the wheel rate over a stretch: `F_s = F_d - F_g - F_stop`, and
 * `k_w = (k_stack + k_stop + k_gas) MR^2 - F_d dMR/dH + k_p`.
 */
function boundStretch(state: CornerState, low: number, high: number): readonly [force: Span, wheel: Span] {
  const { site, corner, geometry } = state;
  const [shortest, longest] = [low, high].map((height) => damperLengthAt(site, corner.mount, height)) as [
    number,
    number,
  ];
  const squeezes: Span = [geometry.squeezeLength - longest, geometry.squeezeLength - shortest];
  const ratio = spanEnds((height) => ratioAt(site.motion, height), low, high);
  const carried = spanEnds((height) => site.sprungLoad - bushForceAt(site, height), low, high);
  const axial = divide(carried, ratio);
  // Gas and stop push harder the further in the damper is.
  const push = spanEnds((length) => gasForceAt(corner.damper, length), shortest, longest);
  const [lightStop, heavyStop] = squeezes.map((squeeze) => stopForce(corner.bumpStop, squeeze)) as [number, number];
  const force: Span = [axial[0] - push[1] - heavyStop, axial[1] - push[0] - lightStop];
  const gas = spanEnds((length) => gasRateAt(corner.damper, length, 'vibrating'), shortest, longest);
  const stack = boundStackRates(state, force);
  const stop = boundStopRates(state, squeezes);
  const damper: Span = [stack[0] + stop[0] + gas[0], stack[1] + stop[1] + gas[1]];
  const turned = multiply(axial, boundRatioSlopes(state, low, high));
  const own = site.bushes?.rate ?? 0;
  return [
    force,
    [damper[0] * ratio[0] * ratio[0] - turned[1] + own, damper[1] * ratio[1] * ratio[1] - turned[0] + own],
  ];
}

/** Rates of what is open under the forces of a span: nothing, both springs, or the one that closes later. */
function boundStackRates({ geometry: { stack } }: CornerState, [least, most]: Span): Span {
  const knee = kneeForce(stack);
  const rates = [
    ...(least <= 0 ? [0] : []),
    ...(least < knee && most > 0 ? [rateUnder(stack, knee / 2)] : []),
    ...(most >= knee ? [rateUnder(stack, Math.max(knee, most))] : []),
  ];
  return [Math.min(...rates), Math.max(...rates)];
}

/** Rates of the stop over a span of squeezes: at its ends, and on every piece of the curve between. */
function boundStopRates({ corner: { bumpStop } }: CornerState, [least, most]: Span): Span {
  if (most <= 0 || bumpStop.curve === null) return [0, 0];
  const scale = bumpStop.length / bumpStop.curve.measuredLength;
  const corners = bumpStop.curve.points.map(({ squeeze }) => squeeze * scale);
  const inside = corners.filter((squeeze) => squeeze > least && squeeze < most);
  // A corner scaled back may fall on either side of itself, so the pieces on both sides are asked.
  const places = [least, most, ...inside.flatMap((squeeze) => [squeeze - NEAR, squeeze + NEAR])];
  const rates = places.map((squeeze) => stopRate(bumpStop, squeeze));
  return [Math.min(...rates), Math.max(...rates)];
}

/** Slopes of the motion ratio over a stretch: 0 beyond the measured heights. */
function boundRatioSlopes({ site: { motion } }: CornerState, low: number, high: number): Span {
  const first = motion.heights[0] as number;
  const last = motion.heights[motion.heights.length - 1] as number;
  const slopes = [
    ratioSlopeAt(motion, low),
    ratioSlopeAt(motion, high),
    ...(low < first && high > last ? [motion.ratioSlope] : []),
  ];
  return [Math.min(...slopes), Math.max(...slopes)];
}

/** Of what rises or falls throughout. */
function spanEnds(read: (at: number) => number, from: number, to: number): Span {
  const [a, b] = [read(from), read(to)];
  return [Math.min(a, b), Math.max(a, b)];
}

function multiply([a, b]: Span, [c, d]: Span): Span {
  const all = [a * c, a * d, b * c, b * d];
  return [Math.min(...all), Math.max(...all)];
}

/** By a divisor above 0. */
function divide(span: Span, [least, most]: Span): Span {
  return multiply(span, [1 / most, 1 / least]);
}

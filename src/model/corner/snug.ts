/**
 * The bench test of the trade: the corner put together by hand with its spring just snug, both seats touching and no
 * load on it. What is left to the bump stop then, and what the spring can still give, is measured with a ruler, and
 * tells before the first drive whether the stop is met before the coils.
 */
import type { Sleeve } from '../parts.ts';
import type { Geometry } from './geometry.ts';
import type { Corner } from './site.ts';

export interface Snug {
  /** Damper length with the spring just snug; longer than the damper where it is preloaded. */
  readonly length: number;
  /** Damper length on the bench: just snug, or the damper fully out with the spring squeezed already. */
  readonly benchLength: number;
  /** How far the fully extended damper squeezes the spring; 0 where it can be just snug. */
  readonly preload: number;
  /** How much the spring is loose with the damper fully out; 0 where it is preloaded. */
  readonly looseness: number;
  /** From what the stop meets to the stop, the spring just snug; negative: the stop is met before the spring. */
  readonly gap: number;
  /** The same at the bench length: what a ruler finds. */
  readonly benchGap: number;
  /** Travel of the spring stack from just snug to solid. */
  readonly springTravel: number;
  /** Travel of the damper from just snug to the stop closed: the gap and the stop's squeeze. */
  readonly stopTravel: number;
  /** Spring travel less stop travel: what is left to coil bind with the stop closed, margin and bush give not taken off. */
  readonly spare: number;
}

/**
 * The corner with its spring just snug, the perch at a height.
 *
 * Equation: l_snug = P + a_seat + L0; gap = l_snug - (B + p + b); spring travel = L0 - S0; stop travel = l_snug - l_closed;
 * spare = spring travel - stop travel = l_closed - (P + a_seat + S0). With preload the damper is fully out before the
 * spring is snug: bench length = min(l_snug, l_ext), preload = l_snug - l_ext, and the ruler finds the gap less the preload.
 * Units: `corner` and its `geometry` in mm; `perch` P mm above the lower eye; result mm along the damper.
 * Valid: parts on one axis, the mount on its rod with nothing pressed together; B is the top of the body, or of a sleeve
 * that the stop can't enter; of one that it may land on or enter for the gap, of the body for the stop's closing. On a bench no strap ends the droop, so only the damper's own length does.
 * Source: geometry of the parts, derived: the bench test is common practice, no source.
 */
export function snugAt(corner: Corner, geometry: Geometry, perch: number): Snug {
  const { stack, seatBelowShoulder, stopLength } = geometry;
  const { damper } = corner;
  const length = perch + seatBelowShoulder + stack.freeLength;
  const benchLength = Math.min(length, damper.extended);
  const gap = length - stopLength;
  const springTravel = stack.freeLength - stack.solidLength;
  const stopTravel = length - geometry.closedLength;
  return {
    length,
    benchLength,
    preload: length - benchLength,
    looseness: damper.extended - benchLength,
    gap,
    benchGap: benchLength - stopLength,
    springTravel,
    stopTravel,
    spare: springTravel - stopTravel,
  };
}

/**
 * Turns of the collar that bring the perch seat from one height to another; negative: downwards.
 *
 * Equation: turns = (P - P_from) / thread pitch
 * Units: `sleeve` thread pitch mm per turn; `perch` and `from` mm above the lower eye; result turns, null where no pitch is given.
 * Valid: a single-start thread; a thread of more starts rises by as many pitches a turn, so its lead is what counts as pitch.
 * Example: collarTurns({"threadPitch":2}, 214, 179) = 17.5
 * Source: definition of the pitch.
 */
export function collarTurns(sleeve: Pick<Sleeve, 'threadPitch'>, perch: number, from: number): number | null {
  return sleeve.threadPitch === null ? null : (perch - from) / sleeve.threadPitch;
}

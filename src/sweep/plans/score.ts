/**
 * Bounds and scores of combinations that are visited for plans: one round a setup. Bounds are the kernel's. A score is
 * remembered for the round with what it took to reach it: many cuts of a sleeve neither end the window nor come near
 * anything, and then score the same to the last bit.
 */
import { type CornerState, cornerState, thinnestContact } from '../../domain/corner/state.ts';
import { type HeightWindow, heightWindow } from '../../domain/corner/window.ts';
import { type Candidate, candidateOf } from '../../domain/ranking/criteria.ts';
import { cornerPrice } from '../../domain/ranking/price.ts';
import { boundGrid } from '../bound.ts';
import type { Desk, Round } from '../desk.ts';
import type { Head } from '../head.ts';
import { boundWithin, cornerOf, endlessBound, limitsOn } from '../scoring.ts';

export interface PlanRound extends Round {
  /** Per stack the last score worked out that may stand for other sleeves and perches. */
  readonly known: (Known | null)[];
}

interface Known {
  readonly logScore: number;
  /** On a sleeve and perch that allow these places and this clearance the score is the same, on others not higher. */
  readonly lowest: number;
  readonly highest: number;
  readonly spare: number;
}

/** Far above rounding, mm. */
const APART = 1e-6;

/** What holds for a head and setup, whatever the perch. */
export function openHead(desk: Desk, number: number, head: Head, sleeves: readonly number[]) {
  const sleeveSpares = new Float64Array(desk.layout.sleeves.length).fill(Number.NaN);
  return { desk, number, head, sleeves, grid: boundGrid(desk.layout, head), sleeveSpares };
}

/** A round of that head with the perches of one engagement. */
export function openRound(
  head: ReturnType<typeof openHead>,
  perches: readonly number[],
  engagement: number,
): PlanRound {
  head.desk.bounds.fill(Number.NaN);
  const known = new Array<Known | null>(head.desk.layout.stacks.count).fill(null);
  return { ...head, perches, engagement, known, liveCount: -1, lowest: { value: Number.NaN, begin: 0 } };
}

/** Log score that the stack has at most on any sleeve and perch of the round. */
export function mostAnywhere(round: PlanRound, stack: number): number {
  return Math.min(round.known[stack]?.logScore ?? Number.POSITIVE_INFINITY, endlessBound(round, stack));
}

/** Log score that the stack has at most on this sleeve and perch. */
export function mostOn(round: PlanRound, sleeve: number, perch: number, stack: number): number {
  const free = round.known[stack]?.logScore ?? Number.POSITIVE_INFINITY;
  return Math.min(free, boundWithin(round, stack, limitsOn(round, sleeve, perch)));
}

export function scoreOn(round: PlanRound, sleeve: number, perch: number, stack: number, index: number): Candidate {
  const { desk, known } = round;
  const { site, ranking } = desk.layout;
  const corner = cornerOf(round, sleeve, perch, stack);
  const free = known[stack];
  if (free && isSame(free, limitsOn(round, sleeve, perch))) {
    const frequency = desk.room.frequency[stack] as number;
    return { index, frequency, price: cornerPrice(corner), logScore: free.logScore };
  }
  const state = cornerState(site, corner);
  const window = heightWindow(state);
  const candidate = candidateOf(index, { state, window }, ranking);
  known[stack] = free ?? freeScore(state, window, candidate);
  return candidate;
}

/** The score to remember, where neither sleeve nor perch ends the window and the sleeve is not what comes nearest. */
function freeScore(state: CornerState, window: HeightWindow | null, { logScore }: Candidate): Known | null {
  // Under a bump load the sleeve's contacts end the window, too.
  if (state.site.bump.kind !== 'closed' || window === null) return null;
  const { low, high } = window;
  const thin = thinnestContact(state);
  if (low.limit === 'perch_low' || high.limit === 'perch_high' || thin.name.startsWith('sleeve')) return null;
  const spare = Math.max(0, thin.clearance - thin.margin) + APART;
  return { logScore, lowest: low.perch - APART, highest: high.perch + APART, spare };
}

function isSame(free: Known, limits: { readonly lowest: number; readonly highest: number; readonly spare: number }) {
  return limits.lowest <= free.lowest && limits.highest >= free.highest && limits.spare >= free.spare;
}

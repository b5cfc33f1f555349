/** Scoring a workable stack, but only where bounds say that it could still be kept. */
import { giveFor } from '../domain/corner/contacts.ts';
import type { Corner } from '../domain/corner/site.ts';
import { cornerState, thinnestContact } from '../domain/corner/state.ts';
import { heightWindow } from '../domain/corner/window.ts';
import { type Candidate, candidateOf, upperLogScore, wantedLogOf } from '../domain/ranking/criteria.ts';
import { cornerPrice } from '../domain/ranking/price.ts';
import { takenAway } from './bound.ts';
import { placesOn, type Round } from './desk.ts';
import { indexOf } from './layout.ts';
import { sleeveSpare } from './sleeveFit.ts';
import { type CandidateClass, classOf, couldEnter, enter } from './tally.ts';

/** Scores a workable stack if it could be the best of its class. */
export function consider(round: Round, sleeve: number, perch: number, stack: number): void {
  const entered = classIn(round, sleeve, perch, stack);
  const index = indexOf(round.desk.layout, round.number, sleeve, perch, stack);
  if (!couldEnter(entered, endlessBound(round, stack), index)) return;
  const limits = limitsOn(round, sleeve, perch);
  if (!couldEnter(entered, knownBound(round, stack, limits), index)) return;
  if (!couldEnter(entered, newBound(round, stack, limits), index)) return;
  enter(entered, scored(round, cornerOf(round, sleeve, perch, stack), stack, index, limits));
}

/** Whether any combination of this stack in the round could be the best of its class. */
export function isWorthALook(round: Round, stack: number): boolean {
  const { layout } = round.desk;
  // Where price is ranked and sleeves differ in it, each sleeve may have a class of its own.
  if (!layout.onePrice) return true;
  const entered = classIn(round, round.sleeves[0] as number, round.perches[0] as number, stack);
  return couldEnter(entered, looseBound(round, stack), 0) && couldEnter(entered, endlessBound(round, stack), 0);
}

/** The class a combination belongs to, remembered for the round where price can't tell its sleeves apart. */
function classIn(round: Round, sleeve: number, perch: number, stack: number): CandidateClass {
  const { layout, tally, room, classes } = round.desk;
  const known = layout.onePrice ? classes[stack] : null;
  if (known) return known;
  const price = layout.ranking.price === null ? null : cornerPrice(cornerOf(round, sleeve, perch, stack));
  const found = classOf(tally, stack, room.frequency[stack] as number, price);
  classes[stack] = found;
  return found;
}

export function cornerOf({ desk, head }: Round, sleeveNumber: number, perchNumber: number, stack: number): Corner {
  const { sleeves, perches, stacks } = desk.layout;
  return {
    ...head.corner,
    sleeve: sleeves[sleeveNumber] as Corner['sleeve'],
    perch: perches[perchNumber] as Corner['perch'],
    helper: stacks.helpers[stack] ?? null,
    spring: stacks.springs[stack] as Corner['spring'],
  };
}

/**
 * What only head and frequency decide of the score, full coverage and no thin clearance taken for granted. It is the
 * score itself, to the last bit, where nothing is taken away: so equal scores go by index without being worked out.
 */
function looseBound({ desk, grid }: Round, stack: number): number {
  const { layout, room, wanted } = desk;
  const frequency = room.frequency[stack] as number;
  if (wanted.frequency[stack] !== frequency) {
    wanted.frequency[stack] = frequency;
    wanted.log[stack] = wantedLogOf(layout.site, frequency, layout.ranking);
  }
  return upperLogScore(grid.travelLog, wanted.log[stack] as number);
}

/** What a sleeve and a perch hold a stack to. */
interface Limits {
  /** Places the perch may have, mm. */
  readonly lowest: number;
  readonly highest: number;
  /** Least clearance of the sleeve beyond its margins, mm. */
  readonly spare: number;
}

const ENDLESS: Limits = {
  lowest: Number.NEGATIVE_INFINITY,
  highest: Number.POSITIVE_INFINITY,
  spare: Number.POSITIVE_INFINITY,
};

/** The stack's bound on an endless sleeve, remembered for the round: no sleeve of this head gives more. */
export function endlessBound(round: Round, stack: number): number {
  const { bounds } = round.desk;
  if (Number.isNaN(bounds[stack] as number)) bounds[stack] = boundWithin(round, stack, ENDLESS);
  return bounds[stack] as number;
}

export function limitsOn(round: Round, sleeveNumber: number, perchNumber: number): Limits {
  const places = placesOn(round.desk, sleeveNumber, perchNumber);
  return { lowest: places.perchLowest, highest: places.perchHighest, spare: sleeveSpareOf(round, sleeveNumber) };
}

/** What the stack scores at most within limits, by arithmetic on columns. */
export function boundWithin(round: Round, stack: number, limits: Limits): number {
  return boundOn(round, stack, ownLimits(round, stack), limits);
}

function boundOn(round: Round, stack: number, own: Limits, limits: Limits): number {
  const lowest = Math.max(own.lowest, limits.lowest);
  const highest = Math.min(own.highest, limits.highest);
  const spare = Math.min(own.spare, limits.spare);
  return looseBound(round, stack) + takenAway(round.desk.layout, round.grid, stack, lowest, highest, spare);
}

/**
 * What was worked out in this round for one sleeve bounds every sleeve that holds the stack to no less, and limits that
 * did not bind then are free: so the many cuts of a sleeve that make no difference are looked at once.
 */
function knownBound({ desk }: Round, stack: number, limits: Limits): number {
  const { score, lowest, highest, spare } = desk.scores;
  const known =
    limits.lowest >= (lowest[stack] as number) &&
    limits.highest <= (highest[stack] as number) &&
    limits.spare <= (spare[stack] as number);
  return known ? (score[stack] as number) : Number.POSITIVE_INFINITY;
}

/** Bounds the stack within limits, and keeps the bound for the sleeves to come. */
function newBound(round: Round, stack: number, limits: Limits): number {
  const own = ownLimits(round, stack);
  const bound = boundOn(round, stack, own, limits);
  // More than a good clearance counts no more.
  const enough = Math.min(own.spare, round.desk.layout.ranking.goodClearance ?? 0);
  keepBound(round, stack, bound, limits, {
    lowest: limits.lowest > own.lowest,
    highest: limits.highest < own.highest,
    spare: limits.spare < enough,
  });
  return bound;
}

/** @param binds which of the limits hold the score back; the others are free */
function keepBound(
  { desk: { scores } }: Round,
  stack: number,
  bound: number,
  limits: Limits,
  binds: Readonly<Record<keyof Limits, boolean>>,
): void {
  scores.score[stack] = bound;
  scores.lowest[stack] = binds.lowest ? limits.lowest : ENDLESS.lowest;
  scores.highest[stack] = binds.highest ? limits.highest : ENDLESS.highest;
  scores.spare[stack] = binds.spare ? limits.spare : ENDLESS.spare;
}

/** Whatever the sleeve: between these places the perch neither looses the spring nor lets it go solid or overstresses it. */
function ownLimits(round: Round, stack: number): Limits {
  const { desk, head, engagement, grid } = round;
  const { site, stacks } = desk.layout;
  const spare = Math.min(grid.spare, coilSpare(round, stack));
  const { corner, geometry } = head;
  const allowed = Math.min(site.target.allowedSlack, engagement);
  const lowest = geometry.droopLength - geometry.seatBelowShoulder - (stacks.freeLength[stack] as number) - allowed;
  // Under a bump load the damper stops earlier, so the perch may be higher than with the stop closed.
  if (site.bump.kind !== 'closed') return { lowest, highest: Number.POSITIVE_INFINITY, spare };
  const short = giveFor(corner, 'coil_bind') + (stacks.bindMargin[stack] as number);
  const shortest = Math.max((stacks.solidLength[stack] as number) + short, stacks.leastGap[stack] as number);
  return { lowest, highest: geometry.closedLength - geometry.seatBelowShoulder - shortest, spare };
}

/** Clearance of the coils beyond its margin at the target height, mm. */
function coilSpare({ desk, head }: Round, stack: number): number {
  const { room, layout } = desk;
  const { corner, geometry } = head;
  const solid = geometry.seatBelowShoulder + (layout.stacks.solidLength[stack] as number);
  const clearance = (room.fullLength[stack] as number) - (room.perch[stack] as number) - solid;
  return clearance - giveFor(corner, 'coil_bind') - (layout.stacks.bindMargin[stack] as number);
}

/** Least clearance of the sleeve beyond its margins, mm, worked out once a round. */
function sleeveSpareOf({ desk, head, sleeveSpares }: Round, sleeve: number): number {
  if (desk.layout.site.bump.kind !== 'closed') return Number.POSITIVE_INFINITY;
  if (Number.isNaN(sleeveSpares[sleeve] as number)) {
    sleeveSpares[sleeve] = sleeveSpare(desk, head, sleeve, head.geometry.closedLength);
  }
  return sleeveSpares[sleeve] as number;
}

function scored(round: Round, corner: Corner, stack: number, index: number, limits: Limits): Candidate {
  const { desk } = round;
  const { site, ranking } = desk.layout;
  desk.work.scored++;
  const state = cornerState(site, corner);
  const window = heightWindow(state);
  const candidate = candidateOf(index, { state, window }, ranking);
  // Under a bump load the sleeve's contacts bound the window, too: nothing is remembered then.
  if (site.bump.kind === 'closed' && window !== null) {
    const thin = thinnestContact(state);
    // More than a good clearance counts no more, so only a thinner one of the sleeve's own holds the score back.
    const bySleeve = thin.name.startsWith('sleeve') && thin.clearance - thin.margin < (ranking.goodClearance ?? 0);
    keepBound(round, stack, candidate.logScore, limits, {
      lowest: window.low.limit === 'perch_low',
      highest: window.high.limit === 'perch_high',
      spare: bySleeve,
    });
  }
  return candidate;
}

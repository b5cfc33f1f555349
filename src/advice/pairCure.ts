/**
 * Two changes together, where no single one makes a spring work. Every margin is nearly straight in every change, so
 * the smallest pair is found as that of straight margins (the corner of a polygon), and again from there until it
 * stays; then the workshop's steps around it are judged by the model itself, least amount first.
 */
import type { Corner, Site } from '../model/corner/site.ts';
import { works } from '../model/corner/verdict.ts';
import { FAMILIES } from '../model/scenario.ts';
import {
  type Advisability,
  advisabilityOf,
  CHANGES,
  isFixedToDamperSet,
  leastChange,
  STEP,
  stopCanMeetSleeve,
} from './changes.ts';
import type { CureFound } from './cure.ts';
import {
  amountOf,
  type Box,
  changeTo,
  listingOf,
  mostIn,
  nearestIn,
  type Pair,
  type Point,
  type StraightMargin,
  straightAt,
} from './straight.ts';
import type { Tried } from './trials.ts';

/** How many of the closest combinations are tried. */
export const CLOSEST = 12;
const MOST_ITERATIONS = 6;
const STEPS_AROUND = 3;

const PAIRS = CHANGES.flatMap((one, k) => CHANGES.slice(k + 1).map((other): Pair => [one, other]));

/**
 * The smallest pair of changes over the closest combinations, given closest first; null: none within the limits.
 *
 * @param isLast whether pairs of last resort are tried, or those that can be advised freely
 */
export function pairCure(site: Site, trials: readonly Tried[], isLast = false): CureFound | null {
  let best: CureFound | null = null;
  const walls = new Walls(site);
  for (const trial of trials.slice(0, CLOSEST)) {
    const least = leastChange(trial.findings, site);
    const straightIn = listingOf(site, trial.corner);
    for (const pair of PAIRS) {
      const limit: number = best === null ? Number.POSITIVE_INFINITY : best.amount;
      if (pairAdvisability(trial, pair) !== (isLast ? 'last' : 'freely')) continue;
      if (least >= limit || !mayHelp(site, trial, pair) || walls.stand(trial.corner, pair)) continue;
      const margins = straightIn(pair);
      walls.note(trial.corner, pair, margins, boxOf(trial, pair));
      const found = onTrial(site, trial, pair, margins, limit);
      if (found && found.amount < limit) best = { ...found, isLast };
    }
  }
  return best;
}

/** Two changes are advised as the more doubtful of them. */
function pairAdvisability({ corner }: Tried, pair: Pair): Advisability {
  const both = pair.map((change) => advisabilityOf(change, corner));
  return (['never', 'last'] as const).find((one) => both.includes(one)) ?? 'freely';
}

/** Whether everything the trial lacks is touched by one of the two. */
function mayHelp(site: Site, { findings, corner }: Tried, [one, other]: Pair): boolean {
  return findings.every((f) => one.touches(f, corner, site) || other.touches(f, corner, site));
}

function boxOf({ corner }: Tried, [one, other]: Pair): Box {
  return [one.limits(corner), other.limits(corner)];
}

/** The smallest pair of values on one trial, from its straight margins as listed. */
function onTrial(
  site: Site,
  trial: Tried,
  pair: Pair,
  margins: readonly StraightMargin[],
  limit: number,
): Omit<CureFound, 'isLast'> | null {
  const { corner } = trial;
  const start: Point = [pair[0].get(corner), pair[1].get(corner)];
  const box = boxOf(trial, pair);
  const point = settle(start, box, limit, (at) => (at === start ? margins : straightAt(site, corner, pair, at, box)));
  if (point === null) return null;
  const rounded = stepsAround(point, start, box).find((p) => works(site, changeTo(corner, pair, p)));
  if (rounded === undefined) return null;
  const changes = pair.flatMap((change, k) => {
    const [from, to] = [start[k] as number, rounded[k] as number];
    return from === to ? [] : [{ kind: change.kind, part: change.part(corner), from, to }];
  });
  return { trial, corner: changeTo(corner, pair, rounded), changes, amount: amountOf(rounded, start) };
}

/** Straight margins tell the amount well enough to give up what is far beyond the best pair so far, mm. */
const FAR = 2;

/** The nearest point that straight margins leave, again from there until it stays; null: none, or too far away. */
function settle(
  start: Point,
  box: Box,
  limit: number,
  straight: (at: Point) => readonly StraightMargin[],
): Point | null {
  let point = start;
  for (let n = 0; n < MOST_ITERATIONS; n++) {
    const sides = straight(point).map(({ side }) => side);
    const next = nearestIn(sides, start, box);
    if (next === null || amountOf(next, start) > limit + FAR) return null;
    const stays = amountOf(next, point) < STEP / 10;
    point = next;
    if (stays) break;
  }
  return point;
}

/** Values in steps around a point, and the listed ones, least amount first. */
function stepsAround(point: Point, start: Point, box: Box): Point[] {
  const along = (axis: 0 | 1): number[] => {
    const middle = Math.round(point[axis] / STEP);
    const steps = Array.from({ length: 2 * STEPS_AROUND + 1 }, (_, k) => (middle + k - STEPS_AROUND) * STEP);
    const [least, most] = box[axis];
    return [...new Set([start[axis], ...steps])].filter((value) => value >= least && value <= most);
  };
  const points = along(0).flatMap((x) => along(1).map((y): Point => [x, y]));
  return points.sort((p, q) => amountOf(p, start) - amountOf(q, start));
}

/**
 * Pairs of changes that end at a wall: a margin which nothing within their limits makes up. Where the stop can't meet
 * the sleeve, a margin that neither sleeve nor perch decides is the same, to the last bit, for all combinations of one
 * damper set and stack: so a wall that one of them met stands for all.
 */
export class Walls {
  readonly #site: Site;
  readonly #met: { readonly corner: Corner; readonly pair: Pair }[] = [];

  constructor(site: Site) {
    this.#site = site;
  }

  /** Whether another combination with this damper set and stack met a wall on the same pair. */
  stand(corner: Corner, pair: Pair): boolean {
    const met = this.#met.some((wall) => wall.pair === pair && hasSameSet(wall.corner, corner));
    return met && !stopCanMeetSleeve(this.#site, corner);
  }

  /** Notes for the other combinations of the damper set what its straight margins can't make up within the box. */
  note(corner: Corner, pair: Pair, margins: readonly StraightMargin[], box: Box): void {
    const isWall = (margin: StraightMargin) => isFixedToDamperSet(margin) && mostIn(margin.side, box) < 0;
    if (!stopCanMeetSleeve(this.#site, corner) && margins.some(isWall)) this.#met.push({ corner, pair });
  }
}

/** The same damper set and stack: every part but sleeve and perch. */
function hasSameSet(one: Corner, other: Corner): boolean {
  return FAMILIES.every((family) => family === 'sleeve' || family === 'perch' || one[family] === other[family]);
}

/**
 * Two changes together, where no single one makes a spring work. Every margin is nearly straight in every change, so
 * the smallest pair is found as that of straight margins (the corner of a polygon), and again from there until it
 * stays; then the workshop's steps around it are judged by the model itself, least amount first.
 */
import type { Site } from '../corner/site.ts';
import { type Advised, CHANGES, howAdvised, leastChange, STEP } from './changes.ts';
import type { CureFound } from './cure.ts';
import { amountOf, type Box, nearestIn, type Point } from './polygon.ts';
import { changedTo, Listing, type Pair, type StraightMargin, straightAt } from './straight.ts';
import type { Tried } from './trials.ts';
import { works } from './verdict.ts';
import { Walls } from './walls.ts';

/** How many of the closest combinations are tried. */
export const CLOSEST = 12;
const ROUNDS = 6;
const STEPS_AROUND = 3;

const PAIRS = CHANGES.flatMap((one, k) => CHANGES.slice(k + 1).map((other): Pair => [one, other]));

/**
 * The smallest pair of changes over the closest combinations, given closest first; null: none within the limits.
 *
 * @param isLast whether pairs of last resort are looked at, or those that can be advised freely
 */
export function pairCure(site: Site, trials: readonly Tried[], isLast = false): CureFound | null {
  let best: CureFound | null = null;
  const walls = new Walls(site);
  for (const trial of trials.slice(0, CLOSEST)) {
    const least = leastChange(trial.findings, site);
    const listing = new Listing(site, trial.corner);
    for (const pair of PAIRS) {
      const limit: number = best === null ? Number.POSITIVE_INFINITY : best.amount;
      if (advisedAs(trial, pair) !== (isLast ? 'last' : 'freely')) continue;
      if (least >= limit || !mayHelp(site, trial, pair) || walls.stand(trial.corner, pair)) continue;
      const margins = listing.straightIn(pair);
      walls.note(trial.corner, pair, margins, boxOf(trial, pair));
      const found = onTrial(site, trial, pair, margins, limit);
      if (found && found.amount < limit) best = { ...found, isLast };
    }
  }
  return best;
}

/** Two changes are advised as the more doubtful of them. */
function advisedAs({ corner }: Tried, pair: Pair): Advised {
  const both = pair.map((change) => howAdvised(change, corner));
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
  const point = settled(start, box, limit, (at) => (at === start ? margins : straightAt(site, corner, pair, at, box)));
  if (point === null) return null;
  const rounded = stepsAround(point, start, box).find((p) => works(site, changedTo(corner, pair, p)));
  if (rounded === undefined) return null;
  const parts = pair.map((change, k) => ({
    kind: change.kind,
    part: change.part(corner),
    from: start[k as 0 | 1],
    to: rounded[k as 0 | 1],
  }));
  const changes = parts.filter((c) => c.from !== c.to);
  return { trial, corner: changedTo(corner, pair, rounded), changes, amount: amountOf(rounded, start) };
}

/** Straight margins tell the amount well enough to give up what is far beyond the best pair so far, mm. */
const FAR = 2;

/** The nearest point that straight margins leave, again from there until it stays; null: none, or too far away. */
function settled(
  start: Point,
  box: Box,
  limit: number,
  straight: (at: Point) => readonly StraightMargin[],
): Point | null {
  let point = start;
  for (let round = 0; round < ROUNDS; round++) {
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

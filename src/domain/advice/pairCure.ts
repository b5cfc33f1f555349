/**
 * Two changes together, where no single one makes a spring work. Every margin is nearly straight in every change, so
 * the smallest pair is found as that of straight margins (the corner of a polygon), and again from there until it
 * stays; then the workshop's steps around it are judged by the model itself, least amount first.
 */
import type { Corner, Site } from '../corner/site.ts';
import { CHANGES, type ContinuousChange, leastChange, STEP } from './changes.ts';
import type { CureFound, Trial } from './cure.ts';
import { type Margin, marginsOf } from './margins.ts';
import { findingsAt, lightState, works } from './verdict.ts';

/** How many of the closest combinations are tried. */
const CLOSEST = 12;
const ROUNDS = 6;
const STEPS_AROUND = 3;

/** The smallest pair of changes over the closest combinations, given closest first; null: none within the limits. */
export function pairCure(site: Site, trials: readonly Trial[]): CureFound | null {
  let best: CureFound | null = null;
  for (const trial of trials.slice(0, CLOSEST)) {
    for (const [one, other] of PAIRS) {
      const hopeless = trial.findings.some(
        (f) => !one.touches(f, trial.corner, site) && !other.touches(f, trial.corner, site),
      );
      if (hopeless || leastChange(trial.findings, site) >= (best?.amount ?? Number.POSITIVE_INFINITY)) continue;
      const limit: number = best?.amount ?? Number.POSITIVE_INFINITY;
      const found = onTrial(site, trial, one, other, limit);
      if (found && found.amount < limit) best = found;
    }
  }
  return best;
}

const PAIRS = CHANGES.flatMap((one, k) => CHANGES.slice(k + 1).map((other) => [one, other] as const));

type Point = readonly [number, number];

/** Straight margins tell the amount well enough to give up what is far beyond the best pair so far, mm. */
const FAR = 2;

function onTrial(
  site: Site,
  trial: Trial,
  one: ContinuousChange,
  other: ContinuousChange,
  limit: number,
): CureFound | null {
  const start: Point = [one.get(trial.corner), other.get(trial.corner)];
  const at = ([a, b]: Point) => other.set(one.set(trial.corner, a), b);
  const box = [one.limits(trial.corner), other.limits(trial.corner)] as const;
  let point = start;
  for (let round = 0; round < ROUNDS; round++) {
    const next = smallestOn(straightMargins(site, at, point, box), start, box);
    if (next === null || amountOf(next, start) > limit + FAR) return null;
    const settled = Math.abs(next[0] - point[0]) + Math.abs(next[1] - point[1]) < STEP / 10;
    point = next;
    if (settled) break;
  }
  const rounded = stepsAround(point, start, box).find((p) => works(site, at(p)));
  if (rounded === undefined) return null;
  const parts = [one, other].map((change, k) => ({
    kind: change.kind,
    part: change.part(trial.corner),
    from: start[k as 0 | 1],
    to: rounded[k as 0 | 1],
  }));
  const changes = parts.filter((c) => c.from !== c.to);
  return { trial, corner: at(rounded), changes, amount: amountOf(rounded, start) };
}

/** `a x + b y + c >= 0` */
type HalfPlane = readonly [number, number, number];
type Box = readonly [readonly [number, number], readonly [number, number]];

/** Every margin as a plane through its values here and half a millimetre away, inside the box. */
function straightMargins(site: Site, at: (point: Point) => Corner, [x, y]: Point, box: Box): HalfPlane[] {
  const hx = x + STEP <= box[0][1] ? STEP : -STEP;
  const hy = y + STEP <= box[1][1] ? STEP : -STEP;
  const read = (point: Point) => marginsOf(lightState(site, at(point)));
  const here = read([x, y]);
  const across = read([x + hx, y]);
  const along = read([x, y + hy]);
  const planes: HalfPlane[] = [];
  for (const [k, { name, value }] of here.entries()) {
    const a = (marginOf(across, k, name) - value) / hx;
    const b = (marginOf(along, k, name) - value) / hy;
    if (Number.isFinite(a) && Number.isFinite(b)) planes.push([a, b, value - a * x - b * y]);
  }
  return planes;
}

/** A margin by name, most likely at place `k`; NaN where the corner has none of that name. */
function marginOf(margins: readonly Margin[], k: number, name: string): number {
  const likely = margins[k];
  return (likely?.name === name ? likely : margins.find((margin) => margin.name === name))?.value ?? Number.NaN;
}

/** The point of the polygon nearest to the start, counted along both axes: one of the crossings of its sides. */
function smallestOn(margins: readonly HalfPlane[], [x0, y0]: Point, box: Box): Point | null {
  const [[xLeast, xMost], [yLeast, yMost]] = box;
  const bounds: HalfPlane[] = [
    [1, 0, -xLeast],
    [-1, 0, xMost],
    [0, 1, -yLeast],
    [0, -1, yMost],
  ];
  const reach = margins.map((side) => ({ side, ...reachOf(side, box) }));
  if (reach.some(({ most }) => most < 0)) return null;
  const sides: HalfPlane[] = [...reach.filter(({ least }) => least < 0).map(({ side }) => side), ...bounds];
  const lines: HalfPlane[] = [...sides, [1, 0, -x0], [0, 1, -y0]];
  let best: Point | null = null;
  for (const [k, one] of lines.entries()) {
    for (const other of lines.slice(k + 1)) {
      const point = crossing(one, other);
      if (point === null || !sides.every(([a, b, c]) => a * point[0] + b * point[1] + c >= -1e-9)) continue;
      if (best === null || amountOf(point, [x0, y0]) < amountOf(best, [x0, y0]) - 1e-9) best = point;
    }
  }
  return best;
}

/** What a margin is at least and at most in the box. */
function reachOf([a, b, c]: HalfPlane, [[x0, x1], [y0, y1]]: Box): { least: number; most: number } {
  const [ax, bx, ay, by] = [a * x0, a * x1, b * y0, b * y1];
  return { least: Math.min(ax, bx) + Math.min(ay, by) + c, most: Math.max(ax, bx) + Math.max(ay, by) + c };
}

function crossing([a, b, c]: HalfPlane, [d, e, f]: HalfPlane): Point | null {
  const determinant = a * e - b * d;
  return Math.abs(determinant) < 1e-12 ? null : [(b * f - c * e) / determinant, (c * d - a * f) / determinant];
}

function amountOf(point: Point, start: Point): number {
  return Math.abs(point[0] - start[0]) + Math.abs(point[1] - start[1]);
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

/** A helper of the other axle's list put in, alone or with one change: what the axle's own list does not hold. */
export function withHelpers(site: Site, trials: readonly Trial[], helpers: readonly Corner['helper'][]): Trial[] {
  return helpers.flatMap((helper) =>
    trials.slice(0, CLOSEST).map((trial) => {
      const corner = { ...trial.corner, helper };
      return { index: trial.index, corner, findings: findingsAt(site, corner) };
    }),
  );
}

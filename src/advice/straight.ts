/** Margins as straight functions of two changes: through their values at a point and half a millimetre away from it. */
import { type Margin, marginsOf } from '../model/corner/findings.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import { lightState } from '../model/corner/verdict.ts';
import { type ContinuousChange, STEP } from './changes.ts';

export type Pair = readonly [one: ContinuousChange, other: ContinuousChange];

export interface StraightMargin extends Pick<Margin, 'check' | 'detail'> {
  readonly side: HalfPlane;
}

/** Margins a step along one change. */
interface Neighbour {
  readonly step: number;
  readonly margins: readonly Margin[];
}

/** The combination with two changes set. */
export function changeTo(corner: Corner, [one, other]: Pair, [x, y]: Point): Corner {
  return other.set(one.set(corner, x), y);
}

/** Straight margins of a combination at any values of two changes. */
export function straightAt(site: Site, corner: Corner, pair: Pair, point: Point, [xs, ys]: Box): StraightMargin[] {
  const read = (at: Point) => marginsAt(site, changeTo(corner, pair, at));
  const [x, y] = point;
  const [across, along] = [stepWithin(x, xs), stepWithin(y, ys)];
  return straightOf(point, read(point), [
    { step: across, margins: read([x + across, y]) },
    { step: along, margins: read([x, y + along]) },
  ]);
}

/** Straight margins of a combination as listed: its margins there and a step along each change are read once for all pairs. */
export function listingOf(site: Site, corner: Corner): (pair: Pair) => StraightMargin[] {
  let here: readonly Margin[] | null = null;
  const neighbours = new Map<ContinuousChange, Neighbour>();
  const along = (change: ContinuousChange): Neighbour => {
    const at = change.get(corner);
    const step = stepWithin(at, change.limits(corner));
    const read = () => ({ step, margins: marginsAt(site, change.set(corner, at + step)) });
    const known = neighbours.get(change) ?? read();
    neighbours.set(change, known);
    return known;
  };
  return ([one, other]) => {
    here ??= marginsAt(site, corner);
    return straightOf([one.get(corner), other.get(corner)], here, [along(one), along(other)]);
  };
}

function marginsAt(site: Site, corner: Corner): Margin[] {
  return marginsOf(lightState(site, corner));
}

/** A step upwards, or downwards where that would leave the limits. */
function stepWithin(value: number, [, most]: readonly [number, number]): number {
  return value + STEP <= most ? STEP : -STEP;
}

function straightOf(
  [x, y]: Point,
  here: readonly Margin[],
  [across, along]: readonly [Neighbour, Neighbour],
): StraightMargin[] {
  return here.flatMap((margin, k) => {
    const { check, detail, value } = margin;
    const a = (marginOf(across.margins, k, margin) - value) / across.step;
    const b = (marginOf(along.margins, k, margin) - value) / along.step;
    return Number.isFinite(a) && Number.isFinite(b) ? [{ check, detail, side: [a, b, value - a * x - b * y] }] : [];
  });
}

/** The same margin among others, most likely at place `k`; NaN where the corner has none such. */
function marginOf(margins: readonly Margin[], k: number, { check, detail }: Margin): number {
  const isSame = (margin: Margin | undefined) => margin?.check === check && margin.detail === detail;
  const likely = margins[k];
  return (isSame(likely) ? likely : margins.find(isSame))?.value ?? Number.NaN;
}

export type Point = readonly [x: number, y: number];
/** `a x + b y + c >= 0` */
export type HalfPlane = readonly [a: number, b: number, c: number];
/** Least and greatest value of either. */
export type Box = readonly [x: readonly [number, number], y: readonly [number, number]];

/**
 * Margins that are straight in two changes leave a polygon of values: its point nearest to the start, counted along both
 * axes, is one of the crossings of its sides.
 */
export function nearestIn(margins: readonly HalfPlane[], [x0, y0]: Point, box: Box): Point | null {
  if (margins.some((side) => mostIn(side, box) < 0)) return null;
  const [[xLeast, xMost], [yLeast, yMost]] = box;
  const bounds: HalfPlane[] = [
    [1, 0, -xLeast],
    [-1, 0, xMost],
    [0, 1, -yLeast],
    [0, -1, yMost],
  ];
  const sides: HalfPlane[] = [...margins.filter((side) => leastIn(side, box) < 0), ...bounds];
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

/** What a margin is at least in the box. */
function leastIn([a, b, c]: HalfPlane, [[x0, x1], [y0, y1]]: Box): number {
  return Math.min(a * x0, a * x1) + Math.min(b * y0, b * y1) + c;
}

/** What a margin is at most in the box: below 0, no point of the box will do. */
export function mostIn([a, b, c]: HalfPlane, [[x0, x1], [y0, y1]]: Box): number {
  return Math.max(a * x0, a * x1) + Math.max(b * y0, b * y1) + c;
}

function crossing([a, b, c]: HalfPlane, [d, e, f]: HalfPlane): Point | null {
  const determinant = a * e - b * d;
  return Math.abs(determinant) < 1e-12 ? null : [(b * f - c * e) / determinant, (c * d - a * f) / determinant];
}

export function amountOf(point: Point, start: Point): number {
  return Math.abs(point[0] - start[0]) + Math.abs(point[1] - start[1]);
}

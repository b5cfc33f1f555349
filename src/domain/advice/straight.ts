/** Margins as straight functions of two changes: through their values at a point and half a millimetre away from it. */
import type { Corner, Site } from '../corner/site.ts';
import { type ContinuousChange, STEP } from './changes.ts';
import { type Margin, marginsOf } from './margins.ts';
import type { Box, HalfPlane, Point } from './polygon.ts';
import { lightState } from './verdict.ts';

export type Pair = readonly [one: ContinuousChange, other: ContinuousChange];

export interface StraightMargin {
  readonly name: string;
  readonly side: HalfPlane;
}

/** Margins a step along one change. */
interface Neighbour {
  readonly step: number;
  readonly margins: readonly Margin[];
}

/** The combination with two changes set. */
export function changedTo(corner: Corner, [one, other]: Pair, [x, y]: Point): Corner {
  return other.set(one.set(corner, x), y);
}

/** Straight margins of a combination at any values of two changes. */
export function straightAt(site: Site, corner: Corner, pair: Pair, point: Point, [xs, ys]: Box): StraightMargin[] {
  const read = (at: Point) => marginsAt(site, changedTo(corner, pair, at));
  const [x, y] = point;
  const [across, along] = [stepWithin(x, xs), stepWithin(y, ys)];
  return straightOf(point, read(point), [
    { step: across, margins: read([x + across, y]) },
    { step: along, margins: read([x, y + along]) },
  ]);
}

/** A combination as listed: its margins there and a step along each change are read once for all pairs. */
export class Listing {
  readonly #site: Site;
  readonly #corner: Corner;
  #here: readonly Margin[] | null = null;
  readonly #neighbours = new Map<ContinuousChange, Neighbour>();

  constructor(site: Site, corner: Corner) {
    this.#site = site;
    this.#corner = corner;
  }

  straightIn([one, other]: Pair): StraightMargin[] {
    this.#here ??= marginsAt(this.#site, this.#corner);
    const point = [one.get(this.#corner), other.get(this.#corner)] as const;
    return straightOf(point, this.#here, [this.#along(one), this.#along(other)]);
  }

  #along(change: ContinuousChange): Neighbour {
    const known = this.#neighbours.get(change) ?? this.#read(change);
    this.#neighbours.set(change, known);
    return known;
  }

  #read(change: ContinuousChange): Neighbour {
    const at = change.get(this.#corner);
    const step = stepWithin(at, change.limits(this.#corner));
    return { step, margins: marginsAt(this.#site, change.set(this.#corner, at + step)) };
  }
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
  return here.flatMap(({ name, value }, k) => {
    const a = (marginOf(across.margins, k, name) - value) / across.step;
    const b = (marginOf(along.margins, k, name) - value) / along.step;
    return Number.isFinite(a) && Number.isFinite(b) ? [{ name, side: [a, b, value - a * x - b * y] }] : [];
  });
}

/** A margin by name, most likely at place `k`; NaN where the corner has none of that name. */
function marginOf(margins: readonly Margin[], k: number, name: string): number {
  const likely = margins[k];
  return (likely?.name === name ? likely : margins.find((margin) => margin.name === name))?.value ?? Number.NaN;
}

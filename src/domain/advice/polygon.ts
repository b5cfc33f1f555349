/** Margins that are straight in two changes leave a polygon of values; the least change is one of its corners. */

export type Point = readonly [x: number, y: number];
/** `a x + b y + c >= 0` */
export type HalfPlane = readonly [a: number, b: number, c: number];
/** Least and greatest value of either. */
export type Box = readonly [x: readonly [number, number], y: readonly [number, number]];

/** The point of the polygon nearest to the start, counted along both axes: one of the crossings of its sides. */
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

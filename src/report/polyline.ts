/** A drawn line without the points that lie on the straight way between others. */

/** A tenth of a pixel is seen by nobody. */
const TOLERANCE = 0.1;
const OPEN_LINE = /^M-?[\d.]+[ ,]-?[\d.]+(?:L-?[\d.]+[ ,]-?[\d.]+){3,}$/;

type Point = readonly [x: number, y: number];

/** Path data of one open line of straight pieces with the points left out that nobody misses; other data as it is. */
export function straightPath(d: string): string {
  if (!OPEN_LINE.test(d)) return d;
  const points = [...d.matchAll(/[ML](-?[\d.]+)[ ,](-?[\d.]+)/g)].map(([, x, y]): Point => [Number(x), Number(y)]);
  const [first, ...rest] = kept(points, 0, points.length - 1);
  return `M${first?.join()}${rest.map((point) => `L${point.join()}`).join('')}`;
}

/** The way of Douglas and Peucker (1973): split at the point farthest from the straight line while it is too far. */
function kept(points: readonly Point[], from: number, to: number): Point[] {
  const [start, end] = [points[from] as Point, points[to] as Point];
  let [farthest, distance] = [from, TOLERANCE];
  for (let k = from + 1; k < to; k++) {
    const away = distanceTo(points[k] as Point, start, end);
    if (away > distance) [farthest, distance] = [k, away];
  }
  if (farthest === from) return [start, end];
  return [...kept(points, from, farthest), ...kept(points, farthest, to).slice(1)];
}

/** From a point to the piece of line between two others. */
function distanceTo([x, y]: Point, [x1, y1]: Point, [x2, y2]: Point): number {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const length2 = dx * dx + dy * dy;
  const along = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - x1) * dx + (y - y1) * dy) / length2));
  return Math.hypot(x - x1 - along * dx, y - y1 - along * dy);
}

/** Dimension lines: where they stand, their arrows, and the marks that tell the thinnest and the failing ones apart. */
import { group, lineThrough, n, path } from './shapes.ts';

export type Emphasis = 'plain' | 'thin' | 'fail';

export interface Dimension {
  /** Across, and the two ends, in drawing units. */
  readonly x: number;
  readonly low: number;
  readonly high: number;
  readonly emphasis: Emphasis;
}

/** Length and half-width of an arrow's head, per emphasis. */
const ARROW = { plain: [4, 1.6], thin: [6, 2.6], fail: [6, 2.6] } as const;
const TAIL = 6;

/** An upright line with a head at each end; where arrows would not fit between the ends they point in from outside. */
export function dimensionLine({ x, low, high, emphasis }: Dimension): string {
  const [length, half] = ARROW[emphasis];
  const top = Math.min(low, high);
  const bottom = Math.max(low, high);
  const isOutside = bottom - top < 2 * length + 2;
  const line = isOutside
    ? lineThrough([
        [x, top - length - TAIL],
        [x, bottom + length + TAIL],
      ])
    : lineThrough([
        [x, top],
        [x, bottom],
      ]);
  // A head's direction is from its base to its tip.
  const arrows = isOutside
    ? arrow(x, top, -length, half) + arrow(x, bottom, length, half)
    : arrow(x, top, length, half) + arrow(x, bottom, -length, half);
  return group(`dim ${emphasis}`, [path(line, 'halo'), path(line, ''), path(arrows, 'head')]);
}

function arrow(x: number, tip: number, back: number, half: number): string {
  return `M${n(x)} ${n(tip)}l${n(-half)} ${n(back)}h${n(2 * half)}z`;
}

/** Told apart by shape: a dot, a diamond for the thinnest, a cross for what fails. */
export function mark(x: number, y: number, emphasis: Emphasis): string {
  if (emphasis === 'plain') return `<circle class="mark" cx="${n(x)}" cy="${n(y)}" r="2"/>`;
  if (emphasis === 'thin') return path(`M${n(x)} ${n(y - 5)}l5 5l-5 5l-5 -5z`, 'mark thin');
  return path(`M${n(x - 4)} ${n(y - 4)}l8 8m0 -8l-8 8`, 'mark fail');
}

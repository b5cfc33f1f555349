/** A figure of the sheet: parts, and dimensions that name the field they measure. Letters come from the table beside it. */
import { dimensionLine } from '../drawing/dimensions.ts';
import { escaped, group, lineThrough, n, path } from '../drawing/shapes.ts';

export interface Figure {
  readonly width: number;
  readonly height: number;
  /** What a reader who cannot see it is told. */
  readonly title: string;
  readonly parts: string;
  readonly dims: readonly Dim[];
}

/** A dimension upright at `at` (across), or across at `at` (upright), between two places on the other axis. */
export interface Dim {
  readonly path: string;
  readonly way: 'upright' | 'across' | 'tag';
  readonly at: number;
  readonly low: number;
  readonly high: number;
  /** The part's edge, from which thin lines run to the dimension. */
  readonly edge: number;
}

/** Lengths along the damper: from `low` to `high`, measured downwards in the drawing. */
export const upright = (path: string, at: number, low: number, high: number, edge = at): Dim => {
  return { path, way: 'upright', at, low, high, edge };
};

export const across = (path: string, at: number, low: number, high: number, edge = at): Dim => {
  return { path, way: 'across', at, low, high, edge };
};

/** A letter beside what it measures, with a thin line to it: what is no length of its own in the drawing. */
export const tag = (path: string, x: number, y: number, toX: number, toY: number): Dim => {
  return { path, way: 'tag', at: x, low: y, high: toX, edge: toY };
};

/** The figure as SVG; `letter` gives each path's letter. */
export function figureSvg(figure: Figure, letter: (path: string) => string): string {
  const { width, height, title, parts, dims } = figure;
  const lines = dims.map((dim) => extension(dim) + lineOf(dim));
  const letters = dims.map((dim) => letterAt(...placeOf(dim), letter(dim.path)));
  const box = `viewBox="0 0 ${n(width)} ${n(height)}" role="img"`;
  return `<svg class="drawing measured" ${box} aria-label="${escaped(title)}">${group('f', [parts])}${group('dims', lines)}${letters.join('')}</svg>`;
}

function lineOf({ way, at, low, high }: Dim): string {
  if (way === 'tag') return '';
  const line = dimensionLine({ x: at, low, high, emphasis: 'plain' });
  // Exchanges the axes, so that one arrow serves both ways.
  return way === 'upright' ? line : `<g transform="matrix(0 1 1 0 0 0)">${line}</g>`;
}

function extension({ way, at, low, high, edge }: Dim): string {
  if (way === 'tag') return path(line([at, low], [high, edge]), 'ext');
  if (edge === at) return '';
  const beyond = at + 3 * Math.sign(at - edge);
  const ends = [low, high].map((end) =>
    way === 'upright' ? line([edge, end], [beyond, end]) : line([end, edge], [end, beyond]),
  );
  return path(ends.join(''), 'ext');
}

function line(from: readonly [number, number], to: readonly [number, number]): string {
  return lineThrough([from, to]);
}

/** Room a letter needs on its line; on shorter ones it stands beside it, away from the part. */
const ROOM = 26;
const BESIDE = 11;

function placeOf({ way, at, low, high, edge }: Dim): readonly [x: number, y: number] {
  if (way === 'tag') return [at, low];
  const middle = (low + high) / 2;
  const beside = Math.abs(high - low) >= ROOM ? at : at + BESIDE * (at < edge ? -1 : 1);
  return way === 'upright' ? [beside, middle] : [middle, beside];
}

function letterAt(x: number, y: number, text: string): string {
  return `<g class="letter"><circle cx="${n(x)}" cy="${n(y)}" r="6.5"/><text x="${n(x)}" y="${n(y + 3.2)}" text-anchor="middle">${escaped(text)}</text></g>`;
}

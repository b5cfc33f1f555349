/** Points of a scatter with their ranks: equal points merged, labels left out where there is no room for them. */
import { paint } from '../frame/theme.ts';
import { rankText } from '../text/labels.ts';
import { textWidth } from '../text/textWidth.ts';
import { number, textLayer } from './axes.ts';
import { TYPE_SIZE } from './draw.ts';

export interface RankedPoint {
  readonly rank: number;
  readonly x: number;
  readonly y: number;
  readonly kind: string;
}

export interface MergedPoint {
  readonly x: number;
  readonly y: number;
  readonly kind: string;
  /** Ranks of all that lie here. */
  readonly label: string;
  readonly best: number;
}

export interface PlotFrame {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly width: number;
  readonly height: number;
}

/** Apart by less than this many pixels is one point. */
const SAME = 2;
/** From a point’s middle to its label. */
export const LABEL_AWAY = 9;

/** Merges points that would be drawn on one another; the best rank gives place and kind. */
export function mergePoints(points: readonly RankedPoint[], frame: PlotFrame): MergedPoint[] {
  const merged: { point: RankedPoint; ranks: number[] }[] = [];
  for (const point of [...points].sort((a, b) => a.rank - b.rank)) {
    const same = merged.find((m) => m.point.kind === point.kind && isNear(m.point, point, frame));
    if (same) same.ranks.push(point.rank);
    else merged.push({ point, ranks: [point.rank] });
  }
  return merged.map(({ point: { x, y, kind }, ranks }) => ({
    x,
    y,
    kind,
    label: rankText(ranks),
    best: ranks[0] ?? 0,
  }));
}

/** Labels right or left of their points, best rank first; one that fits at neither side is left out. */
export function placeLabels(points: readonly MergedPoint[], frame: PlotFrame) {
  const taken: Box[] = points.map((point) => around(pixelsOf(point, frame), 6, 6));
  const placed: { x: number; y: number; text: string; align: 'left' | 'right' }[] = [];
  for (const point of [...points].sort((a, b) => a.best - b.best)) {
    const at = pixelsOf(point, frame);
    const width = textWidth(point.label, TYPE_SIZE);
    for (const align of ['left', 'right'] as const) {
      const x = at.x + (align === 'left' ? LABEL_AWAY : -LABEL_AWAY);
      const middle = { x: x + (align === 'left' ? width / 2 : -width / 2), y: at.y };
      const box = around(middle, width / 2, TYPE_SIZE / 2);
      if (box.left < 0 || box.right > frame.width || taken.some((other) => overlap(box, other))) continue;
      taken.push(box);
      placed.push({ x, y: at.y, text: point.label, align });
      break;
    }
  }
  return placed;
}

/** Ranks of points that have no room for their label, best first. */
export function unlabelledRanks(points: readonly MergedPoint[], frame: PlotFrame): string {
  const placed = new Set(placeLabels(points, frame).map(({ text }) => text));
  const left = points.filter(({ label }) => !placed.has(label)).sort((a, b) => a.best - b.best);
  return left.map(({ label }) => label).join(', ');
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function pixelsOf({ x, y }: { readonly x: number; readonly y: number }, frame: PlotFrame) {
  const share = (value: number, [from, to]: readonly [number, number]) => (value - from) / (to - from);
  return { x: share(x, frame.x) * frame.width, y: (1 - share(y, frame.y)) * frame.height };
}

function isNear(a: RankedPoint, b: RankedPoint, frame: PlotFrame): boolean {
  const [one, two] = [pixelsOf(a, frame), pixelsOf(b, frame)];
  return Math.hypot(one.x - two.x, one.y - two.y) < SAME;
}

function around({ x, y }: { readonly x: number; readonly y: number }, width: number, height: number): Box {
  return { left: x - width, right: x + width, top: y - height, bottom: y + height };
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

// Layers of a scatter whose points carry their ranks.

/** Told apart by shape and by fill, so that grey is enough. */
const SHAPES: Readonly<Record<string, object>> = {
  best: { shape: 'diamond', size: 150, fill: paint('accent'), stroke: paint('paper'), strokeWidth: 1 },
  front: { shape: 'diamond', size: 90, fill: paint('accent'), stroke: paint('paper'), strokeWidth: 1 },
  other: { shape: 'circle', size: 45, fill: paint('paper'), stroke: paint('muted'), strokeWidth: 1.5 },
};

export function pointLayers(points: readonly MergedPoint[], frame: PlotFrame): object[] {
  // What matters most is drawn last, on top.
  const kinds = ['other', 'front', 'best'].filter((kind) => points.some((point) => point.kind === kind));
  const dots = kinds.map((kind) => ({
    data: { values: points.filter((point) => point.kind === kind).map(({ x, y }) => ({ x, y })) },
    mark: { type: 'point', opacity: 1, ...SHAPES[kind] },
    encoding: { x: number('x'), y: number('y') },
  }));
  const labels = placeLabels(points, frame);
  const labelLayer = (align: 'left' | 'right') =>
    textLayer(
      labels.filter((label) => label.align === align),
      { align, baseline: 'middle', fontSize: TYPE_SIZE, fill: paint('ink') },
    );
  return [...dots, ...(['left', 'right'] as const).map((align) => labelLayer(align))];
}

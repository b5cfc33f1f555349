/** Upright marks over a chart, each with its name above it, the names kept apart. */
import { paint } from '../frame/theme.ts';
import { spread, textWidth } from '../text/textWidth.ts';
import { number, pixels, textLayer } from './axes.ts';
import { TYPE_SIZE } from './draw.ts';

export interface ChartMark {
  readonly name: string;
  /** Place along the axis, in its own unit. */
  readonly at: number;
  /** `limit`: metal. `wanted`: where the car stands. */
  readonly kind: 'plain' | 'wanted' | 'limit';
}

export interface MarkBand {
  /** Pixels. */
  readonly width: number;
  readonly bottom: number;
  readonly domain: readonly [number, number];
}

/** Names read upwards, a line apart. */
const LINE = TYPE_SIZE + 3;
/** From the plot up to a name: the mark bends there. */
const BEND = 14;
/** Shapes of the marks: dashes tell them apart without colour. */
const STROKES = {
  plain: { stroke: paint('muted'), dash: [2, 3], width: 1 },
  wanted: { stroke: paint('accent'), dash: [1, 0], width: 1.6 },
  limit: { stroke: paint('alert'), dash: [7, 2], width: 1.6 },
} as const;

/** Room in pixels that the names need above the plot. */
export function bandFor(marks: readonly ChartMark[]): number {
  return Math.ceil(Math.max(0, ...marks.map(({ name }) => textWidth(name, TYPE_SIZE)))) + BEND + 4;
}

/** Layers in pixels: the plot’s own scales don’t reach above it. */
export function markLayers(marks: readonly ChartMark[], band: MarkBand, top: number): object[] {
  const placed = placeMarks(marks, band);
  const lines = placed.map(({ kind, x, at }, k) =>
    lineLayer(kind, k, [
      [x, top - BEND],
      [at, top],
      [at, band.bottom],
    ]),
  );
  const names = placed.map(({ name, x }) => ({ name, x, y: top - BEND - 3 }));
  const mark = { angle: 270, align: 'left', baseline: 'middle', fontSize: TYPE_SIZE, fill: paint('ink') };
  return [...lines, textLayer(names, mark, 'name')];
}

export function placeMarks(marks: readonly ChartMark[], { width, domain }: MarkBand) {
  const pixel = (value: number) => ((value - domain[0]) / (domain[1] - domain[0])) * width;
  const inOrder = marks.map((mark) => ({ ...mark, at: pixel(mark.at) })).sort((a, b) => a.at - b.at);
  const middles = spread(
    inOrder.map(({ at }) => ({ at, length: LINE })),
    0,
    0,
    width,
  );
  return inOrder.map((mark, k) => ({ ...mark, x: middles[k] ?? mark.at }));
}

function lineLayer(kind: ChartMark['kind'], index: number, points: readonly (readonly [number, number])[]): object {
  const { stroke, dash, width } = STROKES[kind];
  return {
    name: `mark${index}`,
    data: { values: points.map(([x, y], order) => ({ x, y, order })) },
    mark: { type: 'line', stroke, strokeDash: dash, strokeWidth: width },
    encoding: {
      x: pixels('x'),
      y: pixels('y'),
      order: number('order'),
    },
  };
}

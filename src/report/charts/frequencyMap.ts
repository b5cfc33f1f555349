/**
 * Front frequency x rear frequency of the shortlist: the band in which the axles are balanced, its target line, and
 * the frame of the frequencies each axle may have.
 */

import type { TopLevelSpec } from 'vega-lite';
import { paint } from '../frame/theme.ts';
import { chartOf, number, PLOT, scaleOver, stepDomain } from './axes.ts';
import {
  type MergedPoint,
  mergePoints,
  type PlotFrame,
  pointLayers,
  type RankedPoint,
  unlabelledRanks,
} from './points.ts';

export interface FrequencyMap {
  readonly points: readonly { readonly rank: number; readonly front: number; readonly rear: number }[];
  /** Rear over front. */
  readonly balance: { readonly target: number; readonly from: number; readonly to: number };
  /** Accepted frequencies, Hz. */
  readonly front: readonly [number, number];
  readonly rear: readonly [number, number];
}

const HEIGHT = 250;

export function frequencyMap(map: FrequencyMap): TopLevelSpec {
  const { frame, merged } = layOut(map);
  return chartOf(PLOT, HEIGHT, [band(map, frame), target(map, frame), windows(map), ...pointLayers(merged, frame)]);
}

/** Ranks that the chart has no room to write. */
export function unwrittenRanks(map: FrequencyMap): string {
  const { frame, merged } = layOut(map);
  return unlabelledRanks(merged, frame);
}

function layOut(map: FrequencyMap): { readonly frame: PlotFrame; readonly merged: readonly MergedPoint[] } {
  const x = stepDomain([...map.points.map(({ front }) => front), ...map.front], 0.1, 0.03);
  const y = stepDomain([...map.points.map(({ rear }) => rear), ...map.rear], 0.1, 0.03);
  const frame: PlotFrame = { x, y, width: PLOT, height: HEIGHT };
  const ranked = map.points.map(({ rank, front, rear }): RankedPoint => ({ rank, x: front, y: rear, kind: 'other' }));
  return { frame, merged: withBest(mergePoints(ranked, frame)) };
}

/** The point that the best combination is among. */
function withBest(points: readonly MergedPoint[]): MergedPoint[] {
  return points.map((point) => (point.best === 1 ? { ...point, kind: 'best' } : point));
}

function band({ balance }: FrequencyMap, { x, y }: PlotFrame): object {
  const axis = (title: string) => ({ title, format: '.1f', tickCount: 6, grid: false });
  return {
    data: { values: bandEdges(balance, x, y) },
    mark: { type: 'area', fill: paint('band') },
    encoding: {
      x: number('front', { scale: scaleOver(x), axis: axis('front, Hz') }),
      y: number('low', { scale: scaleOver(y), axis: axis('rear, Hz') }),
      y2: { field: 'high' },
    },
  };
}

function target({ balance }: FrequencyMap, { x, y }: PlotFrame): object {
  return {
    data: { values: lineInside(balance.target, x, y) },
    mark: { type: 'line', stroke: paint('ink'), strokeWidth: 1.2, strokeDash: [7, 3] },
    encoding: { x: number('front'), y: number('rear') },
  };
}

type Range = PlotFrame['x'];

/** The band cut to the plot: its corners, and where it meets the plot's lower and upper edge. */
function bandEdges({ from, to }: FrequencyMap['balance'], x: Range, y: Range) {
  const corners = [...x, ...[from, to].flatMap((ratio) => y.map((rear) => rear / ratio))];
  const inside = corners.filter((front) => front >= x[0] && front <= x[1]).sort((a, b) => a - b);
  const kept = (rear: number) => Math.min(Math.max(rear, y[0]), y[1]);
  return inside.map((front) => ({ front, low: kept(from * front), high: kept(to * front) }));
}

/** The part of a line through zero that the plot shows. */
function lineInside(ratio: number, x: Range, y: Range) {
  const start = Math.max(x[0], y[0] / ratio);
  const end = Math.min(x[1], y[1] / ratio);
  return start < end ? [start, end].map((front) => ({ front, rear: ratio * front })) : [];
}

function windows({ front, rear }: FrequencyMap): object {
  return {
    data: { values: [{ x: front[0], x2: front[1], y: rear[0], y2: rear[1] }] },
    mark: { type: 'rect', fill: null, stroke: paint('muted'), strokeWidth: 1, strokeDash: [2, 3] },
    encoding: {
      x: number('x'),
      x2: { field: 'x2' },
      y: number('y'),
      y2: { field: 'y2' },
    },
  };
}

/** What more bump travel costs: clearance to spare, or money. Diamonds: no other is at least as good in everything. */

import type { TopLevelSpec } from 'vega-lite';
import { chartOf, INCHES_BELOW, number, PLOT, scaleOver, stepDomain } from './axes.ts';
import {
  type MergedPoint,
  mergePoints,
  type PlotFrame,
  pointLayers,
  type RankedPoint,
  unlabelledRanks,
} from './points.ts';

export interface TradeOff {
  readonly points: readonly {
    readonly rank: number;
    /** Bump travel left at the axle that has less, mm. */
    readonly bump: number;
    /** The other side of the trade. */
    readonly cost: number;
    readonly isUndominated: boolean;
  }[];
  readonly costTitle: string;
  /** Steps on which the axis of the cost ends. */
  readonly costStep: number;
}

const HEIGHT = 250;

export function tradeOff(trade: TradeOff): TopLevelSpec {
  const { frame, merged } = layOut(trade);
  return chartOf(PLOT, HEIGHT, [axes(frame, trade.costTitle), ...pointLayers(merged, frame)]);
}

/** Ranks that the chart has no room to write. */
export function unwrittenRanks(trade: TradeOff): string {
  const { frame, merged } = layOut(trade);
  return unlabelledRanks(merged, frame);
}

function layOut({ points, costStep }: TradeOff): {
  readonly frame: PlotFrame;
  readonly merged: readonly MergedPoint[];
} {
  const x = stepDomain(
    points.map(({ bump }) => bump),
    5,
    2,
  );
  const y = stepDomain(
    points.map(({ cost }) => cost),
    costStep,
    costStep / 3,
  );
  const frame: PlotFrame = { x, y, width: PLOT, height: HEIGHT };
  const ranked = points.map(
    ({ rank, bump, cost, isUndominated }): RankedPoint => ({
      rank,
      x: bump,
      y: cost,
      kind: isUndominated ? 'front' : 'other',
    }),
  );
  return { frame, merged: mergePoints(ranked, frame) };
}

/** Carries the axes; draws nothing itself. */
function axes({ x, y }: PlotFrame, costTitle: string): object {
  return {
    data: { values: [{ x: x[0], y: y[0] }] },
    mark: { type: 'point', size: 0, opacity: 0 },
    encoding: {
      x: number('x', {
        scale: scaleOver(x),
        axis: { title: ['bump travel left, mm (below: in)'], tickCount: 6, labelExpr: INCHES_BELOW },
      }),
      y: number('y', { scale: scaleOver(y), axis: { title: costTitle, tickCount: 6 } }),
    },
  };
}

/** Which of the vectors no other beats: at least as good in everything and better in one. More is better. */
export function markUndominated(vectors: readonly (readonly number[])[]): boolean[] {
  const beats = (a: readonly number[], b: readonly number[]) =>
    a.every((value, k) => value >= (b[k] ?? value)) && a.some((value, k) => value > (b[k] ?? value));
  return vectors.map((vector) => !vectors.some((other) => beats(other, vector)));
}

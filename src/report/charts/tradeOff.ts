/** What more bump travel costs: clearance to spare, or money. Diamonds: no other is at least as good in everything. */
import type { TopLevelSpec } from 'vega-lite';
import { CONFIG, PLOT, roundedDomain, SCHEMA } from './config.ts';
import { type MergedPoint, mergedPoints, type PlotFrame, type RankedPoint, unlabelled } from './pointLabels.ts';
import { pointLayers } from './pointLayers.ts';

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
  const { frame, merged } = laidOut(trade);
  return {
    $schema: SCHEMA,
    width: PLOT,
    height: HEIGHT,
    padding: 4,
    background: 'transparent',
    config: CONFIG,
    layer: [axes(frame, trade.costTitle), ...pointLayers(merged, frame)],
  } as TopLevelSpec;
}

/** Ranks that the chart has no room to write. */
export function unwrittenRanks(trade: TradeOff): string {
  const { frame, merged } = laidOut(trade);
  return unlabelled(merged, frame);
}

function laidOut({ points, costStep }: TradeOff): {
  readonly frame: PlotFrame;
  readonly merged: readonly MergedPoint[];
} {
  const x = roundedDomain(
    points.map(({ bump }) => bump),
    5,
    2,
  );
  const y = roundedDomain(
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
  return { frame, merged: mergedPoints(ranked, frame) };
}

/** Carries the axes; draws nothing itself. */
function axes({ x, y }: PlotFrame, costTitle: string): object {
  const scale = (domain: readonly [number, number]) => ({ domain, nice: false, zero: false });
  return {
    data: { values: [{ x: x[0], y: y[0] }] },
    mark: { type: 'point', size: 0, opacity: 0 },
    encoding: {
      x: {
        field: 'x',
        type: 'quantitative',
        scale: scale(x),
        axis: {
          title: ['bump travel left, mm (below: in)'],
          tickCount: 6,
          labelExpr: "[datum.label, format(datum.value / 25.4, '.2f')]",
        },
      },
      y: { field: 'y', type: 'quantitative', scale: scale(y), axis: { title: costTitle, tickCount: 6 } },
    },
  };
}

/** Which of the vectors no other beats: at least as good in everything and better in one. More is better. */
export function undominated(vectors: readonly (readonly number[])[]): boolean[] {
  const beats = (a: readonly number[], b: readonly number[]) =>
    a.every((value, k) => value >= (b[k] ?? value)) && a.some((value, k) => value > (b[k] ?? value));
  return vectors.map((vector) => !vectors.some((other) => beats(other, vector)));
}

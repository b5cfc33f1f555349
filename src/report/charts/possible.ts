/** What is possible without a wish: each build a line from its lowest to its highest ride height, at its frequency. */

import type { TopLevelSpec } from 'vega-lite';
import { paint } from '../frame/theme.ts';
import { chartOf, INCHES_BELOW, number, PLOT, scaleOver, stepDomain } from './axes.ts';

export interface PossibleBuild {
  /** Ride heights, mm, and body frequency in their middle, Hz. */
  readonly low: number;
  readonly high: number;
  readonly frequency: number;
  readonly isBest: boolean;
}

const HEIGHT = 220;

export function possibleChart(builds: readonly PossibleBuild[]): TopLevelSpec {
  const x = scaleOver(
    stepDomain(
      builds.flatMap(({ low, high }) => [low, high]),
      10,
      3,
    ),
  );
  const y = scaleOver(
    stepDomain(
      builds.map(({ frequency }) => frequency),
      0.1,
      0.05,
    ),
  );
  const lines = (values: readonly PossibleBuild[], stroke: string, strokeWidth: number) => ({
    data: { values },
    mark: { type: 'rule', stroke, strokeWidth, strokeCap: 'round' },
    encoding: {
      x: number('low', {
        scale: x,
        axis: { title: 'ride height, mm (below: in)', tickCount: 6, labelExpr: INCHES_BELOW },
      }),
      x2: { field: 'high' },
      y: number('frequency', { scale: y, axis: { title: 'body frequency, Hz', tickCount: 6 } }),
    },
  });
  return chartOf(PLOT, HEIGHT, [
    lines(
      builds.filter(({ isBest }) => !isBest),
      paint('muted'),
      1.5,
    ),
    lines(
      builds.filter(({ isBest }) => isBest),
      paint('accent'),
      4,
    ),
  ]);
}

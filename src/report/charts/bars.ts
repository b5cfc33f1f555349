/** Horizontal bars, as the charts of ranges show them. */
import { paint } from '../theme.ts';

export interface Bar {
  readonly low: number;
  readonly high: number;
  /** Upper and lower edge on the chart's rows. */
  readonly top: number;
  readonly bottom: number;
}

export function barLayer(values: readonly Bar[]) {
  return {
    data: { values },
    mark: { type: 'rect', fill: paint('accent') },
    encoding: {
      x: { field: 'low', type: 'quantitative' },
      x2: { field: 'high' },
      y: { field: 'top', type: 'quantitative', scale: null },
      y2: { field: 'bottom' },
    },
  };
}

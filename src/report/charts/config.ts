/** What all charts with two axes have in common. */
import { paint } from '../theme.ts';
import { TYPE_SIZE } from './draw.ts';

export const SCHEMA = 'https://vega.github.io/schema/vega-lite/v6.json';

/** Plot width that, with an axis at its left, fills a phone’s page at the type’s own size. */
export const PLOT = 288;

export const CONFIG = {
  aria: false,
  font: 'inherit',
  view: { stroke: null },
  axis: {
    domainColor: paint('muted'),
    tickColor: paint('line'),
    gridColor: paint('line'),
    gridWidth: 0.6,
    labelColor: paint('muted'),
    titleColor: paint('muted'),
    titleFontWeight: 'normal',
    labelFontSize: TYPE_SIZE,
    titleFontSize: TYPE_SIZE,
  },
  legend: {
    labelColor: paint('ink'),
    labelFontSize: TYPE_SIZE,
    titleFontSize: TYPE_SIZE,
    labelLimit: 300,
    symbolStrokeWidth: 2,
    symbolSize: 300,
  },
} as const;

/** Ends on whole steps with air on both sides. */
export function roundedDomain(values: readonly number[], step: number, air: number): readonly [number, number] {
  const low = Math.min(...values) - air;
  const high = Math.max(...values) + air;
  return [clean(step * Math.floor(low / step)), clean(step * Math.ceil(high / step))];
}

/** Without the dust of binary fractions. */
function clean(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

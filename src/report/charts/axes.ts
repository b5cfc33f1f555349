/** What all charts have in common. */
import type { TopLevelSpec } from 'vega-lite';
import { paint } from '../frame/theme.ts';
import { TYPE_SIZE } from './draw.ts';

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

/** A chart of layers, in pixels. */
export function chartOf(
  width: number,
  height: number,
  layer: readonly object[],
  config: object = CONFIG,
): TopLevelSpec {
  const $schema = 'https://vega.github.io/schema/vega-lite/v6.json';
  return { $schema, width, height, padding: 4, background: 'transparent', config, layer } as TopLevelSpec;
}

/** A channel that takes a number from a field. */
export function number(field: string, more: object = {}) {
  return { field, type: 'quantitative', ...more };
}

/** The same, already in pixels. */
export function pixels(field: string, more: object = {}) {
  return number(field, { scale: null, ...more });
}

/** Just these ends. */
export function scaleOver(domain: readonly [number, number]) {
  return { domain, nice: false, zero: false };
}

/** Inches below millimetres, as on a tape measure. */
export const INCHES_BELOW = "[datum.label, format(datum.value / 25.4, '.2f')]";

/** Words at their places, in pixels. */
export function textLayer(values: readonly object[], mark: object, field = 'text', channels: object = {}) {
  return {
    data: { values },
    mark: { type: 'text', ...mark },
    encoding: { x: pixels('x'), y: pixels('y'), text: { field, type: 'nominal' }, ...channels },
  };
}

/** Ends on whole steps with air on both sides. */
export function stepDomain(values: readonly number[], step: number, air: number): readonly [number, number] {
  const low = Math.min(...values) - air;
  const high = Math.max(...values) + air;
  return [clean(step * Math.floor(low / step)), clean(step * Math.ceil(high / step))];
}

/** Without the dust of binary fractions. */
function clean(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

// Horizontal bars, as the charts of ranges show them.

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
    encoding: { x: number('low'), x2: { field: 'high' }, y: pixels('top'), y2: { field: 'bottom' } },
  };
}

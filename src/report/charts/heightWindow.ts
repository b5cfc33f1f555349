/**
 * Height windows as bars from the lowest to the highest usable ride height, over the range asked for (band) and the
 * target (upright mark). A row is its name, its bar, and below the bar the limit that binds at either end.
 */
import type { TopLevelSpec } from 'vega-lite';
import { paint } from '../theme.ts';
import { barLayer } from './bars.ts';
import { TYPE_SIZE } from './draw.ts';
import {
  BAR_BOTTOM,
  BAR_TOP,
  limitLines,
  type PlacedText,
  rowPitch,
  rowTexts,
  WIDTH,
  type WindowRow,
} from './windowLabels.ts';

export interface WindowChart {
  readonly rows: readonly WindowRow[];
  readonly target: number;
  readonly wantedFrom: number;
  readonly wantedTo: number;
  /** Pixels; by default a phone’s page. A narrower chart leaves the title of its axis to what stands around it. */
  readonly width?: number;
}

/** How far the target’s mark stands out of a bar. */
const MARK = 5;

export function windowChart(chart: WindowChart): TopLevelSpec {
  const domain = domainOf(chart);
  const width = chart.width ?? WIDTH;
  const lines = limitLines(chart.rows, width);
  const pitch = rowPitch(lines);
  const height = pitch * chart.rows.length;
  const bars = chart.rows.flatMap((row, k) => (row.window ? [{ ...row.window, y: k * pitch }] : []));
  const texts = chart.rows.flatMap((row, k) => rowTexts(row, k * pitch, { domain, lines, width }));
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width,
    height,
    padding: 4,
    background: 'transparent',
    config: CONFIG,
    layer: [
      band(chart, { height, width, domain }),
      barLayer(bars.map(({ low, high, y }) => ({ low, high, top: y + BAR_TOP, bottom: y + BAR_BOTTOM }))),
      marks(chart, pitch),
      textLayer(texts, 'left'),
      textLayer(texts, 'right'),
    ],
  } as TopLevelSpec;
}

const CONFIG = {
  aria: false,
  view: { stroke: null },
  font: 'inherit',
  axis: {
    domainColor: paint('line'),
    tickColor: paint('line'),
    labelColor: paint('muted'),
    titleColor: paint('muted'),
    titleFontWeight: 'normal',
    labelFontSize: TYPE_SIZE,
    titleFontSize: TYPE_SIZE,
    grid: false,
  },
};

/** mm shown, on whole tens, with air on both sides. */
function domainOf({ rows, target, wantedFrom, wantedTo }: WindowChart): readonly [number, number] {
  const ends = rows.flatMap((row) => (row.window ? [row.window.low, row.window.high] : []));
  const all = [...ends, target, wantedFrom, wantedTo];
  return [10 * Math.floor((Math.min(...all) - 3) / 10), 10 * Math.ceil((Math.max(...all) + 3) / 10)];
}

interface Frame {
  readonly height: number;
  readonly width: number;
  readonly domain: readonly [number, number];
}

function band({ wantedFrom, wantedTo }: WindowChart, { height, width, domain }: Frame) {
  return {
    data: { values: [{ from: wantedFrom, to: wantedTo, top: 0, bottom: height }] },
    mark: { type: 'rect', fill: paint('band') },
    encoding: {
      x: {
        field: 'from',
        type: 'quantitative',
        scale: { domain, nice: false, zero: false },
        axis: {
          title: width < WIDTH ? null : 'hub to arch, mm (below: in)',
          tickCount: width < WIDTH ? 4 : 6,
          // Inches below millimetres: both stand on a tape measure.
          labelExpr: "[datum.label, format(datum.value / 25.4, '.2f')]",
        },
      },
      x2: { field: 'to' },
      y: { field: 'top', type: 'quantitative', scale: null, axis: null },
      y2: { field: 'bottom' },
    },
  };
}

function marks({ target, rows }: WindowChart, pitch: number) {
  const tops = rows.map((_, k) => k * pitch + BAR_TOP - MARK);
  return {
    data: { values: tops.map((top) => ({ at: target, top, bottom: top + BAR_BOTTOM - BAR_TOP + 2 * MARK })) },
    mark: { type: 'rule', stroke: paint('ink'), strokeWidth: 2 },
    encoding: {
      x: { field: 'at', type: 'quantitative' },
      y: { field: 'top', type: 'quantitative', scale: null },
      y2: { field: 'bottom' },
    },
  };
}

function textLayer(texts: readonly PlacedText[], align: PlacedText['align']) {
  return {
    data: { values: texts.filter((text) => text.align === align) },
    mark: { type: 'text', align, baseline: 'alphabetic', fontSize: TYPE_SIZE },
    encoding: {
      x: { field: 'x', type: 'quantitative', scale: null },
      y: { field: 'y', type: 'quantitative', scale: null },
      text: { field: 'text', type: 'nominal' },
      fill: { field: 'paint', type: 'nominal', scale: null, legend: null },
    },
  };
}

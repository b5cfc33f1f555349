/**
 * Height windows as bars from the lowest to the highest usable ride height, over the range asked for (band) and the
 * target (upright mark). A row is its name, its bar, and below the bar the limit that binds at either end.
 */

import type { TopLevelSpec } from 'vega-lite';
import { paint } from '../frame/theme.ts';
import { fixed, PAGE } from '../text/numbers.ts';
import { fitText, textWidth } from '../text/textWidth.ts';
import {
  barLayer,
  chartOf,
  INCHES_BELOW,
  number,
  pixels,
  CONFIG as SHARED,
  scaleOver,
  stepDomain,
  textLayer,
} from './axes.ts';
import { TYPE_SIZE } from './draw.ts';

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
  return chartOf(
    width,
    height,
    [
      band(chart, { height, width, domain }),
      barLayer(bars.map(({ low, high, y }) => ({ low, high, top: y + BAR_TOP, bottom: y + BAR_BOTTOM }))),
      marks(chart, pitch),
      wordLayer(texts, 'left'),
      wordLayer(texts, 'right'),
    ],
    CONFIG,
  );
}

/** Quieter than the other charts: the axis is a ruler below the bars. */
const CONFIG = {
  ...SHARED,
  axis: { ...SHARED.axis, domainColor: paint('line'), grid: false },
};

/** mm shown, on whole tens, with air on both sides. */
function domainOf({ rows, target, wantedFrom, wantedTo }: WindowChart): readonly [number, number] {
  const ends = rows.flatMap((row) => (row.window ? [row.window.low, row.window.high] : []));
  return stepDomain([...ends, target, wantedFrom, wantedTo], 10, 3);
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
      x: number('from', {
        scale: scaleOver(domain),
        axis: {
          title: width < WIDTH ? null : 'hub to arch, mm (below: in)',
          tickCount: width < WIDTH ? 4 : 6,
          labelExpr: INCHES_BELOW,
        },
      }),
      x2: { field: 'to' },
      y: pixels('top', { axis: null }),
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
      x: number('at'),
      y: pixels('top'),
      y2: { field: 'bottom' },
    },
  };
}

function wordLayer(texts: readonly PlacedText[], align: PlacedText['align']) {
  const values = texts.filter((text) => text.align === align);
  const fill = { field: 'paint', type: 'nominal', scale: null, legend: null };
  return textLayer(values, { align, baseline: 'alphabetic', fontSize: TYPE_SIZE }, 'text', { fill });
}

// The words of a height-window chart: each row's name, and under its bar the limit that binds at either end.

export interface WindowRow {
  readonly name: string;
  /** mm, hub to arch; null where no height is usable. */
  readonly window: { readonly low: number; readonly high: number } | null;
  readonly lowLimit: string;
  readonly highLimit: string;
}

/** As wide as a phone's page, so that type is drawn there at its own size. */
export const WIDTH = 340;
/** As wide as a third of a printed page. */
export const PAPER_WIDTH = 268;
/** Baselines and edges inside a row. */
const NAME = 15;
const BAR_TOP = 21;
const BAR_BOTTOM = 31;
const LIMITS = 45;
/** From one line of limits to a second, and to the next row. */
const LINE = 15;
const AFTER = 14;
/** Least room between two labels on one line. */
const GAP = 14;

interface PlacedText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly align: 'left' | 'right';
  readonly paint: string;
}

/** What all rows of a chart share. */
export interface RowFrame {
  /** mm shown. */
  readonly domain: readonly [number, number];
  /** Lines of limits. */
  readonly lines: number;
  /** Pixels. */
  readonly width: number;
}

/** Lines of limits that every row of a chart gets: one where all rows' limits fit side by side, else two. */
function limitLines(rows: readonly WindowRow[], width: number): 1 | 2 {
  return rows.every((row) => fitsOneLine(row, width)) ? 1 : 2;
}

/** From the top of a row to the top of the next. */
function rowPitch(lines: number): number {
  return LIMITS + (lines - 1) * LINE + AFTER;
}

function rowTexts(row: WindowRow, y: number, { domain, lines, width }: RowFrame): PlacedText[] {
  const name = {
    x: 0,
    y: y + NAME,
    text: fitText(row.name, TYPE_SIZE, width),
    align: 'left',
    paint: paint('ink'),
  } as const;
  const limits = limitTexts(row, lines, width);
  if (row.window === null || limits === null) {
    return [name, { ...name, y: y + BAR_BOTTOM, text: 'no usable height', paint: paint('alert') }];
  }
  const scale = (value: number) => ((value - domain[0]) / (domain[1] - domain[0])) * width;
  const [xLow, xHigh] =
    lines > 1
      ? [0, width]
      : placeEnds(
          { at: scale(row.window.low), width: textWidth(limits.low, TYPE_SIZE) },
          { at: scale(row.window.high), width: textWidth(limits.high, TYPE_SIZE) },
          width,
        );
  const quiet = { y: y + LIMITS, paint: paint('muted') };
  return [
    name,
    { ...quiet, x: xLow, text: limits.low, align: 'left' },
    { ...quiet, x: xHigh, y: quiet.y + (lines - 1) * LINE, text: limits.high, align: 'right' },
  ];
}

/**
 * What binds at each end, with the height. On one line the place tells which end is meant, `327.4 least bump travel`
 * and `361.2 coil bind`; on two lines a word does.
 */
function limitTexts({ window, lowLimit, highLimit }: WindowRow, lines: number, width: number) {
  if (window === null) return null;
  const low = fixed(window.low, 1, PAGE);
  const high = fixed(window.high, 1, PAGE);
  const texts =
    lines > 1
      ? { low: `from ${low}: ${lowLimit}`, high: `to ${high}: ${highLimit}` }
      : { low: `${low} ${lowLimit}`, high: `${high} ${highLimit}` };
  return { low: fitText(texts.low, TYPE_SIZE, width), high: fitText(texts.high, TYPE_SIZE, width) };
}

function fitsOneLine(row: WindowRow, width: number): boolean {
  const limits = limitTexts(row, 1, width);
  return limits === null || textWidth(limits.low, TYPE_SIZE) + GAP + textWidth(limits.high, TYPE_SIZE) <= width;
}

interface EndLabel {
  readonly at: number;
  readonly width: number;
}

/**
 * Left edge of the low label and right edge of the high one: each under its own end of the bar where there is room,
 * else pushed apart evenly, and never beyond the chart.
 */
export function placeEnds(low: EndLabel, high: EndLabel, width = WIDTH): readonly [number, number] {
  const overlap = Math.max(0, low.at + low.width + GAP - (high.at - high.width));
  const right = Math.min(width, high.at + overlap / 2);
  const left = Math.max(0, Math.min(low.at - overlap / 2, right - high.width - GAP - low.width));
  return [left, Math.max(right, left + low.width + GAP + high.width)];
}

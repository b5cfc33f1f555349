/** The words of a height-window chart: each row's name, and under its bar the limit that binds at either end. */
import { fixed, PAGE } from '../numbers.ts';
import { paint } from '../theme.ts';
import { TYPE_SIZE } from './draw.ts';
import { fitted, textWidth } from './textWidth.ts';

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
export const BAR_TOP = 21;
export const BAR_BOTTOM = 31;
const LIMITS = 45;
/** From one line of limits to a second, and to the next row. */
const LINE = 15;
const AFTER = 14;
/** Least room between two labels on one line. */
const GAP = 14;

export interface PlacedText {
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
export function limitLines(rows: readonly WindowRow[], width: number): 1 | 2 {
  return rows.every((row) => fitsOneLine(row, width)) ? 1 : 2;
}

/** From the top of a row to the top of the next. */
export function rowPitch(lines: number): number {
  return LIMITS + (lines - 1) * LINE + AFTER;
}

export function rowTexts(row: WindowRow, y: number, { domain, lines, width }: RowFrame): PlacedText[] {
  const name = {
    x: 0,
    y: y + NAME,
    text: fitted(row.name, TYPE_SIZE, width),
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
  return { low: fitted(texts.low, TYPE_SIZE, width), high: fitted(texts.high, TYPE_SIZE, width) };
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

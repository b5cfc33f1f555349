/**
 * A corner drawn to scale: full droop, standing and full bump side by side on the lower eye, with its clearances.
 *
 *   record --lengths--> layout in mm --sheet--> figures, strips of dimensions, column of clearances, rows of numbers
 */
import type { CheckName } from '../../model/corner/checks.ts';
import { clearanceColumn, columnTitles, strip, wordsLength } from './clearances.ts';
import { figure } from './figure.ts';
import type { CornerLayout } from './layout.ts';
import {
  escaped,
  group,
  LINE,
  lineThrough,
  n,
  type PlacedText,
  path,
  rect,
  type TextStyle,
  TYPE,
  textElement,
} from './shapes.ts';
import { POSITIONS, radiiOf, SHEET, type Sheet, sheetOf, TITLE_LINE } from './sheet.ts';
import { clearanceLines, LetteredChecks, millimetres, POSITION_TITLES, SHEET_WORDS } from './words.ts';

export interface DrawingOptions {
  /** What the picture is of, for whoever cannot see it. */
  readonly title: string;
  /** A list beside the picture tells what fails by the checks’ letters. */
  readonly isLettered?: boolean;
}

/** A drawing before it is text: what is in it, and every word with its place. */
export interface PlacedDrawing {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly string[];
  readonly texts: readonly PlacedText[];
}

/** Length of the bar that shows the scale, mm. */
const SCALE_BAR = 50;

/** One whole `<svg>` element, with what fails marked. Its colours are the page’s: see the drawing’s style sheet. */
export function cornerDrawing(layout: CornerLayout, checks: readonly CheckName[], options: DrawingOptions): string {
  const failing = options.isLettered ? new LetteredChecks(checks) : new Set(checks);
  const { width, height, shapes, texts } = placeDrawing(layout, failing);
  const words = group('words', texts.map(textElement));
  const named = `<title>${escaped(options.title)}</title><desc>${escaped(inWords(layout))}</desc>`;
  const view = `viewBox="0 0 ${n(width)} ${n(height)}"`;
  return `<svg class="drawing" xmlns="http://www.w3.org/2000/svg" role="img" ${view} font-size="${TYPE}">${named}${shapes.join('')}${words}</svg>`;
}

export function placeDrawing(layout: CornerLayout, failing: ReadonlySet<CheckName>): PlacedDrawing {
  const radii = radiiOf(layout);
  const sheet = sheetOf(layout, radii, wordsLength(layout, radii, failing), failing);
  const strips = POSITIONS.map((name) => strip(layout, sheet, name, failing));
  const column = clearanceColumn(layout, sheet.detail, failing);
  const bar = sheet.detail.box.bottom + 2 * LINE;
  return {
    width: SHEET,
    height: bar + 4,
    shapes: [
      axes(sheet),
      ...POSITIONS.map((name) => figure(layout, sheet.views[name], name)),
      detailShapes(layout, sheet),
      group('dims', [...strips.flatMap(({ lines }) => lines), ...column.lines]),
      scaleBars(sheet, bar),
    ],
    texts: [
      ...titles(sheet),
      ...strips.flatMap(({ texts }) => texts),
      ...numbers(layout, sheet),
      ...columnTitles(layout, sheet.detail),
      ...column.texts,
      ...scaleTexts(sheet, bar),
    ],
  };
}

/** Axis of each damper, and the line through all lower eyes. */
function axes({ views, top, base }: Sheet): string {
  const upright = POSITIONS.map((name) =>
    lineThrough([
      [views[name].middle, top],
      [views[name].middle, base + 12],
    ]),
  );
  return path(`${upright.join('')}M0 ${n(base)}H${SHEET}`, 'axis');
}

/** The enlarged figure, cut off at its box by an inner `<svg>`, and a frame around the same part of the small one. */
function detailShapes(layout: CornerLayout, { views, detail }: Sheet): string {
  const { box, view, span } = detail;
  const [x, y, width, height] = [box.left, box.top, box.right - box.left, box.bottom - box.top].map(n);
  const inner = `<svg x="${x}" y="${y}" width="${width}" height="${height}" viewBox="${x} ${y} ${width} ${height}">`;
  const { middle, scale, radii, y: yOf } = views.full;
  const half = radii.figure * scale + 2;
  const frames =
    rect(middle - half, yOf(span[1]), middle + half, yOf(span[0]), 'frame') +
    rect(box.left, box.top, box.right, box.bottom, 'frame');
  return `${inner}${figure(layout, view, 'full')}</svg>${frames}`;
}

function titles({ columns, detail }: Sheet): PlacedText[] {
  const figures = POSITIONS.map((name) => centred(columns[name], TITLE_LINE, POSITION_TITLES[name], 'title'));
  const { box } = detail;
  return [
    ...figures,
    { x: box.left, y: box.top - 8, text: SHEET_WORDS.detail, size: TYPE, anchor: 'start', style: 'title' },
  ];
}

function numbers({ positions, lengths }: CornerLayout, { columns, numbers: top }: Sheet): PlacedText[] {
  return POSITIONS.flatMap((name) => {
    const { shoulder, hubToArch, spring } = positions[name];
    const lines = [
      SHEET_WORDS.damper(shoulder),
      SHEET_WORDS.hubToArch(hubToArch),
      SHEET_WORDS.spring(spring[1] - lengths.perch.seat),
    ];
    return lines.map((text, k) => centred(columns[name], top + k * LINE, text, 'quiet'));
  });
}

function centred(x: number, y: number, text: string, style: TextStyle): PlacedText {
  return { x, y, text, size: TYPE, anchor: 'middle', style };
}

/** One bar for the figures, a longer one for the detail. */
function scaleBars(sheet: Sheet, y: number): string {
  return path(
    barsOf(sheet)
      .map(({ from, to }) => `M${n(from)} ${n(y - 7)}v6M${n(from)} ${n(y - 4)}H${n(to)}m0 -3v6`)
      .join(''),
    'bar',
  );
}

function scaleTexts(sheet: Sheet, y: number): PlacedText[] {
  const texts = [SHEET_WORDS.scaleBar, SHEET_WORDS.scaleBarDetail];
  return barsOf(sheet).map(({ to }, k) => ({
    x: to + 6,
    y,
    text: texts[k] ?? '',
    size: TYPE,
    anchor: 'start',
    style: 'quiet',
  }));
}

function barsOf({ views, detail }: Sheet) {
  const small = SCALE_BAR * views.full.scale;
  const large = (SCALE_BAR / 2) * detail.view.scale;
  return [
    { from: 2, to: 2 + small },
    { from: SHEET / 2, to: SHEET / 2 + large },
  ];
}

function inWords(layout: CornerLayout): string {
  const places = POSITIONS.map((name) => {
    const { shoulder, hubToArch } = layout.positions[name];
    return `${POSITION_TITLES[name]}: damper ${millimetres(shoulder)} mm, hub to arch ${millimetres(hubToArch)} mm`;
  });
  const gaps = layout.clearances.map((gap) => {
    const [name, numbers] = clearanceLines(gap);
    return `${name.text} ${numbers.text}${gap.isThinnest ? ', the thinnest' : ''}`;
  });
  return `${places.join('; ')}. Clearances at full bump in mm: ${gaps.join('; ')}.`;
}

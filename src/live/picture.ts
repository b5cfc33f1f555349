/**
 * The live drawing: the corner at one place of its travel, whole and small at the left, its upper part enlarged beside
 * it with every clearance dimensioned. Scales hold still while the corner moves, so that what moves is the corner.
 */
import { acrossOf, clearanceColumn } from '../report/drawing/clearances.ts';
import { mark } from '../report/drawing/dimensions.ts';
import { figure } from '../report/drawing/figure.ts';
import type { Clearance, CornerLayout, Span } from '../report/drawing/layout.ts';
import { group, LINE, n, type PlacedText, path, rect, TYPE, textElement } from '../report/drawing/shapes.ts';
import { type Detail, type Radii, radiiOf, SHEET, topOf, type View } from '../report/drawing/sheet.ts';
import { drawnStrip, remarksLength } from '../report/drawing/strips.ts';
import type { Judged } from './bench.ts';
import { remarksAt } from './remarks.ts';
import { layoutAt, type Place, placeAt, type Share } from './travel.ts';
import { PICTURE } from './words.ts';

/** Room at the left for dimensions, and the widest a figure is drawn; units. */
const STRIP = 18;
const FIGURE = 62;
/** Above figures and detail, and how tall both are drawn. */
const HEAD = 34;
const TALL = 300;
/** Room for the words of the clearances, and for the leaders to them. */
const LABELS = 138;
const LEADER = 19;
/** Below every clearance, where the parts that meet are seen, and above the tallest part, mm. */
const UNDER = 30;
const ABOVE = 6;
/** Under the lower eye, mm. */
const BELOW = 18;

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Elements of the drawing, and apart from them its words with their places. */
  readonly shapes: readonly string[];
  readonly texts: readonly PlacedText[];
}

export function pictureOf({ state, findings }: Judged, share: Share): Picture {
  const place = placeAt(state, share);
  const layout = layoutAt(state, place);
  const radii = radiiOf(layout);
  const view = wholeView(layout, radii);
  const detail = detailOf(layoutAt(state, placeAt(state, 1)), radii);
  const shown = clamped(layout, detail.span);
  const remarks = remarksAt(layout, place, findings, radii);
  const words = remarksLength(remarks);
  const bottom = HEAD + Math.max(TALL, words);
  const strip = drawnStrip(remarks, view, view.middle - radii.figure * view.scale - 1, HEAD - 6, bottom);
  const column = clearanceColumn(shown, detail);
  const texts = [...titles(place, detail), ...strip.texts, ...column.texts.slice(1)];
  const shapes = [
    axis(view, detail),
    figure(layout, view, 'full'),
    detailShapes(layout, view, detail),
    group('dims', [...strip.lines, ...column.lines, ...crosses(shown.clearances, detail)]),
  ];
  return { width: SHEET, height: bottom + LINE, shapes, texts };
}

/** What stands between the tags of the drawing. */
export function drawn({ shapes, texts }: Picture): string {
  return shapes.join('') + group('words', texts.map(textElement));
}

/** Tall enough for full droop, so that the scale holds still over the travel. */
function wholeView(layout: CornerLayout, radii: Radii): View {
  const tallest = topOf(layout.positions.droop) + ABOVE;
  const scale = Math.min(TALL / (tallest + BELOW), FIGURE / (2 * radii.figure));
  const base = HEAD + tallest * scale;
  return { scale, radii, middle: STRIP + FIGURE / 2, y: (height) => base - height * scale };
}

/** The enlarged window stands still too: its lower edge lies below every face at full bump. */
function detailOf(atFullBump: CornerLayout, radii: Radii): Detail {
  const { full } = atFullBump.positions;
  const faces = atFullBump.clearances.flatMap((clearance) => clearance.faces);
  const left = STRIP + FIGURE + 6;
  const labels = SHEET - LABELS;
  const right = labels - LEADER;
  const lowest = Math.min(full.seat, ...faces) - UNDER;
  const highest = Math.max(topOf(full) + ABOVE, ...faces.map((face) => face + 2));
  const scale = Math.min((right - left) / (2 * radii.figure + 4), TALL / (highest - lowest));
  const span: Span = [lowest, lowest + TALL / scale];
  const y = (height: number) => HEAD + (span[1] - height) * scale;
  const box = { left, right, top: HEAD, bottom: HEAD + TALL };
  return { view: { scale, radii, y, middle: (left + right) / 2 }, box, span, labels };
}

/** Faces above or below the window lie on its edge. */
function clamped(layout: CornerLayout, [low, high]: Span): CornerLayout {
  const inside = (face: number) => Math.min(high, Math.max(low, face));
  const clearances = layout.clearances.map((gap) => {
    const faces: Span = [inside(gap.faces[0]), inside(gap.faces[1])];
    return { ...gap, faces };
  });
  return { ...layout, clearances };
}

function axis(view: View, { box }: Detail): string {
  const whole = `M${n(view.middle)} ${HEAD}V${n(view.y(-BELOW))}`;
  return path(`${whole}M0 ${n(view.y(0))}H${n(box.left - 4)}`, 'axis');
}

/** The enlarged part, cut off at its box by an inner `<svg>`, and a frame around the same part of the small figure. */
function detailShapes(layout: CornerLayout, whole: View, { box, view, span }: Detail): string {
  const [x, y, width, height] = [box.left, box.top, box.right - box.left, box.bottom - box.top].map(n);
  const inner = `<svg x="${x}" y="${y}" width="${width}" height="${height}" viewBox="${x} ${y} ${width} ${height}">`;
  const half = whole.radii.figure * whole.scale + 2;
  const top = Math.max(HEAD - 2, whole.y(span[1]));
  const frames =
    rect(whole.middle - half, top, whole.middle + half, whole.y(span[0]), 'frame') +
    rect(box.left, box.top, box.right, box.bottom, 'frame');
  return `${inner}${figure(layout, view, 'full')}</svg>${frames}`;
}

/** A cross where each failing contact happens, beside the one at its words. */
function crosses(clearances: readonly Clearance[], { view, box }: Detail): string[] {
  const inOrder = [...clearances].sort((a, b) => b.faces[0] + b.faces[1] - a.faces[0] - a.faces[1]);
  return inOrder.flatMap(({ name, faces, fails }, index) => {
    const y = view.y((faces[0] + faces[1]) / 2);
    const isSeen = y > box.top + 4 && y < box.bottom - 4;
    return fails && isSeen ? [mark(acrossOf(name, index, view), y, 'fail')] : [];
  });
}

function titles(place: Place, { box, labels }: Detail): PlacedText[] {
  const at = (x: number, y: number, text: string, style: PlacedText['style']): PlacedText => {
    return { x, y, text, size: TYPE, anchor: 'start', ...(style === undefined ? {} : { style }) };
  };
  return [
    at(0, TYPE, PICTURE.place(place.travel), 'title'),
    at(0, TYPE + LINE, PICTURE.hubToArch(place.height), 'quiet'),
    at(box.left + 24, TYPE + LINE, PICTURE.damper(place.length), 'quiet'),
    at(labels, TYPE, PICTURE.head[0], 'title'),
    at(labels, TYPE + LINE, PICTURE.head[1], 'title'),
  ];
}

/** The drawing with its travel slider, and the verdict in short above it. */
import { html, type TemplateResult } from 'lit-html';
import type { ShownAt } from '../../model/corner/checkRecord.ts';
import { type CheckName, recordOf } from '../../model/corner/checks.ts';
import type { Finding } from '../../model/corner/findings.ts';
import { FIT, type FitAt, type FitName } from '../../model/corner/fit.ts';
import type { AxleName } from '../../model/scenario.ts';
import {
  acrossOf,
  at,
  clearanceColumn,
  drawnStrip,
  type Remark,
  remarksLength,
} from '../../report/drawing/clearances.ts';
import { mark } from '../../report/drawing/dimensions.ts';
import { figure } from '../../report/drawing/figure.ts';
import type { Clearance, CornerLayout, Position, Span } from '../../report/drawing/layout.ts';
import {
  escaped,
  group,
  LINE,
  n,
  type PlacedText,
  path,
  rect,
  TYPE,
  textElement,
} from '../../report/drawing/shapes.ts';
import { type Detail, type Radii, radiiOf, SHEET, topOf, type View } from '../../report/drawing/sheet.ts';
import { marked, markOn, shownOf, WORDS } from '../../report/drawing/words.ts';
import { fixed, PAGE } from '../../report/text/numbers.ts';
import { drawingView, typedIn } from '../parts/views.ts';
import type { Judged } from './bench.ts';
import type { Verdict } from './findings.ts';
import { layoutAt, type Place, placeAt, type Share } from './travel.ts';
import { DRAWING, PICTURE } from './words.ts';

/** Steps of the travel slider to either side of standing. */
const STEPS = 100;

export function pictureView(
  axle: AxleName,
  judged: Judged,
  { works, lines }: Verdict,
  share: Share,
  travel: (share: Share) => void,
): TemplateResult {
  const place = placeAt(judged.state, share);
  const text = `${PICTURE.place(place.travel)}, ${PICTURE.hubToArch(place.height)} mm`;
  return html`<div class="bench-picture"><p class=${works ? 'bench-head' : 'bench-head alert'}>${works ? DRAWING.works(axle) : DRAWING.fails(axle, lines.length)}</p>
${drawingView(drawnOnce(judged, share, () => svgOf(pictureOf(judged, share), DRAWING.picture(axle, text), place.length)))}
<div class="travel"><label for="bench-travel">${DRAWING.travel}</label><output for="bench-travel">${PICTURE.place(place.travel)}</output>
<input type="range" id="bench-travel" min=${-STEPS} max=${STEPS} step="1" aria-valuetext=${text} .value=${String(share * STEPS)} @input=${(event: Event) => travel(Number(typedIn(event)) / STEPS)}>
<p class="ends" aria-hidden="true">${DRAWING.ends.map((end) => html`<span>${end}</span>`)}</p></div></div>`;
}

/** The last drawing of a corner: other things on the page change more often. */
const DRAWN = new WeakMap<Judged, readonly [share: Share, svg: string]>();

function drawnOnce(judged: Judged, share: Share, draw: () => string): string {
  const [drawn, svg] = DRAWN.get(judged) ?? [];
  if (svg !== undefined && drawn === share) return svg;
  const fresh = draw();
  DRAWN.set(judged, [share, fresh]);
  return fresh;
}

function svgOf(picture: Picture, label: string, length: number): string {
  const box = `0 0 ${n(picture.width)} ${fixed(picture.height, 0, PAGE)}`;
  return `<svg class="drawing live" role="img" font-size="${TYPE}" viewBox="${box}" aria-label="${escaped(label)}" data-length="${length}">${markupOf(picture)}</svg>`;
}

// The live drawing: the corner at one place of its travel, whole and small at the left, its upper part enlarged beside
// it with every clearance dimensioned. Scales hold still while the corner moves, so that what moves is the corner.

/** Room at the left for dimensions, and the widest a figure is drawn; units. */
const STRIP = 18;
const FIGURE = 62;
/** Above figures and detail, and how tall both are drawn. */
const TOP = 34;
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
  const shown = clampFaces(layout, detail.span);
  const remarks = remarksAt(layout, place, findings, radii);
  const words = remarksLength(remarks);
  const bottom = TOP + Math.max(TALL, words);
  const strip = drawnStrip(remarks, view, view.middle - radii.figure * view.scale - 1, TOP - 6, bottom);
  const column = clearanceColumn(shown, detail);
  const texts = [...titles(place, detail), ...strip.texts, ...column.texts];
  const shapes = [
    axis(view, detail),
    figure(layout, view, 'full'),
    detailShapes(layout, view, detail),
    group('dims', [...strip.lines, ...column.lines, ...crosses(shown.clearances, detail)]),
  ];
  return { width: SHEET, height: bottom + LINE, shapes, texts };
}

/** What stands between the tags of the drawing. */
export function markupOf({ shapes, texts }: Picture): string {
  return shapes.join('') + group('words', texts.map(textElement));
}

/** Tall enough for full droop, so that the scale holds still over the travel. */
function wholeView(layout: CornerLayout, radii: Radii): View {
  const tallest = topOf(layout.positions.droop) + ABOVE;
  const scale = Math.min(TALL / (tallest + BELOW), FIGURE / (2 * radii.figure));
  const base = TOP + tallest * scale;
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
  const y = (height: number) => TOP + (span[1] - height) * scale;
  const box = { left, right, top: TOP, bottom: TOP + TALL };
  return { view: { scale, radii, y, middle: (left + right) / 2 }, box, span, labels };
}

/** Faces above or below the window lie on its edge. */
function clampFaces(layout: CornerLayout, [low, high]: Span): CornerLayout {
  const inside = (face: number) => Math.min(high, Math.max(low, face));
  const clearances = layout.clearances.map((gap) => {
    const faces: Span = [inside(gap.faces[0]), inside(gap.faces[1])];
    return { ...gap, faces };
  });
  return { ...layout, clearances };
}

function axis(view: View, { box }: Detail): string {
  const whole = `M${n(view.middle)} ${TOP}V${n(view.y(-BELOW))}`;
  return path(`${whole}M0 ${n(view.y(0))}H${n(box.left - 4)}`, 'axis');
}

/** The enlarged part, cut off at its box by an inner `<svg>`, and a frame around the same part of the small figure. */
function detailShapes(layout: CornerLayout, whole: View, { box, view, span }: Detail): string {
  const [x, y, width, height] = [box.left, box.top, box.right - box.left, box.bottom - box.top].map(n);
  const inner = `<svg x="${x}" y="${y}" width="${width}" height="${height}" viewBox="${x} ${y} ${width} ${height}">`;
  const half = whole.radii.figure * whole.scale + 2;
  const top = Math.max(TOP - 2, whole.y(span[1]));
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
    at(labels, TYPE, PICTURE.headings[0], 'title'),
    at(labels, TYPE + LINE, PICTURE.headings[1], 'title'),
  ];
}

// What stands along the figure of the live drawing: its lengths, and what fails at the place where it does.

export function remarksAt(
  layout: CornerLayout,
  place: Place,
  findings: readonly Finding[],
  radii: Radii,
): readonly Remark[] {
  const failing = new Set(findings.map(({ check }) => check));
  return [
    ...cutRemark(layout, radii),
    perchRemark(layout, failing, radii),
    stopRemark(layout, place, radii),
    ...failRemarks(layout.positions.full, findings),
  ];
}

function cutRemark({ lengths: { sleeve } }: CornerLayout, radii: Radii): Remark[] {
  if (sleeve.trim <= 0) return [];
  const span: Span = [sleeve.top, sleeve.top + sleeve.trim];
  return [{ span, text: WORDS.trim(sleeve.trim), emphasis: 'plain', reach: radii.sleeveOut }];
}

function perchRemark({ lengths }: CornerLayout, failing: ReadonlySet<CheckName>, radii: Radii): Remark {
  const { seat } = lengths.perch;
  const mark = markOn('perch', failing);
  const text = marked(WORDS.perch(seat), mark);
  return { span: [0, seat], text, emphasis: mark === null ? 'plain' : 'fail', reach: radii.springOut };
}

function stopRemark({ lengths: { stop } }: CornerLayout, { toStop }: Place, radii: Radii): Remark {
  const span: Span = toStop < 0 ? [stop.meetsAt + toStop, stop.meetsAt] : [stop.meetsAt, stop.meetsAt + toStop];
  return { span, text: WORDS.toStop(toStop), emphasis: 'plain', reach: Math.max(radii.body, stop.diameter / 2) };
}

/** Each failing check away from the clearances once; perch and clearances are marked where their lengths stand. */
function failRemarks(position: Position, findings: readonly Finding[]): Remark[] {
  const texts = new Map<string, number>();
  for (const { check, detail } of findings) {
    const { short, at: part } = recordOf(check).isFit
      ? FIT[detail as FitName]
      : { ...shownOf(check), short: shownOf(check).words };
    if (short !== undefined && part !== undefined) texts.set(short, heightOf(position, part));
  }
  return [...texts].map(([text, height]) => at(height, text));
}

function heightOf(position: Position, part: ShownAt | FitAt): number {
  const middle = ([from, to]: Span) => (from + to) / 2;
  const heights: Readonly<Record<ShownAt | FitAt, number>> = {
    spring: middle(position.spring),
    stop: position.stop[0],
    body: position.body[1],
    seat: position.seat,
    nuts: middle(position.nuts),
    flange: position.flange,
    'sleeve foot': position.sleeve[0],
    'sleeve top': position.sleeve[1],
  };
  return heights[part];
}

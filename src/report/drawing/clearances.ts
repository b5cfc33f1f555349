/** The clearances of the right-hand figure: dimensioned where they are, named in the column beside it. */
import { CHECKS, type CheckName } from '../../model/corner/checks.ts';
import { CONTACT, type ContactName } from '../../model/corner/contacts.ts';
import type { PositionName } from '../../result/records/lengths.ts';
import { spread } from '../text/textWidth.ts';
import { type Dimension, dimensionLine, type Emphasis, mark } from './dimensions.ts';
import type { Clearance, CornerLayout, Span } from './layout.ts';
import { LINE, lineThrough, n, type PlacedText, path, TYPE, widthOf } from './shapes.ts';
import { type Detail, hasBrackets, POSITIONS, type Radii, SHEET, type Sheet, type View } from './sheet.ts';
import { clearanceLines, letterOf, letterOn, marked, markOn, SHEET_WORDS, shownOf, WORDS } from './words.ts';

/** What is drawn, and what is written beside it. */
export interface Drawn {
  readonly lines: readonly string[];
  readonly texts: readonly PlacedText[];
}

/** From the words' title to the detail's box. */
const TITLE_ROOM = 8;
/** From a label's middle to the baselines of its two lines, and to the next label. */
const FIRST = -2.5;
const SECOND = 10.5;
const BETWEEN = 6;
/** Left of a label's text: its mark, and where the leader ends. */
const MARK = 7;
const LEADER_END = 13;

export function clearanceColumn(
  layout: CornerLayout,
  detail: Detail,
  failing: ReadonlySet<CheckName> = new Set(),
): Drawn {
  const gaps = [...layout.clearances].sort((a, b) => middleOfGap(b) - middleOfGap(a));
  const { view, box } = detail;
  const wanted = gaps.map((gap) => ({ at: view.y(middleOfGap(gap)), length: 2 * LINE }));
  const middles = spread(wanted, BETWEEN, box.top, box.bottom);
  const drawn = gaps.map((gap, k) => one(gap, k, middles[k] ?? 0, detail, failing));
  return { lines: drawn.flatMap(({ line }) => line), texts: drawn.flatMap(({ texts }) => texts) };
}

/** What stands above the column on the printed sheet. */
export function columnTitles(layout: CornerLayout, { box, labels }: Detail): readonly PlacedText[] {
  const title = { y: box.top - TITLE_ROOM, size: TYPE, style: 'title' } as const;
  const heading: PlacedText = { ...title, x: labels, text: SHEET_WORDS.title, anchor: 'start' };
  const brackets: PlacedText = { ...title, x: SHEET - 1, y: title.y - LINE, text: SHEET_WORDS.brackets, anchor: 'end' };
  return hasBrackets(layout) ? [heading, brackets] : [heading];
}

function one(gap: Clearance, index: number, middle: number, detail: Detail, failing: ReadonlySet<CheckName>) {
  const { view } = detail;
  const emphasis = emphasisOf(gap);
  const x = acrossOf(gap.name, index, detail.view);
  const [low, high] = [view.y(gap.faces[0]), view.y(gap.faces[1])];
  const labelY = middle + FIRST - 4;
  const texts = clearanceLines(gap, failing).map((text, k) => ({
    ...text,
    x: detail.labels,
    y: middle + (k === 0 ? FIRST : SECOND),
  }));
  const leader = lineThrough([
    [x, (low + high) / 2],
    [detail.box.right, (low + high) / 2],
    [detail.labels - LEADER_END, labelY],
  ]);
  const line = [
    faces(x, low, high),
    ...(CONTACT[gap.name].part === 'tyre' ? [archLine(gap, view)] : []),
    path(leader, `leader ${emphasis}`),
    dimensionLine({ x, low, high, emphasis }),
    mark(detail.labels - MARK, labelY, emphasis),
  ];
  return { line, texts };
}

export function emphasisOf({ fails, isThinnest }: Clearance): Emphasis {
  if (fails) return 'fail';
  return isThinnest ? 'thin' : 'plain';
}

/** Across the figure where the two parts meet; neighbours on the same part step aside. */
export function acrossOf(name: ContactName, index: number, { middle, scale, radii }: View): number {
  const step = 6 * (index % 2);
  const { part } = CONTACT[name];
  if (part === 'spring') return middle + ((radii.springIn + radii.springOut) / 2) * scale;
  if (part === 'tyre') return middle + radii.figure * scale;
  if (part === 'damper') return middle + (radii.rod + 4) * scale;
  if (part === 'sleeve') return middle + radii.sleeveOut * scale - step;
  return middle + (radii.body - 6) * scale - step;
}

/** Where the tower plane would be with the tyre on the arch. */
function archLine(gap: Clearance, { middle, radii, scale, y }: View): string {
  const height = n(y(gap.faces[0]));
  return path(`M${n(middle + radii.mountIn * scale)} ${height}H${n(middle + (radii.figure + 2) * scale)}`, 'ghost');
}

function faces(x: number, low: number, high: number): string {
  return path(
    [low, high]
      .map((y) =>
        lineThrough([
          [x - 4, y],
          [x + 4, y],
        ]),
      )
      .join(''),
    'face',
  );
}

function middleOfGap({ faces: [low, high] }: Clearance): number {
  return (low + high) / 2;
}

// Dimensions at the left of each figure, with words that read up along them.

/** What is said at the left of a figure: of a length, or of one height (both ends the same). */
export interface Remark {
  readonly span: Span;
  readonly text: string;
  readonly emphasis: Emphasis;
  /** Radius of the part at either end, to which a thin line leads, mm; null: no such line. */
  readonly reach: number | null;
}

/** Line and words from the right edge of the strip. */
const LINE_INSET = 3;
const WORDS_INSET = 7;
const BETWEEN_WORDS = 7;

export function strip(layout: CornerLayout, sheet: Sheet, name: PositionName, failing: ReadonlySet<CheckName>): Drawn {
  const view = sheet.views[name];
  const remarks = remarksAt(layout, view.radii, name, failing);
  return drawnStrip(remarks, view, sheet.strips[name], sheet.top, sheet.base + TYPE);
}

/** Remarks left of a figure whose strip ends at `edge`; words stand between `from` and `to`. */
export function drawnStrip(remarks: readonly Remark[], view: View, edge: number, from: number, to: number): Drawn {
  const x = edge - LINE_INSET;
  const lines = remarks.flatMap(({ span, emphasis, reach }) => {
    const [low, high] = [view.y(span[0]), view.y(span[1])];
    if (span[0] === span[1]) return [mark(x, low, emphasis)];
    const ends = reach === null ? [] : [extensions(x, view.middle - reach * view.scale, low, high)];
    const dimension: Dimension = { x, low, high, emphasis };
    return [...ends, dimensionLine(dimension)];
  });
  return { lines, texts: wordsAlong(remarks, [from, to], view.y, edge - WORDS_INSET) };
}

/** Length in drawing units that the words of the fullest strip take together. */
export function wordsLength(layout: CornerLayout, radii: Radii, failing: ReadonlySet<CheckName>): number {
  return Math.max(...POSITIONS.map((name) => remarksLength(remarksAt(layout, radii, name, failing))));
}

export function remarksLength(remarks: readonly Remark[]): number {
  return remarks.reduce((sum, remark) => sum + widthOf(worded(remark)) + BETWEEN_WORDS, 0);
}

function worded({ text, emphasis }: Remark) {
  return { text, size: TYPE, ...(emphasis === 'plain' ? {} : { style: emphasis }) } as const;
}

function wordsAlong(
  remarks: readonly Remark[],
  [from, to]: Span,
  yOf: (height: number) => number,
  x: number,
): PlacedText[] {
  const texts = remarks.map((remark) => {
    const y = yOf((remark.span[0] + remark.span[1]) / 2);
    return { x, y, anchor: 'middle', upright: true, ...worded(remark) } as const;
  });
  const inOrder = [...texts].sort((a, b) => a.y - b.y);
  const wanted = inOrder.map((text) => ({ at: text.y, length: widthOf(text) }));
  const middles = spread(wanted, BETWEEN_WORDS, from, to);
  return inOrder.map((text, k) => ({ ...text, y: middles[k] ?? text.y }));
}

function extensions(x: number, to: number, low: number, high: number): string {
  return path(
    [low, high]
      .map((y) =>
        lineThrough([
          [x - 2, y],
          [to, y],
        ]),
      )
      .join(''),
    'ext',
  );
}

function remarksAt(layout: CornerLayout, radii: Radii, name: PositionName, failing: ReadonlySet<CheckName>): Remark[] {
  const lengths = LENGTHS[name](layout, radii, failing);
  const failures = CHECKS.filter((check) => failing.has(check) && shownOf(check).figure === name);
  return [...lengths, ...failures.map((check) => failureRemark(layout, radii, name, check, letterOf(check, failing)))];
}

/** A failing check at its part of the figure: along the way that is missing, or at one height. */
function failureRemark(
  { positions }: CornerLayout,
  radii: Radii,
  name: PositionName,
  check: CheckName,
  letter: string,
): Remark {
  const { at: part, words: shown } = shownOf(check);
  const words = `${letter}${shown}`;
  const { droop, standing } = positions;
  if (part !== 'body') return at(middleOf(positions[name].spring), words);
  return { ...at(0, words), span: [standing.shoulder, droop.shoulder], reach: radii.rod };
}

const LENGTHS = { droop: droopRemarks, standing: standingRemarks, full: fullRemarks } as const;

function droopRemarks(
  { lengths: { sleeve, slack }, positions: { droop } }: CornerLayout,
  radii: Radii,
  failing: ReadonlySet<CheckName>,
): Remark[] {
  const loose = markOn('slack', failing);
  return [
    { span: [0, sleeve.top], text: SHEET_WORDS.sleeveTop(sleeve.top), emphasis: 'plain', reach: radii.sleeveOut },
    ...some(sleeve.trim > 0, {
      span: [sleeve.top, sleeve.top + sleeve.trim],
      text: WORDS.trim(sleeve.trim),
      emphasis: 'plain',
      reach: radii.sleeveOut,
    }),
    {
      span: [Math.min(droop.seat, droop.seat - slack), droop.seat],
      text:
        loose === null
          ? SHEET_WORDS.slack(slack)
          : `${letterOn('slack', failing)}${marked(SHEET_WORDS.loose(slack), loose)}`,
      emphasis: loose !== null ? 'fail' : 'plain',
      reach: slack > 0 ? radii.springOut : null,
    },
  ];
}

function standingRemarks({ lengths }: CornerLayout, radii: Radii, failing: ReadonlySet<CheckName>): Remark[] {
  const { seat } = lengths.perch;
  const perch = markOn('perch', failing);
  const short = markOn('to stop', failing);
  const { meetsAt, diameter, gap } = lengths.stop;
  return [
    {
      span: [0, seat],
      text: `${letterOn('perch', failing)}${marked(WORDS.perch(seat), perch)}`,
      emphasis: perch !== null ? 'fail' : 'plain',
      reach: radii.springOut,
    },
    {
      span: [Math.min(meetsAt, meetsAt + gap), Math.max(meetsAt, meetsAt + gap)],
      text: `${letterOn('to stop', failing)}${marked(WORDS.toStop(gap), short)}`,
      emphasis: short !== null ? 'fail' : 'plain',
      reach: diameter / 2,
    },
  ];
}

function fullRemarks({ lengths, solid }: CornerLayout, radii: Radii): Remark[] {
  const from = lengths.perch.seat;
  const to = solid.spring[1];
  return [
    {
      span: [from, to],
      text: SHEET_WORDS.solid(to - from, lengths.helper !== null),
      emphasis: 'plain',
      reach: -radii.springIn,
    },
  ];
}

/** Something that fails at one height. */
export function at(height: number, text = ''): Remark {
  return { span: [height, height], text, emphasis: 'fail', reach: null };
}

function middleOf(span: Span): number {
  return (span[0] + span[1]) / 2;
}

function some(condition: boolean, remark: Remark): Remark[] {
  return condition ? [remark] : [];
}

/** Dimensions at the left of each figure, with words that read up along them. */
import type { CheckName } from '../../domain/checks.ts';
import { type Dimension, dimensionLine, type Emphasis, mark } from './dimensions.ts';
import type { CornerLayout, PositionName, Span } from './layout.ts';
import { lineThrough, type PlacedText, path, TYPE, widthOf } from './shapes.ts';
import { POSITIONS, type Radii, type Sheet, type View } from './sheet.ts';
import { spread } from './spread.ts';
import { PLACED_CHECKS, WORDS } from './words.ts';

/** What is said at the left of a figure: of a length, or of one height (both ends the same). */
export interface Remark {
  readonly span: Span;
  readonly text: string;
  readonly emphasis: Emphasis;
  /** Radius of the part at either end, to which a thin line leads, mm; null: no such line. */
  readonly reach: number | null;
}

export interface DrawnStrip {
  readonly lines: readonly string[];
  readonly texts: readonly PlacedText[];
}

/** Line and words from the right edge of the strip. */
const LINE_INSET = 3;
const WORDS_INSET = 7;
const BETWEEN = 7;

export function strip(
  layout: CornerLayout,
  sheet: Sheet,
  name: PositionName,
  failing: ReadonlySet<CheckName>,
): DrawnStrip {
  const view = sheet.views[name];
  const remarks = remarksAt(layout, view.radii, name, failing);
  return drawnStrip(remarks, view, sheet.strips[name], sheet.top, sheet.base + TYPE);
}

/** Remarks left of a figure whose strip ends at `edge`; words stand between `from` and `to`. */
export function drawnStrip(remarks: readonly Remark[], view: View, edge: number, from: number, to: number): DrawnStrip {
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
  return remarks.reduce((sum, remark) => sum + widthOf(worded(remark)) + BETWEEN, 0);
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
  const middles = spread(wanted, BETWEEN, from, to);
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
  if (name === 'droop') return droopRemarks(layout, radii, failing);
  if (name === 'standing') return standingRemarks(layout, radii, failing);
  return fullRemarks(layout, radii, failing);
}

function droopRemarks(
  { lengths, positions, slack }: CornerLayout,
  radii: Radii,
  failing: ReadonlySet<CheckName>,
): Remark[] {
  const { sleeve } = lengths;
  const { droop, standing } = positions;
  const loose = failing.has('spring_loose');
  return [
    { span: [0, sleeve.top], text: WORDS.sleeveTop(sleeve.top), emphasis: 'plain', reach: radii.sleeveOut },
    ...some(sleeve.trim > 0, {
      span: [sleeve.top, sleeve.top + sleeve.trim],
      text: WORDS.trim(sleeve.trim),
      emphasis: 'plain',
      reach: radii.sleeveOut,
    }),
    {
      span: [Math.min(droop.seat, droop.seat - slack), droop.seat],
      text: loose ? WORDS.slackTooMuch(slack) : WORDS.slack(slack),
      emphasis: loose ? 'fail' : 'plain',
      reach: slack > 0 ? radii.springOut : null,
    },
    ...some(failing.has('droop_travel'), {
      span: [standing.shoulder, droop.shoulder],
      text: PLACED_CHECKS.droop_travel ?? '',
      emphasis: 'fail',
      reach: radii.rod,
    }),
  ];
}

function standingRemarks(
  { lengths, positions, toStop }: CornerLayout,
  radii: Radii,
  failing: ReadonlySet<CheckName>,
): Remark[] {
  const { seat } = lengths.perch;
  const { spring } = positions.standing;
  const tooLow = failing.has('perch_low');
  const tooHigh = failing.has('perch_high');
  const short = failing.has('bump_travel');
  const { meetsAt, diameter } = lengths.stop;
  return [
    {
      span: [0, seat],
      text: tooLow ? WORDS.perchLow(seat) : tooHigh ? WORDS.perchHigh(seat) : WORDS.perch(seat),
      emphasis: tooLow || tooHigh ? 'fail' : 'plain',
      reach: radii.springOut,
    },
    {
      span: [Math.min(meetsAt, meetsAt + toStop), Math.max(meetsAt, meetsAt + toStop)],
      text: short ? WORDS.toStopShort(toStop) : WORDS.toStop(toStop),
      emphasis: short ? 'fail' : 'plain',
      reach: diameter / 2,
    },
    ...some(failing.has('unloaded_spring'), at(middleOf(spring), PLACED_CHECKS.unloaded_spring)),
  ];
}

function fullRemarks(
  { lengths, solid, positions }: CornerLayout,
  radii: Radii,
  failing: ReadonlySet<CheckName>,
): Remark[] {
  const from = lengths.perch.seat;
  const to = solid.spring[1];
  return [
    {
      span: [from, to],
      text: WORDS.solid(to - from, lengths.helper !== null),
      emphasis: 'plain',
      reach: -radii.springIn,
    },
    ...some(failing.has('overstressed'), at(middleOf(positions.full.spring), PLACED_CHECKS.overstressed)),
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

/** The clearances of the right-hand figure: dimensioned where they are, named in the column beside it. */
import type { ContactName } from '../../domain/corner/contacts.ts';
import { dimensionLine, type Emphasis, mark } from './dimensions.ts';
import type { Clearance, CornerLayout } from './layout.ts';
import { LINE, lineThrough, n, type PlacedText, path, TYPE } from './shapes.ts';
import { type Detail, hasBrackets, SHEET, type View } from './sheet.ts';
import { spread } from './spread.ts';
import { clearanceLines, WORDS } from './words.ts';

export interface DrawnClearances {
  readonly lines: readonly string[];
  readonly texts: readonly PlacedText[];
}

/** From the words' title to the detail's box. */
const HEAD = 8;
/** From a label's middle to the baselines of its two lines, and to the next label. */
const FIRST = -2.5;
const SECOND = 10.5;
const BETWEEN = 6;
/** Left of a label's text: its mark, and where the leader ends. */
const MARK = 7;
const LEADER_END = 13;

export function clearanceColumn(layout: CornerLayout, detail: Detail): DrawnClearances {
  const gaps = [...layout.clearances].sort((a, b) => middleOf(b) - middleOf(a));
  const { view, box } = detail;
  const wanted = gaps.map((gap) => ({ at: view.y(middleOf(gap)), length: 2 * LINE }));
  const middles = spread(wanted, BETWEEN, box.top, box.bottom);
  const drawn = gaps.map((gap, k) => one(gap, k, middles[k] ?? 0, detail));
  const title = { y: box.top - HEAD, size: TYPE, style: 'title' } as const;
  const head: PlacedText = { ...title, x: detail.labels, text: WORDS.head, anchor: 'start' };
  const brackets: PlacedText = { ...title, x: SHEET - 1, y: title.y - LINE, text: WORDS.brackets, anchor: 'end' };
  return {
    lines: drawn.flatMap(({ line }) => line),
    texts: [head, ...(hasBrackets(layout) ? [brackets] : []), ...drawn.flatMap(({ texts }) => texts)],
  };
}

function one(gap: Clearance, index: number, middle: number, detail: Detail) {
  const { view } = detail;
  const emphasis = emphasisOf(gap);
  const x = acrossOf(gap.name, index, detail.view);
  const [low, high] = [view.y(gap.faces[0]), view.y(gap.faces[1])];
  const labelY = middle + FIRST - 4;
  const texts = clearanceLines(gap).map((text, k) => ({
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
    ...(gap.name === 'tyre_arch' ? [archLine(gap, view)] : []),
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
  if (name === 'coil_bind') return middle + ((radii.springIn + radii.springOut) / 2) * scale;
  if (name === 'tyre_arch') return middle + radii.figure * scale;
  if (name === 'damper') return middle + (radii.rod + 4) * scale;
  if (name.startsWith('sleeve')) return middle + radii.sleeveOut * scale - step;
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

function middleOf({ faces: [low, high] }: Clearance): number {
  return (low + high) / 2;
}

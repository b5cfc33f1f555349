/** A corner as such parts usually are, its parts numbered as the list of words names them. */

import type { CornerLengths } from '../../result/records/lengths.ts';
import { PICTURED_NAMES, type PicturedName } from '../text/glossary.ts';
import { figure } from './figure.ts';
import { cornerLayout, type Position } from './layout.ts';
import { circle, group, lineThrough, n, path, TYPE, textElement } from './shapes.ts';
import { radiiOf, topOf, type View } from './sheet.ts';

/** No car's: lengths that show every part, mm. */
const TYPICAL: CornerLengths = {
  damper: { droop: 470, standing: 400, full: 345 },
  hubToArch: { droop: 0, standing: 0, full: 0 },
  body: { top: 315, diameter: 50 },
  sleeve: { foot: 150, top: 300, trim: 15, bore: 51, diameter: 59 },
  perch: { seat: 195, height: 12, lockRing: 8 },
  spring: { solid: 105, leastSolid: 105, bore: 62 },
  wire: { diameter: 11, active: 7, total: 9, isKnown: true },
  helper: null,
  stack: {
    droop: { helper: 0, spring: 262 },
    standing: { helper: 0, spring: 192 },
    full: { helper: 0, spring: 137 },
    solid: { helper: 0, spring: 105 },
  },
  slack: 0,
  stop: { length: 48, closed: 18, diameter: 44, meetsAt: 315, closesAt: 315, gap: 30, packer: 0, packerDiameter: 0 },
  mount: {
    ...{ raise: 12, spacer: 0, isBoltedBelow: false, flangeBelowShoulder: 5, seatBelowShoulder: 13, spigot: 0 },
    ...{ bore: 64, lowerBush: 14, washers: 3, washerDiameter: 44, give: 0 },
  },
  isolator: { thickness: 8, bore: 60, spigot: 0 },
  rodDiameter: 20,
  rodEnd: { plate: 4, upperBush: 12, upperWashers: 2, nuts: 12 },
  contacts: [],
};

const WIDTH = 220;
const TALL = 340;
const TOP = 8;
const FOOT = 18;
/** Where the numbers stand. */
const COLUMN = 196;

/** Height above the lower eye, and distance from the axis, of the place each number points at. */
const PLACES: Readonly<Record<PicturedName, (at: Position) => readonly [height: number, radius: number]>> = {
  'rod shoulder': ({ shoulder }) => [shoulder, 10],
  'top mount': ({ plate }) => [plate[1], 30],
  'tower plane': ({ tower }) => [tower, 48],
  'upper seat': ({ seat }) => [seat, 42],
  'bump stop': ({ stop }) => [(stop[0] + stop[1]) / 2, 20],
  spring: ({ spring }) => [(2 * spring[1] + spring[0]) / 3, 40],
  body: ({ body }) => [body[1] - 6, 18],
  sleeve: ({ sleeve }) => [(sleeve[1] + sleeve[0]) / 2 + 30, 29],
  perch: ({ perch }) => [(perch[0] + perch[1]) / 2, 44],
  'lock ring': ({ lockRing }) => [(lockRing[0] + lockRing[1]) / 2, 34],
  ledge: ({ sleeve }) => [sleeve[0], 28],
  'lower eye': () => [0, 8],
};

/** One whole `<svg>` element. */
export function glossaryDrawing(): string {
  const layout = cornerLayout(TYPICAL);
  const position = layout.positions.standing;
  const radii = radiiOf(layout);
  const scale = TALL / topOf(position);
  const base = TOP + TALL;
  const view: View = { scale, radii, middle: 84, y: (mm) => base - mm * scale };
  const points = PICTURED_NAMES.map((name) => {
    const [height, radius] = PLACES[name](position);
    return { x: view.middle + radius * scale, y: view.y(height) };
  });
  const rows = spread(points.map(({ y }) => y));
  const leaders = points.map(({ x, y }, k) =>
    lineThrough([
      [x, y],
      [COLUMN - 9, rows[k] as number],
    ]),
  );
  const marks = rows.map((y) => circle(COLUMN, y, 8, 'pin')).join('');
  const texts = rows.map((y, k) =>
    textElement({ x: COLUMN, y: y + 4, text: String(k + 1), size: TYPE, anchor: 'middle', style: 'title' }),
  );
  const box = `viewBox="0 0 ${WIDTH} ${n(base + FOOT)}"`;
  return `<svg class="drawing words-picture" xmlns="http://www.w3.org/2000/svg" role="img" ${box} font-size="${TYPE}"><title>A spring-over-damper unit, its parts numbered as in the list</title>${figure(layout, view, 'standing')}${path(leaders.join(''), 'ext')}${marks}${group('words', texts)}</svg>`;
}

/** Least distance between two numbers. */
const PITCH = 22;

/** Places from the top downwards, none nearer to the one above than the pitch. */
function spread(wanted: readonly number[]): number[] {
  const rows: number[] = [];
  for (const y of wanted) rows.push(Math.max(y, (rows.at(-1) ?? Number.NEGATIVE_INFINITY) + PITCH));
  return rows;
}

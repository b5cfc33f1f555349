/** The sheet: how large a millimetre is drawn, where the three figures stand, and the enlarged detail below them. */
import type { CheckName } from '../../model/corner/checks.ts';
import type { PositionName } from '../../result/records/lengths.ts';
import type { CornerLayout, Position, Span } from './layout.ts';
import { type Box, LINE, TYPE, widthOf } from './shapes.ts';
import { clearanceLines } from './words.ts';

/** As wide as a phone's page, so that type is drawn there at its own size. */
export const SHEET = 356;

export const POSITIONS: readonly PositionName[] = ['droop', 'standing', 'full'];

/** Half-widths in mm. */
export interface Radii {
  readonly rod: number;
  readonly body: number;
  readonly sleeveIn: number;
  readonly sleeveOut: number;
  readonly springIn: number;
  readonly springOut: number;
  readonly mountIn: number;
  readonly mountOut: number;
  /** Of the widest part. */
  readonly figure: number;
}

/** How one figure is seen: where its axis stands, where a height lies, units a mm. */
export interface View {
  readonly scale: number;
  readonly middle: number;
  readonly y: (height: number) => number;
  readonly radii: Radii;
}

export interface Sheet {
  readonly views: Readonly<Record<PositionName, View>>;
  /** Right edge of the strip of dimensions at the left of each figure. */
  readonly strips: Readonly<Record<PositionName, number>>;
  /** Middle of each figure's titles and numbers. */
  readonly columns: Readonly<Record<PositionName, number>>;
  /** Top of the tallest figure, and the lower eyes' centres. */
  readonly top: number;
  readonly base: number;
  /** First baseline of the numbers under the figures. */
  readonly numbers: number;
  readonly detail: Detail;
}

/** The upper part of the figure at full bump, enlarged. */
export interface Detail {
  readonly view: View;
  readonly box: Box;
  /** Heights it shows, mm. */
  readonly span: Span;
  /** Left edge of the words beside it. */
  readonly labels: number;
}

/** Left of a figure: a dimension line and the words that read up along it. */
const STRIP = 17;
const PITCH = SHEET / 3;
/** Between figures, and above the tallest. */
const GAP = 4;
const TOP_ROOM = 20;
/** Tallest figure and detail, in units. */
const TALL = 345;
const DETAIL_TALL = 215;
/** From the lower eyes' centres to the numbers, and from those to the detail. */
const FOOT = 30;
const NUMBER_LINES = 3;
const DETAIL_TOP = 30;
/** From the detail's box to the words beside it: leaders and marks. */
const LEADER = 24;

/** @param words length of the words along the fullest strip, in units: the numbers stand below them */
export function sheetOf(
  layout: CornerLayout,
  radii: Radii,
  words: number,
  failing: ReadonlySet<CheckName> = new Set(),
): Sheet {
  const tallest = Math.max(...POSITIONS.map((name) => topOf(layout.positions[name])));
  const scale = Math.min((PITCH - STRIP - GAP) / (2 * radii.figure), TALL / tallest);
  const base = TOP_ROOM + tallest * scale;
  const numbers = Math.max(base + FOOT, TOP_ROOM + words + LINE);
  const y = (height: number) => base - height * scale;
  const view = (k: number): View => ({ scale, radii, y, middle: k * PITCH + STRIP + (PITCH - STRIP - GAP) / 2 });
  const views = { droop: view(0), standing: view(1), full: view(2) };
  const strip = ({ middle }: View) => middle - radii.figure * scale - 1;
  const column = ({ middle }: View) => middle - STRIP / 2;
  return {
    views,
    strips: { droop: strip(views.droop), standing: strip(views.standing), full: strip(views.full) },
    columns: { droop: column(views.droop), standing: column(views.standing), full: column(views.full) },
    top: TOP_ROOM,
    base,
    numbers,
    detail: detailOf(
      layout,
      radii,
      numbers + (NUMBER_LINES - 1) * LINE + DETAIL_TOP + (hasBrackets(layout) ? LINE : 0),
      failing,
    ),
  };
}

/** Whether the clearances have second figures, which take a line of words. */
export function hasBrackets({ clearances }: CornerLayout): boolean {
  return clearances.some(({ closed }) => closed !== null);
}

/** Around every clearance, mm. */
const AROUND = 14;

function detailOf(layout: CornerLayout, radii: Radii, top: number, failing: ReadonlySet<CheckName>): Detail {
  const lines = layout.clearances.flatMap((clearance) => clearanceLines(clearance, failing));
  const labels = SHEET - 1 - Math.max(0, ...lines.map(widthOf));
  const faces = layout.clearances.flatMap((clearance) => clearance.faces);
  const full = layout.positions.full;
  const span: Span = [Math.min(full.seat, ...faces) - AROUND, Math.max(topOf(full), ...faces.map((face) => face + 2))];
  const width = labels - LEADER - 1;
  const tall = span[1] - span[0];
  const scale = Math.min(width / (2 * radii.figure + 8), DETAIL_TALL / tall);
  const height = Math.max(tall * scale, layout.clearances.length * (2 * LINE + 6));
  const box = { left: 1, right: 1 + width, top, bottom: top + height };
  const y = (mm: number) => top + (span[1] - mm) * scale;
  return { view: { scale, radii, y, middle: 1 + width / 2 }, box, span, labels };
}

/** In mm, of what nobody measures: the mount’s wall, rims, the rod’s end above its nuts. */
export const MOUNT_WALL = 4;
export const ROD_TIP = 3;
const RIM = 3;
/** Where the spring reaches up through the tower, its plane is seen beside the spring. */
const TOWER_RIM = 7;

export function topOf({ nuts, tower }: Position): number {
  return Math.max(nuts[1] + ROD_TIP, tower + 3);
}

export function radiiOf({ lengths }: CornerLayout): Radii {
  const { sleeve, spring, wire, mount, stop, body, helper } = lengths;
  const springOut = Math.max(spring.bore, helper?.bore ?? 0) / 2 + wire.diameter;
  const mountIn = mount.bore / 2;
  const mountOut = Math.max(springOut, mountIn + MOUNT_WALL);
  const widest = Math.max(mountOut, springOut + RIM, stop.diameter / 2, mount.washerDiameter / 2, sleeve.diameter / 2);
  return {
    rod: lengths.rodDiameter / 2,
    body: body.diameter / 2,
    sleeveIn: sleeve.bore / 2,
    sleeveOut: sleeve.diameter / 2,
    springIn: spring.bore / 2,
    springOut,
    mountIn,
    mountOut,
    figure: widest + (mount.seatBelowShoulder < mount.raise ? TOWER_RIM : 0),
  };
}

/** Baseline of the titles above the figures. */
export const TITLE_LINE = TYPE;

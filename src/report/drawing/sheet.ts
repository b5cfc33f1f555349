/** The sheet: how large a millimetre is drawn, and where the three figures and the columns of text stand. */
import { boxOf, type PlacedText, widthOf } from './shapes.ts';
import { clearanceLines } from './words.ts';
import type { CornerLayout, Position, PositionName } from './layout.ts';

/** As wide as a phone's page, so that type is drawn there at its own size. */
export const SHEET = 356;
export const TYPE = 11;
export const LINE = 13;

export const POSITIONS: readonly PositionName[] = ['droop', 'standing', 'full'];

/** Left of each figure: a dimension line and the words that read up along it. */
export const STRIP = 17;
/** From figure to figure, and from the last figure to the labels. */
const GAP = 5;
const LEADER = 15;
/** Above the figures: their titles. */
const HEAD = 20;
/** Largest scale, units a mm: short corners need not be drawn taller than wide. */
const LARGEST = 1.1;

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
  readonly figure: number;
}

export interface Sheet {
  readonly scale: number;
  readonly radii: Radii;
  /** Middle of each figure, left edge of its strip, right edge of the figure. */
  readonly middle: Readonly<Record<PositionName, number>>;
  readonly left: Readonly<Record<PositionName, number>>;
  readonly right: Readonly<Record<PositionName, number>>;
  readonly labels: number;
  /** Height of the lower eye's centre on the sheet, and of the top of the tallest figure. */
  readonly base: number;
  readonly top: number;
  readonly y: (height: number) => number;
}

export function sheetOf(layout: CornerLayout): Sheet {
  const radii = radiiOf(layout);
  const labelWidth = Math.max(...labelTexts(layout).map(widthOf));
  const room = SHEET - 2 - labelWidth - LEADER - 3 * STRIP - 2 * GAP;
  const scale = Math.min(LARGEST, room / 3 / (2 * radii.figure));
  const pitch = STRIP + 2 * radii.figure * scale + GAP;
  const tallest = Math.max(...POSITIONS.map((name) => topOf(layout.positions[name])));
  const base = HEAD + tallest * scale;
  const at = (from: number) => ({ droop: from, standing: from + pitch, full: from + 2 * pitch });
  return {
    scale,
    radii,
    left: at(1),
    middle: at(1 + STRIP + radii.figure * scale),
    right: at(1 + STRIP + 2 * radii.figure * scale),
    labels: 1 + 3 * pitch - GAP + LEADER,
    base,
    top: HEAD,
    y: (height) => base - height * scale,
  };
}

/** Nut and plate above the shoulder. */
export const PLATE = 4;
export const NUT = 9;

function topOf({ plate, tower }: Position): number {
  return Math.max(plate + PLATE + NUT, tower) + 3;
}

/** Rims that nobody measures: how far they usually stand out, mm. */
const RIM = 3;
export const MOUNT_WALL = 4;

function radiiOf({ lengths }: CornerLayout): Radii {
  const { sleeve, spring, wire, mount, stop, body, helper } = lengths;
  const springOut = Math.max(spring.bore / 2 + wire.diameter, (helper?.bore ?? 0) / 2 + wire.diameter);
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
    figure: widest,
  };
}

function labelTexts(layout: CornerLayout): PlacedText[] {
  return layout.clearances.flatMap((clearance) => clearanceLines(clearance));
}

/** The first pair of texts that overlap, or null. */
export function firstOverlap(texts: readonly PlacedText[]): readonly [PlacedText, PlacedText] | null {
  for (const [k, a] of texts.entries()) {
    for (const b of texts.slice(k + 1)) {
      const one = boxOf(a);
      const two = boxOf(b);
      if (one.left < two.right && two.left < one.right && one.top < two.bottom && two.top < one.bottom) return [a, b];
    }
  }
  return null;
}

/**
 * Where every part of a corner is, in mm above the lower eye centre, at full droop, standing and full bump. Nothing
 * here knows of pixels: the same lengths can be compared with the model's, or drawn by a page at any size.
 *
 * At full bump the car side (tower, flange, seat, plate) is lower by the give of the mount's bush, so each gap in the
 * drawing is the clearance the model judges.
 */
import { CONTACT, type ContactName, type Face } from '../../model/corner/contacts.ts';
import type { CornerLengths, PositionName } from '../../result/records/lengths.ts';

/** From lower to upper end. */
export type Span = readonly [from: number, to: number];

export interface Position {
  readonly name: PositionName;
  readonly hubToArch: number;
  /** Rod shoulder: the damper's length. */
  readonly shoulder: number;
  readonly tower: number;
  readonly flange: number;
  /** Upper spring seat. */
  readonly seat: number;
  /** The mount's inner plate, and what stands on it. */
  readonly plate: Span;
  readonly upperBush: Span;
  readonly upperWashers: Span;
  readonly nuts: Span;
  readonly washers: Span;
  readonly lowerBush: Span;
  readonly spacer: Span | null;
  readonly isolator: Span | null;
  readonly body: Span;
  readonly sleeve: Span;
  /** What was cut off the sleeve. */
  readonly cut: Span | null;
  readonly lockRing: Span;
  readonly perch: Span;
  readonly helper: Span | null;
  readonly coupler: Span | null;
  readonly spring: Span;
  readonly packer: Span | null;
  readonly stop: Span;
}

export interface Clearance {
  readonly name: ContactName;
  /** The two faces that would meet; their distance is the clearance, negative where they overlap. */
  readonly faces: Span;
  readonly clearance: number;
  /** With the stop fully closed, where full bump is judged under a load; else null. */
  readonly closed: number | null;
  readonly spare: number;
  readonly isThinnest: boolean;
  readonly fails: boolean;
}

export interface CornerLayout {
  readonly lengths: CornerLengths;
  readonly positions: Readonly<Record<PositionName, Position>>;
  /** The stack gone solid, at full bump: helper, coupler, main spring. */
  readonly solid: { readonly helper: Span | null; readonly coupler: Span | null; readonly spring: Span };
  readonly clearances: readonly Clearance[];
}

export function cornerLayout(lengths: CornerLengths): CornerLayout {
  const positions = {
    droop: positionAt(lengths, 'droop'),
    standing: positionAt(lengths, 'standing'),
    full: positionAt(lengths, 'full'),
  };
  return {
    lengths,
    positions,
    solid: stackSpans(lengths, 'solid'),
    clearances: clearancesOf(lengths, positions.full),
  };
}

function positionAt(lengths: CornerLengths, name: PositionName): Position {
  const { body, sleeve, perch, mount, isolator, rodEnd } = lengths;
  const shoulder = lengths.damper[name];
  const give = name === 'full' ? mount.give : 0;
  const tower = shoulder - mount.raise - give;
  const flange = shoulder - mount.flangeBelowShoulder - give;
  const seat = shoulder - mount.seatBelowShoulder - give;
  const plate = shoulder + mount.washers + mount.lowerBush - give;
  const perchFoot = perch.seat - perch.height;
  return {
    name,
    hubToArch: lengths.hubToArch[name],
    shoulder,
    tower,
    flange,
    seat,
    ...aboveThe(plate, rodEnd),
    washers: [shoulder, shoulder + mount.washers],
    lowerBush: [shoulder + mount.washers, plate],
    spacer: spacerAt(lengths, tower),
    isolator: isolator ? [seat, flange] : null,
    body: [0, body.top],
    sleeve: [sleeve.foot, sleeve.top],
    cut: sleeve.trim > 0 ? [sleeve.top, sleeve.top + sleeve.trim] : null,
    lockRing: [perchFoot - perch.lockRing, perchFoot],
    perch: [perchFoot, perch.seat],
    ...stackSpans(lengths, name),
    ...stopSpans(lengths, shoulder),
  };
}

/** From the plate's underside up. */
function aboveThe(underside: number, { plate, upperBush, upperWashers, nuts }: CornerLengths['rodEnd']) {
  const top = underside + plate;
  const bushTop = top + upperBush;
  const washersTop = bushTop + upperWashers;
  return {
    plate: [underside, top],
    upperBush: [top, bushTop],
    upperWashers: [bushTop, washersTop],
    nuts: [washersTop, washersTop + nuts],
  } as const;
}

function spacerAt({ mount }: CornerLengths, tower: number): Span | null {
  if (mount.spacer <= 0) return null;
  return mount.isBoltedBelow ? [tower - mount.spacer, tower] : [tower, tower + mount.spacer];
}

/** The stop hangs under the packer until it meets body or sleeve, and is then squeezed, no further than closed. */
function stopSpans({ stop }: CornerLengths, shoulder: number): Pick<Position, 'packer' | 'stop'> {
  const top = shoulder - stop.packer;
  const length = Math.min(stop.length, Math.max(stop.closed, top - stop.closesAt));
  return { packer: stop.packer > 0 ? [top, shoulder] : null, stop: [top - length, top] };
}

/** Helper below, coupler, main spring above, from the perch up. */
function stackSpans({ helper, stack, perch }: CornerLengths, name: PositionName | 'solid'): CornerLayout['solid'] {
  const { helper: helperLength, spring } = stack[name];
  const helperTop = perch.seat + helperLength;
  const foot = helperTop + (helper?.coupler ?? 0);
  return {
    helper: helper ? [perch.seat, helperTop] : null,
    coupler: helper && helper.coupler > 0 ? [helperTop, foot] : null,
    spring: [foot, foot + spring],
  };
}

function clearancesOf(lengths: CornerLengths, full: Position): Clearance[] {
  const spareOf = (contact: CornerLengths['contacts'][number]) => contact.clearance - contact.margin;
  const least = Math.min(...lengths.contacts.map(spareOf));
  const thinnest = lengths.contacts.find((contact) => spareOf(contact) === least);
  return lengths.contacts.map((contact) => ({
    name: contact.name,
    faces: facesOf(lengths, full, contact),
    clearance: contact.clearance,
    closed: contact.closed,
    spare: spareOf(contact),
    isThinnest: contact === thinnest,
    fails: spareOf(contact) < 0,
  }));
}

function facesOf(lengths: CornerLengths, full: Position, contact: CornerLengths['contacts'][number]): Span {
  const { sleeve, body, mount, isolator, stop } = lengths;
  const heights: Readonly<Record<Face, number>> = {
    'solid spring': stackSpans(lengths, 'solid').spring[1],
    'sleeve top': sleeve.top,
    'body top': body.top,
    'contact length': contact.length,
    'tower on tyre': contact.length - mount.raise,
    'upper seat': full.seat,
    isolator: full.seat - (isolator?.spigot ?? 0),
    flange: full.flange - mount.spigot,
    // Washers stand at the shoulder, or a packer's underside is met first.
    washers: full.shoulder - (contact.length > sleeve.top ? stop.packer : 0),
    plate: full.plate[0],
    shoulder: full.shoulder,
    tower: full.tower,
  };
  const [lower, upper] = CONTACT[contact.name].faces;
  return [heights[lower], heights[upper]];
}

/**
 * Where every part of a corner is, in mm above the lower eye centre, at full droop, standing and full bump. Nothing
 * here knows of pixels: the same lengths can be compared with the model's, or drawn by a page at any size.
 *
 * At full bump the car side (tower, flange, seat, plate) is lower by the give of the mount's bush, so each gap in the
 * drawing is the clearance the model judges.
 */
import type { ContactName } from '../../domain/corner/contacts.ts';
import { deflectionUnder, forceAt, type SpringStack } from '../../domain/stack.ts';
import type { CornerLengths } from './lengths.ts';

/** From lower to upper end. */
export type Span = readonly [from: number, to: number];

export type PositionName = 'droop' | 'standing' | 'full';

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
  /** Looseness of the spring at full droop, negative: preload. */
  readonly slack: number;
  /** Gap along the damper to the stop, standing; negative: standing on it. */
  readonly toStop: number;
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
  const stack = stackOf(lengths);
  const { standing, droop } = positions;
  return {
    lengths,
    positions,
    slack: droop.seat - lengths.perch.seat - stack.freeLength,
    toStop: standing.shoulder - lengths.stop.packer - lengths.stop.length - lengths.stop.meetsAt,
    solid: stackSpans(lengths, lengths.perch.seat + stack.solidLength, true),
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
    ...stackSpans(lengths, seat, false),
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

/** Helper below, coupler, main spring above, between the perch and the upper seat; a loose stack stands on the perch. */
function stackSpans(
  lengths: CornerLengths,
  seat: number,
  mayBeSolid: boolean,
): Pick<Position, 'helper' | 'coupler' | 'spring'> {
  const { helper, spring, perch } = lengths;
  const stack = stackOf(lengths);
  const squeezed = stack.freeLength - (seat - perch.seat);
  const most = stack.mainTravel + stack.helperTravel;
  const force = forceAt(stack, Math.min(Math.max(0, squeezed), most));
  const isSolid = mayBeSolid || squeezed >= most;
  const helperLength = helper ? (isSolid ? helper.block : helper.free - helperDeflection(stack, force)) : 0;
  const foot = perch.seat + helperLength + (helper?.coupler ?? 0);
  const top = squeezed <= 0 ? foot + spring.free : isSolid ? foot + spring.solid : seat;
  return {
    helper: helper ? [perch.seat, perch.seat + helperLength] : null,
    coupler: helper && helper.coupler > 0 ? [perch.seat + helperLength, foot] : null,
    spring: [foot, top],
  };
}

function helperDeflection(stack: SpringStack, force: number): number {
  return deflectionUnder(stack, force) - Math.min(force / stack.mainRate, stack.mainTravel);
}

function stackOf({ spring, helper }: CornerLengths): SpringStack {
  return {
    freeLength: spring.free + (helper ? helper.free + helper.coupler : 0),
    solidLength: spring.solid + (helper ? helper.block + helper.coupler : 0),
    mainRate: spring.rate,
    mainTravel: spring.free - spring.solid,
    helperRate: helper?.rate ?? 0,
    helperTravel: helper ? helper.free - helper.block : 0,
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
  const isolatorFace = full.seat - (isolator?.spigot ?? 0);
  const flangeFace = full.flange - mount.spigot;
  const faces: Readonly<Record<ContactName, Span>> = {
    coil_bind: [lengths.perch.seat + stackOf(lengths).solidLength, full.seat],
    damper: [contact.length, full.shoulder],
    sleeve_isolator: [sleeve.top, isolatorFace],
    sleeve_flange: [sleeve.top, flangeFace],
    // The sleeve may meet the washers at the shoulder, or a packer's underside first.
    sleeve_washers: [sleeve.top, full.shoulder - (contact.length > sleeve.top ? stop.packer : 0)],
    sleeve_plate: [sleeve.top, full.plate[0]],
    body_isolator: [body.top, isolatorFace],
    body_flange: [body.top, flangeFace],
    // Tyre and arch are beside the drawing: the tower plane sinks as far as the arch does.
    tyre_arch: [contact.length - mount.raise, full.tower],
  };
  return faces[contact.name];
}

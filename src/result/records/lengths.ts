/**
 * The lengths a drawing is made from, off a corner's record or off a judged corner itself. All in mm, heights above the
 * lower eye centre. What nobody gave (the rod, rims) is as such parts usually are; `wire.isKnown` says the same of the
 * coils.
 */
import { closedLength } from '../../model/bumpStop.ts';
import { COIL_BIND, CONTACT, CONTACTS, type ContactName } from '../../model/corner/contacts.ts';
import { type CornerState, clearanceClosed } from '../../model/corner/state.ts';
import type { Spring } from '../../model/parts.ts';
import { forceAt, type HelperSpring, type MainSpring, springStack } from '../../model/stack.ts';
import type { CornerKey, CornerValues } from '../quantities/corner.ts';
import type { CornerReport } from '../result.ts';

export type PositionName = 'droop' | 'standing' | 'full';

/** Lengths of helper and main spring between perch and upper seat; 0 for a helper that is not there. */
export interface StackLengths {
  readonly helper: number;
  readonly spring: number;
}

export interface CornerLengths {
  readonly damper: Readonly<Record<PositionName, number>>;
  readonly hubToArch: Readonly<Record<PositionName, number>>;
  readonly body: { readonly top: number; readonly diameter: number };
  readonly sleeve: {
    readonly foot: number;
    readonly top: number;
    readonly trim: number;
    readonly bore: number;
    readonly diameter: number;
  };
  readonly perch: { readonly seat: number; readonly height: number; readonly lockRing: number };
  readonly spring: { readonly solid: number; readonly leastSolid: number; readonly bore: number };
  readonly wire: {
    readonly diameter: number;
    readonly active: number;
    readonly total: number;
    readonly isKnown: boolean;
  };
  readonly helper: { readonly block: number; readonly bore: number; readonly coupler: number } | null;
  /** How long the parts of the spring stack are in each position, and gone solid. */
  readonly stack: Readonly<Record<PositionName | 'solid', StackLengths>>;
  /** Looseness of the spring at full droop, negative: preload. */
  readonly slack: number;
  readonly stop: {
    readonly length: number;
    readonly closed: number;
    readonly diameter: number;
    /** What it meets first, and what it is squeezed against: another where a sleeve may be landed on or entered. */
    readonly meetsAt: number;
    readonly closesAt: number;
    /** Gap along the damper to the stop, standing; negative: standing on it. */
    readonly gap: number;
    readonly packer: number;
    readonly packerDiameter: number;
  };
  readonly mount: {
    readonly raise: number;
    readonly spacer: number;
    readonly isBoltedBelow: boolean;
    readonly flangeBelowShoulder: number;
    readonly seatBelowShoulder: number;
    readonly spigot: number;
    readonly bore: number;
    readonly lowerBush: number;
    readonly washers: number;
    readonly washerDiameter: number;
    readonly give: number;
  };
  readonly isolator: { readonly thickness: number; readonly bore: number; readonly spigot: number } | null;
  readonly rodDiameter: number;
  /** On the rod above the lower bush, as given or as usual. */
  readonly rodEnd: {
    readonly plate: number;
    readonly upperBush: number;
    readonly upperWashers: number;
    readonly nuts: number;
  };
  /** Damper length of every contact that exists, its clearances and the margin it must keep at full bump. */
  readonly contacts: readonly {
    readonly name: ContactName;
    readonly length: number;
    readonly clearance: number;
    /** With the stop fully closed, where full bump is judged under a load; else null. */
    readonly closed: number | null;
    readonly margin: number;
  }[];
}

/** False for a record without lengths: then there is nothing to draw. */
export function isDrawable({ values }: Pick<CornerReport, 'values'>): boolean {
  const needed = ['length_full_mm', 'length_at_droop_mm', 'damper_length_mm', 'perch_mm', 'sleeve_top_mm'] as const;
  return needed.every((key) => (values[key] ?? null) !== null);
}

// Off a record.

/** @throws where a length that every corner has is missing */
export function cornerLengths({ values, words }: Pick<CornerReport, 'values' | 'words'>): CornerLengths {
  const mm = reader(values);
  const bodyDiameter = mm('body_diameter_mm');
  const damper = { droop: mm('length_at_droop_mm'), standing: mm('damper_length_mm'), full: mm('length_full_mm') };
  const mount = { ...mountLengths(values), isBoltedBelow: words.mount_bolted === 'below' };
  return {
    damper,
    hubToArch: { droop: mm('height_at_droop_mm'), standing: mm('ride_height_mm'), full: mm('height_full_mm') },
    body: { top: mm('body_length_mm'), diameter: bodyDiameter },
    sleeve: {
      foot: mm('ledge_height_mm') - mm('groove_drop_mm'),
      top: mm('sleeve_top_mm'),
      trim: mm('trim_mm'),
      bore: mm('sleeve_bore_mm'),
      diameter: mm('sleeve_diameter_mm'),
    },
    perch: { seat: mm('perch_mm'), height: mm('perch_height_mm'), lockRing: mm('lock_ring_mm') },
    ...springLengths(values, damper, mount),
    slack: mm('slack_mm'),
    stop: stopLengths(values),
    mount,
    isolator: isolatorLengths(values),
    rodDiameter: rodDiameterOf(values.rod_area_mm2 ?? null, bodyDiameter),
    rodEnd: rodEndLengths(values),
    contacts: contactsOf(values),
  };
}

/** @returns reads a value; where there is none, what is usual in its place */
function reader(values: CornerValues) {
  return (key: CornerKey, usual: number | null = null): number => {
    const value = values[key] ?? usual;
    if (value === null) throw new Error(`The corner has no length “${key.replace(/_mm$/, '')}” to draw.`);
    return value;
  };
}

function stopLengths(values: CornerValues): CornerLengths['stop'] {
  const mm = reader(values);
  const meetsAt = mm('stop_meets_at_mm');
  return {
    length: mm('stop_length_mm'),
    closed: mm('stop_closed_length_mm'),
    diameter: mm('stop_diameter_mm'),
    meetsAt,
    closesAt: mm('stop_closes_at_mm', meetsAt),
    gap: mm('damper_bump_travel_mm'),
    packer: mm('packer_mm'),
    packerDiameter: mm('packer_diameter_mm', 0),
  };
}

function mountLengths(values: CornerValues): Omit<CornerLengths['mount'], 'isBoltedBelow'> {
  const mm = reader(values);
  return {
    raise: mm('raise_mm'),
    spacer: mm('spacer_mm'),
    flangeBelowShoulder: mm('flange_below_shoulder_mm'),
    seatBelowShoulder: mm('seat_below_shoulder_mm'),
    spigot: mm('mount_spigot_mm'),
    bore: mm('mount_bore_mm'),
    lowerBush: mm('lower_bush_mm'),
    washers: mm('washers_mm'),
    washerDiameter: mm('washer_diameter_mm'),
    give: mm('bush_give_mm'),
  };
}

function isolatorLengths(values: CornerValues): CornerLengths['isolator'] {
  const mm = reader(values);
  const thickness = mm('isolator_thickness_mm', 0);
  return thickness === 0 ? null : { thickness, bore: mm('isolator_bore_mm'), spigot: mm('isolator_spigot_mm', 0) };
}

function rodEndLengths(values: CornerValues): CornerLengths['rodEnd'] {
  const mm = reader(values);
  return {
    plate: mm('plate_thickness_mm', DRAWN_PLATE),
    upperBush: mm('upper_bush_mm', 0),
    upperWashers: mm('upper_washers_mm', 0),
    nuts: mm('nut_mm', DRAWN_NUT) + mm('jam_nut_mm', 0),
  };
}

function contactsOf(values: CornerValues): CornerLengths['contacts'] {
  const mm = reader(values);
  return CONTACTS.flatMap((name) => {
    const length = values[`length_${name}_mm`] ?? null;
    const clearance = values[`clearance_${name}_mm`] ?? null;
    if (length === null || clearance === null) return [];
    const closed = values[`clearance_${name}_closed_mm`] ?? null;
    return [{ name, length, clearance, closed, margin: mm(`margin_${marginKind(name)}_mm`, 0) }];
  });
}

/** Each part has a margin of its own; that of the spring is named after its contact. */
function marginKind(name: ContactName) {
  const { part } = CONTACT[name];
  return part === 'spring' ? COIL_BIND : part;
}

function springLengths(
  values: CornerValues,
  damper: CornerLengths['damper'],
  mount: CornerLengths['mount'],
): Pick<CornerLengths, 'spring' | 'wire' | 'helper' | 'stack'> {
  const mm = reader(values);
  const solid = { height: mm('solid_height_mm'), least: mm('solid_height_least_mm') };
  const bore = mm('spring_bore_mm');
  const spring = { freeLength: mm('free_length_mm'), rate: mm('rate_n_per_mm'), solid };
  const helper = helperOf(values);
  return {
    spring: { solid: solid.height, leastSolid: solid.least, bore },
    wire: wireOf(values, solid.height, bore),
    helper: helper && { block: helper.blockHeight, bore: mm('helper_bore_mm', bore), coupler: helper.coupler },
    stack: stackLengths(spring, helper, damper, mount, mm('perch_mm')),
  };
}

function helperOf(values: CornerValues): HelperSpring | null {
  const mm = reader(values);
  const freeLength = mm('helper_free_length_mm', 0);
  if (freeLength === 0) return null;
  const [blockHeight, rate] = [mm('helper_block_height_mm'), mm('helper_rate_n_per_mm')];
  return { freeLength, blockHeight, rate, coupler: mm('coupler_mm', 0) };
}

function wireOf(values: CornerValues, solid: number, bore: number): CornerLengths['wire'] {
  const mm = reader(values);
  const diameter = values.wire_diameter_mm ?? null;
  if (diameter === null) return drawnWire(solid, bore);
  const total = mm('total_coils');
  return { diameter, active: mm('active_coils', total - 2), total, isKnown: true };
}

// Off a judged corner itself: for a page that judges anew while it is read.

/** Where a corner stands that a drawing shows in place of full bump. */
export interface Bumped {
  readonly length: number;
  readonly height: number;
  /** How far the mount's bush is pressed in, mm. */
  readonly give: number;
}

/** @param bumped full bump, or a place on the way there */
export function stateLengths(state: CornerState, bumped: Bumped = fullBump(state)): CornerLengths {
  const { corner, geometry, standing } = state;
  const { damper, sleeve, perch, spring, helper, bumpStop, isolator, rodEnd } = corner;
  const lengths = { droop: geometry.droopLength, standing: standing.length, full: bumped.length };
  const mount = { ...upperLengths(state), give: bumped.give };
  return {
    damper: lengths,
    hubToArch: { droop: geometry.droopHeight, standing: standing.height, full: bumped.height },
    body: { top: damper.bodyLength, diameter: damper.bodyDiameter },
    sleeve: {
      foot: sleeve.ledgeHeight - sleeve.grooveDrop,
      top: geometry.sleeveTop,
      trim: sleeve.trim,
      bore: sleeve.bore,
      diameter: sleeve.outerDiameter,
    },
    perch: { seat: standing.perch, height: perch.height, lockRing: perch.lockRing },
    spring: { solid: spring.solid.height, leastSolid: spring.solid.least, bore: spring.bore },
    wire: knownWire(spring),
    helper: helper && { block: helper.blockHeight, bore: helper.bore, coupler: helper.coupler },
    stack: stackLengths(spring, helper, lengths, mount, standing.perch),
    slack: state.slack,
    stop: {
      length: bumpStop.length,
      closed: closedLength(bumpStop),
      diameter: bumpStop.diameter,
      meetsAt: geometry.stopMeetsAt,
      closesAt: geometry.stopClosesAt,
      gap: standing.length - geometry.stopLength,
      packer: bumpStop.packer,
      packerDiameter: bumpStop.packer > 0 ? bumpStop.packerDiameter : 0,
    },
    mount,
    isolator: isolator && { thickness: isolator.thickness, bore: isolator.bore, spigot: isolator.spigot },
    rodDiameter: rodDiameterOf(damper.gas.kind === 'charge' ? damper.gas.rodArea : null, damper.bodyDiameter),
    rodEnd: {
      plate: rodEnd?.plateThickness ?? DRAWN_PLATE,
      upperBush: rodEnd?.upperBush ?? 0,
      upperWashers: rodEnd?.upperWashers ?? 0,
      nuts: rodEnd ? rodEnd.nut + rodEnd.jamNut : DRAWN_NUT,
    },
    contacts: state.contacts.map((contact) => ({ ...contact, closed: closedOf(state, contact.clearance) })),
  };
}

function fullBump({ full, corner }: CornerState): Bumped {
  return { ...full, give: corner.mount.bushGive };
}

function closedOf(state: CornerState, clearance: number): number | null {
  return state.site.bump.kind === 'closed' ? null : clearanceClosed(state, clearance);
}

function knownWire({ wire, solid, bore }: Spring): CornerLengths['wire'] {
  if (wire === null) return drawnWire(solid.height, bore);
  return { diameter: wire.diameter, active: wire.activeCoils, total: wire.totalCoils, isKnown: true };
}

function upperLengths({ corner: { mount }, geometry }: CornerState): Omit<CornerLengths['mount'], 'give'> {
  return {
    raise: mount.raise,
    spacer: mount.spacer,
    isBoltedBelow: mount.bolted === 'below',
    flangeBelowShoulder: geometry.flangeBelowShoulder,
    seatBelowShoulder: geometry.seatBelowShoulder,
    spigot: mount.spigot,
    bore: mount.bore,
    lowerBush: mount.lowerBush,
    washers: mount.washers,
    washerDiameter: mount.washerDiameter,
  };
}

// The spring stack in each position: helper below, coupler, main spring above.

function stackLengths(
  spring: MainSpring,
  helper: HelperSpring | null,
  damper: CornerLengths['damper'],
  { seatBelowShoulder, give }: CornerLengths['mount'],
  perch: number,
): CornerLengths['stack'] {
  const stack = springStack(spring, helper);
  /** A stack looser than its room stands on the perch, one too long for it is solid. */
  const under = (shoulder: number): StackLengths => {
    const squeezed = stack.freeLength - (shoulder - seatBelowShoulder - perch);
    const deflection = Math.min(Math.max(0, squeezed), stack.mainTravel + stack.helperTravel);
    const main = Math.min(forceAt(stack, deflection) / stack.mainRate, stack.mainTravel);
    return { helper: helper ? helper.freeLength - (deflection - main) : 0, spring: spring.freeLength - main };
  };
  return {
    droop: under(damper.droop),
    standing: under(damper.standing),
    full: under(damper.full - give),
    solid: { helper: helper?.blockHeight ?? 0, spring: spring.solid.height },
  };
}

// What nobody gave is as such parts usually are.

/** Shares of the body's diameter and of the spring's bore that such parts usually have. */
const DRAWN_ROD_SHARE = 0.3;
const DRAWN_WIRE_SHARE = 1 / 6;

const DRAWN_PLATE = 4;
const DRAWN_NUT = 9;

/** Wire as thick as usual for the bore, with as many turns as its solid height holds, the two ends dead. */
function drawnWire(solid: number, bore: number): CornerLengths['wire'] {
  const diameter = bore * DRAWN_WIRE_SHARE;
  const total = solid / diameter;
  return { diameter, active: total - 2, total, isKnown: false };
}

/** From the rod's area (mm2), or from the body where nobody gave that. */
function rodDiameterOf(area: number | null, bodyDiameter: number): number {
  return area === null ? DRAWN_ROD_SHARE * bodyDiameter : Math.sqrt((4 * area) / Math.PI);
}

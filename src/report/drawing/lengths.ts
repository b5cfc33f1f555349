/**
 * The lengths a drawing is made from, read off a corner's record. All in mm, heights above the lower eye centre.
 * What nobody gave (the rod, rims) is drawn as such parts usually are; `wire.isKnown` says the same of the coils.
 */
import { CONTACTS, type ContactName } from '../../domain/corner/contacts.ts';
import type { CornerReport } from '../../domain/result.ts';
import { quantityOf } from '../read.ts';
import { rodDiameterOf, USUAL_NUT, USUAL_PLATE, usualWire } from './usual.ts';

export interface CornerLengths {
  readonly damper: { readonly droop: number; readonly standing: number; readonly full: number };
  readonly hubToArch: { readonly droop: number; readonly standing: number; readonly full: number };
  readonly body: { readonly top: number; readonly diameter: number };
  readonly sleeve: {
    readonly foot: number;
    readonly top: number;
    readonly trim: number;
    readonly bore: number;
    readonly diameter: number;
  };
  readonly perch: { readonly seat: number; readonly height: number; readonly lockRing: number };
  readonly spring: {
    readonly free: number;
    readonly solid: number;
    readonly leastSolid: number;
    readonly rate: number;
    readonly bore: number;
  };
  readonly wire: {
    readonly diameter: number;
    readonly active: number;
    readonly total: number;
    readonly isKnown: boolean;
  };
  readonly helper: {
    readonly free: number;
    readonly block: number;
    readonly rate: number;
    readonly bore: number;
    readonly coupler: number;
  } | null;
  readonly stop: {
    readonly length: number;
    readonly closed: number;
    readonly diameter: number;
    /** What it meets first, and what it is squeezed against: another where a sleeve may be landed on or entered. */
    readonly meetsAt: number;
    readonly closesAt: number;
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
export function isDrawable(corner: CornerReport): boolean {
  const needed = ['length_full_mm', 'length_at_droop_mm', 'damper_length_mm', 'perch_mm', 'sleeve_top_mm'];
  return needed.every((key) => (corner.values[key] ?? null) !== null);
}

/** @throws where a length that every corner has is missing */
export function cornerLengths(corner: CornerReport): CornerLengths {
  const length = lengthReader(corner);
  return {
    damper: {
      droop: length('length_at_droop'),
      standing: length('damper_length'),
      full: length('length_full'),
    },
    hubToArch: { droop: length('height_at_droop'), standing: length('ride_height'), full: length('height_full') },
    body: { top: length('body_length'), diameter: length('body_diameter') },
    sleeve: {
      foot: length('ledge_height') - length('groove_drop'),
      top: length('sleeve_top'),
      trim: length('trim'),
      bore: length('sleeve_bore'),
      diameter: length('sleeve_diameter'),
    },
    perch: { seat: length('perch'), height: length('perch_height'), lockRing: length('lock_ring') },
    ...springLengths(corner),
    stop: {
      length: length('stop_length'),
      closed: length('stop_closed_length'),
      diameter: length('stop_diameter'),
      meetsAt: length('stop_meets_at'),
      closesAt: corner.values.stop_closes_at_mm ?? length('stop_meets_at'),
      packer: length('packer'),
      packerDiameter: corner.values.packer_diameter_mm ?? 0,
    },
    ...mountLengths(corner),
    rodDiameter: rodDiameter(corner),
    rodEnd: rodEndLengths(corner),
    contacts: contactsOf(corner),
  };
}

function springLengths(corner: CornerReport): Pick<CornerLengths, 'spring' | 'wire' | 'helper'> {
  const length = lengthReader(corner);
  const { values } = corner;
  const spring = {
    free: length('free_length'),
    solid: length('solid_height'),
    leastSolid: length('solid_height_least'),
    rate: quantityOf(values, 'rate_n_per_mm') ?? 0,
    bore: length('spring_bore'),
  };
  const diameter = values.wire_diameter_mm ?? null;
  const total = values.total_coils ?? null;
  const wire =
    diameter === null || total === null
      ? usualWire(spring)
      : { diameter, active: values.active_coils ?? total - 2, total, isKnown: true };
  const helperFree = values.helper_free_length_mm ?? null;
  const helper = helperFree === null ? null : helperLengths(corner, helperFree, spring.bore);
  return { spring, wire, helper };
}

function helperLengths({ values }: CornerReport, free: number, springBore: number) {
  return {
    free,
    block: quantityOf(values, 'helper_block_height_mm') ?? 0,
    rate: quantityOf(values, 'helper_rate_n_per_mm') ?? 0,
    bore: values.helper_bore_mm ?? springBore,
    coupler: values.coupler_mm ?? 0,
  };
}

function mountLengths(corner: CornerReport): Pick<CornerLengths, 'mount' | 'isolator'> {
  const length = lengthReader(corner);
  const thickness = corner.values.isolator_thickness_mm ?? null;
  return {
    mount: {
      raise: length('raise'),
      spacer: length('spacer'),
      isBoltedBelow: corner.words.mount_bolted === 'below',
      flangeBelowShoulder: length('flange_below_shoulder'),
      seatBelowShoulder: length('seat_below_shoulder'),
      spigot: length('mount_spigot'),
      bore: length('mount_bore'),
      lowerBush: length('lower_bush'),
      washers: length('washers'),
      washerDiameter: length('washer_diameter'),
      give: length('bush_give'),
    },
    isolator:
      thickness === null
        ? null
        : { thickness, bore: length('isolator_bore'), spigot: corner.values.isolator_spigot_mm ?? 0 },
  };
}

function rodDiameter(corner: CornerReport): number {
  const area = corner.values.rod_area_mm2 ?? null;
  return rodDiameterOf(area, lengthReader(corner)('body_diameter'));
}

function rodEndLengths({ values }: CornerReport): CornerLengths['rodEnd'] {
  const given = (id: string) => values[`${id}_mm`] ?? null;
  const nut = given('nut');
  return {
    plate: given('plate_thickness') ?? USUAL_PLATE,
    upperBush: given('upper_bush') ?? 0,
    upperWashers: given('upper_washers') ?? 0,
    nuts: nut === null ? USUAL_NUT : nut + (given('jam_nut') ?? 0),
  };
}

function contactsOf({ values }: CornerReport): CornerLengths['contacts'] {
  return CONTACTS.flatMap((name) => {
    const length = values[`length_${name}_mm`] ?? null;
    const clearance = values[`clearance_${name}_mm`] ?? null;
    const margin = values[`margin_${marginKind(name)}_mm`] ?? 0;
    const closed = values[`clearance_${name}_closed_mm`] ?? null;
    return length === null || clearance === null ? [] : [{ name, length, clearance, closed, margin }];
  });
}

function marginKind(name: ContactName): string {
  if (name === 'coil_bind' || name === 'damper') return name;
  return name.split('_')[0] ?? name;
}

function lengthReader(corner: CornerReport): (id: string) => number {
  return (id) => {
    const value = quantityOf(corner.values, `${id}_mm`);
    if (value === null) throw new Error(`Corner ${corner.id} has no length “${id}” to draw.`);
    return value;
  };
}

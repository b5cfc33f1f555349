/**
 * Parts to their alternatives, one per physical choice. Each function names a part's swept dimensions in the order
 * their product is written down in: the last one turns fastest. Entries of a list keep the order of the file.
 */

import { pressureAtTemperature } from '../../domain/formula/gas.ts';
import type {
  BumpStop,
  Damper,
  GasSpring,
  Helper,
  Isolator,
  Mount,
  Perch,
  RodEnd,
  Sleeve,
  StopCurve,
} from '../../domain/parts.ts';
import type { AxleFields } from '../schema/axle.ts';
import { product } from './product.ts';

type Entry<K extends keyof AxleFields> = AxleFields[K] extends readonly (infer E)[] ? Exclude<E, 'none'> : never;

/** A dimension that may be left out, as one value. */
const NOT_GIVEN = [Number.NaN] as const;
const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);

/** Order: extended, compressed, body length, body diameter. */
export function dampersOf(d: Entry<'dampers'>): readonly Damper[] {
  const forceVelocity = d.force_velocity?.toSorted((a, b) => a.velocity - b.velocity) ?? null;
  const dimensions = {
    extended: d.extended,
    compressed: d.compressed,
    bodyLength: d.body_length,
    bodyDiameter: d.body_diameter,
  };
  const shared = { name: d.name, price: d.price ?? null, body: d.body, gas: gasOf(d.gas), forceVelocity };
  return product(dimensions).map((choice) => ({ ...shared, ...choice }));
}

function gasOf(gas: Entry<'dampers'>['gas']): GasSpring {
  if (gas === 'none') return { kind: 'none' };
  if ('out' in gas) return { kind: 'linear', outForce: gas.out, inForce: gas.in ?? null };
  return {
    kind: 'charge',
    chargePressure: pressureAtTemperature(gas.charge, gas.temperature, gas.working_temperature),
    rodArea: gas.rod_area ?? (Math.PI / 4) * (gas.rod_diameter ?? 0) ** 2,
    gasVolume: gas.volume,
  };
}

/**
 * Order: raise (or plate height), spacer, flange depth, bore, spigot, lower bush, washers, washer diameter, bush give.
 * A spacer raises the rod shoulder of a mount bolted above the tower and lowers that of one bolted below.
 */
export function mountsOf(m: Entry<'mounts'>): readonly Mount[] {
  const dimensions = {
    bareRaise: m.raise ?? m.plate_height ?? [],
    spacer: m.spacer,
    flangeDepth: m.flange_depth,
    bore: m.bore,
    spigot: m.spigot,
    lowerBush: m.lower_bush,
    washers: m.washers,
    washerDiameter: m.washer_diameter,
    bushGive: m.bush_give,
  };
  return product(dimensions).map((choice) => {
    const stack = m.raise === undefined ? choice.lowerBush + choice.washers : 0;
    const bareRaise = choice.bareRaise - stack;
    const raise = m.bolted === 'above' ? bareRaise + choice.spacer : bareRaise - choice.spacer;
    return { name: m.name, price: m.price ?? null, ...choice, bareRaise, raise, seat: m.seat, bolted: m.bolted };
  });
}

/** Order: thickness, bore, spigot. */
export function isolatorsOf(i: Entry<'isolators'>): readonly Isolator[] {
  const dimensions = { thickness: i.thickness, bore: i.bore, spigot: i.spigot };
  return product(dimensions).map((choice) => ({ name: i.name, price: i.price ?? null, ...choice }));
}

/** Order: length as bought, cut length, closed fraction, diameter, packer, packer diameter. */
export function bumpStopsOf(b: Entry<'bump_stops'>): readonly BumpStop[] {
  const curve = b.curve === undefined ? null : curveOf(b.curve);
  const dimensions = {
    uncutLength: b.length,
    length: b.cut_length ?? NOT_GIVEN,
    closedFraction: b.closed_fraction ?? [curve === null ? Number.NaN : closedFractionOf(curve)],
    diameter: b.diameter,
    packer: b.packer,
    packerDiameter: b.packer_diameter ?? [0],
  };
  const all = product(dimensions).map((choice) => ({
    ...{ name: b.name, price: b.price ?? null, curve, closedAtForce: b.closed_at_force ?? null },
    ...choice,
    length: orNull(choice.length) ?? choice.uncutLength,
    packerDiameter: choice.packer > 0 ? choice.packerDiameter : 0,
  }));
  // Without a packer its swept diameters would be the same stop several times.
  const first = b.packer_diameter?.[0];
  const widths = product(dimensions).map((choice) => choice.packerDiameter);
  return all.filter((stop, i) => stop.packer > 0 || first === undefined || widths[i] === first);
}

/** From the first touch: the point 0 mm, 0 N is added where the measurement starts later. */
function curveOf(curve: NonNullable<Entry<'bump_stops'>['curve']>): StopCurve {
  const start = curve.points[0]?.squeeze === 0 ? [] : [{ squeeze: 0, force: 0 }];
  return { measuredLength: curve.measured_length, points: [...start, ...curve.points] };
}

/** The stop counts as closed at the end of its measured curve. */
function closedFractionOf({ points, measuredLength }: StopCurve): number {
  return 1 - (points[points.length - 1]?.squeeze ?? 0) / measuredLength;
}

/** Order: thread start, thread end, plate thickness, upper bush, upper washers, nut, jam nut. */
export function rodEndsOf(r: Entry<'rod_ends'>): readonly RodEnd[] {
  const dimensions = {
    threadStart: r.thread_start,
    threadEnd: r.thread_end,
    plateThickness: r.plate_thickness,
    upperBush: r.upper_bush,
    upperWashers: r.upper_washers,
    nut: r.nut,
    jamNut: r.jam_nut,
  };
  return product(dimensions).map((choice) => ({ name: r.name, price: r.price ?? null, ...choice }));
}

/** Order: ledge height, length, bore, outer diameter, groove drop, trim. */
export function sleevesOf(s: Entry<'sleeves'>): readonly Sleeve[] {
  const dimensions = {
    ledgeHeight: s.ledge_height,
    length: s.length,
    bore: s.bore,
    outerDiameter: s.outer_diameter,
    grooveDrop: s.groove_drop,
    trim: s.trim,
  };
  const shared = { name: s.name, price: s.price ?? null, threadPitch: s.thread_pitch ?? null };
  return product(dimensions).map((choice) => ({ ...shared, ...choice }));
}

/** Order: lock ring, height, inset, spigot diameter, engagement. */
export function perchesOf(p: Entry<'perches'>): readonly Perch[] {
  const dimensions = {
    lockRing: p.lock_ring,
    height: p.height,
    inset: p.inset,
    spigotDiameter: p.spigot_diameter ?? NOT_GIVEN,
    engagement: p.engagement,
  };
  return product(dimensions).map((choice) => ({
    ...{ name: p.name, price: p.price ?? null },
    ...choice,
    spigotDiameter: orNull(choice.spigotDiameter),
  }));
}

/** Order: free length, solid height, rate, bore, coupler thickness, coupler bore. */
export function helpersOf(h: Entry<'helpers'>): readonly Helper[] {
  const dimensions = {
    freeLength: h.free_length,
    blockHeight: h.block_height,
    rate: h.rate,
    bore: h.bore,
    coupler: h.coupler?.thickness ?? [0],
    couplerBore: h.coupler?.bore ?? [0],
  };
  return product(dimensions).map((choice) => ({ name: h.name, price: h.price ?? null, ...choice }));
}

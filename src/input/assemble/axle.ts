/** One axle: loads, motion, and every part family written out. */
import type { Axle, AxleOptions, MotionData, Roll } from '../../domain/scenario.ts';
import type { LoadedCatalogues } from '../catalogue/loadCatalogues.ts';
import type { AxleFields } from '../schema/axle.ts';
import { meanLoad, sideLoads } from '../values/wheelLoads.ts';
import { bumpStopsOf, dampersOf, helpersOf, isolatorsOf, mountsOf, perchesOf, rodEndsOf, sleevesOf } from './parts.ts';
import { type Springs, springsOf } from './springs.ts';

export function axleOf(
  fields: AxleFields,
  catalogues: LoadedCatalogues,
): { readonly axle: Axle; readonly springs: Springs } {
  const springs = springsOf(fields.springs, catalogues);
  const { bushes, roll } = fields;
  const axle: Axle = {
    wheelLoad: meanLoad(fields.wheel_load),
    wheelLoads: sideLoads(fields.wheel_load),
    unsprungMass: fields.unsprung_mass,
    tyreRate: fields.tyre_rate,
    motion: motionOf(fields.motion),
    tyreOnArchHeight: fields.tyre_on_arch,
    lowestWheelHeight: fields.lowest_wheel ?? null,
    bushes: bushes === undefined ? null : { rate: bushes.rate, unloadedHeight: bushes.unloaded_height },
    roll: roll === undefined ? null : rollOf(roll),
    options: optionsOf(fields, springs),
  };
  return { axle, springs };
}

function rollOf({ track, roll_centre_height, bar_rate, at_height }: NonNullable<AxleFields['roll']>): Roll {
  const roll = { track, rollCentreHeight: roll_centre_height, barRate: bar_rate };
  return at_height === undefined ? roll : { ...roll, atHeight: at_height };
}

function optionsOf(fields: AxleFields, { springs }: Springs): AxleOptions {
  return {
    damper: fields.dampers.flatMap(dampersOf),
    mount: fields.mounts.flatMap(mountsOf),
    isolator: orNone(fields.isolators, isolatorsOf),
    bumpStop: fields.bump_stops.flatMap(bumpStopsOf),
    rodEnd: orNone(fields.rod_ends, rodEndsOf),
    sleeve: fields.sleeves.flatMap(sleevesOf),
    perch: fields.perches.flatMap(perchesOf),
    helper: orNone(fields.helpers, helpersOf),
    spring: springs,
  };
}

/** `none` stands among the alternatives as null. */
function orNone<E, P>(entries: readonly (E | 'none')[], expand: (entry: E) => readonly P[]): readonly (P | null)[] {
  return entries.flatMap((entry): readonly (P | null)[] => (entry === 'none' ? [null] : expand(entry)));
}

function motionOf({ pairs, mount_raise, ratio }: AxleFields['motion']): MotionData {
  const read = pairs.map((pair) => ({
    hubToArch: pair.hub_to_arch,
    damperLength: pair.damper_length,
    raise: pair.mount_raise ?? mount_raise ?? Number.NaN,
  }));
  return { pairs: read.sort((a, b) => a.hubToArch - b.hubToArch), ratio: ratio ?? null };
}

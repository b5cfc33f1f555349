/** The fields of a sound file of measurements to units: an axle, or each of its sides with what holds for both. */
import { type Measured, type MeasuredUnit, unmeasured } from '../../domain/audit/measured.ts';
import { AXLE_NAMES, type AxleName, SIDE_NAMES, type SideName } from '../../domain/scenario.ts';
import type { PathKey } from '../source/nodeAt.ts';
import type { AxleFields, MeasuredFields, UnitFields } from './schema.ts';

export interface UnitSource {
  /** Where the unit stands in the file. */
  readonly path: readonly PathKey[];
  readonly unit: MeasuredUnit;
}

export function measuredOf(fields: MeasuredFields): {
  readonly measured: Measured;
  readonly sources: readonly UnitSource[];
} {
  const sources = AXLE_NAMES.flatMap((axle) => {
    const mine = fields[axle];
    return mine === undefined ? [] : unitsOf(axle, mine);
  });
  const { readings, combination, best_of: setup } = fields;
  const measured: Measured = {
    build: combination === undefined ? { kind: 'best', setup: setup ?? '' } : { kind: 'id', id: combination },
    readings: {
      length: readings.length,
      rideHeight: readings.ride_height,
      wheelLoad: readings.wheel_load,
      wire: readings.wire,
      coils: readings.coils,
      rateShare: readings.rate,
    },
    units: sources.map(({ unit }) => unit),
  };
  return { measured, sources };
}

function unitsOf(axle: AxleName, { left, right, ...both }: AxleFields): UnitSource[] {
  const sides = { left, right };
  const named = SIDE_NAMES.filter((side) => sides[side] !== undefined);
  if (named.length === 0) return sourceOf([axle], unitOf(axle, null, both));
  return named.flatMap((side) => sourceOf([axle, side], unitOf(axle, side, merged(both, sides[side] as UnitFields))));
}

/** An axle or side under which nothing was written is not measured. */
function sourceOf(path: readonly PathKey[], unit: MeasuredUnit): UnitSource[] {
  const empty = JSON.stringify(unit) === JSON.stringify(unmeasured(unit.axle, unit.side));
  return empty ? [] : [{ path, unit }];
}

/** What was measured on a side goes before what holds for both. */
function merged(both: UnitFields, side: UnitFields): UnitFields {
  const given = Object.entries(side).filter(
    ([, value]) => value !== undefined && !(Array.isArray(value) && value.length === 0),
  );
  const ends = side.coils === undefined ? { ends: both.ends } : {};
  return { ...both, ...Object.fromEntries(given), ...ends };
}

function unitOf(axle: AxleName, side: SideName | null, f: UnitFields): MeasuredUnit {
  const coil = f.wire === undefined || f.coils === undefined ? null : { wire: f.wire, coils: f.coils, ends: f.ends };
  const seat = f.sleeve_to_isolator;
  return {
    axle,
    side,
    freeLength: f.free_length ?? null,
    rate: f.rate ?? null,
    coil,
    helperFreeLength: f.helper_free_length ?? null,
    sleeveLength: f.sleeve_length ?? null,
    stopLength: f.stop_length ?? null,
    lowestPerch: f.lowest_perch ?? null,
    sleeveToSeat: seat === undefined ? null : { distance: seat.distance, damperLength: seat.damper_length ?? null },
    extendedGap: f.extended_gap ?? null,
    snugGaps: f.snug_gaps,
    standing: f.standing.map(({ perch, ride_height: rideHeight }) => ({ perch, rideHeight })),
    wheelLoad: f.wheel_load ?? null,
  };
}

/**
 * What was measured, each with how a model predicts it. A prediction takes the marks from which things were read as they
 * are; `Marks` moves them, for the cause that something was measured from a wrong one.
 */
import { heightOn } from '../corner/balance.ts';
import { geometryOf } from '../corner/geometry.ts';
import { snugAt } from '../corner/snug.ts';
import { greatestSolidHeight } from '../formula/coil.ts';
import type { Model } from '../tolerance/inputs.ts';
import type { Dimension } from '../units.ts';
import type { MeasuredUnit, Readings } from './measured.ts';
import { dimensionOf, type ParameterName, readParameter } from './parameters.ts';

export type ObservationKind =
  | 'free_length'
  | 'rate'
  | 'solid_height'
  | 'helper_free_length'
  | 'sleeve_length'
  | 'stop_length'
  | 'lowest_perch'
  | 'sleeve_to_seat'
  | 'extended_gap'
  | 'snug_gap'
  | 'ride_height'
  | 'wheel_load';

/** How far above their true marks perch heights, ride heights and snug gaps read, mm. */
export interface Marks {
  readonly perch: number;
  readonly rideHeight: number;
  readonly gap: number;
}

export const TRUE_MARKS: Marks = { perch: 0, rideHeight: 0, gap: 0 };

export interface Observation {
  readonly kind: ObservationKind;
  readonly dimension: Dimension;
  /** The perch height at which it was read, mm; null where none matters. */
  readonly perch: number | null;
  /** The damper length at which it was read, mm; null: fully extended, or none matters. */
  readonly damperLength: number | null;
  readonly measured: number;
  /** Half-width of the reading, in the measurement's own unit, and of the perch height it was read at, mm. */
  readonly reading: number;
  readonly perchReading: number;
  /** Null where the model has no such part. */
  readonly predict: (model: Model, marks: Marks) => number | null;
}

/** All measurements of a unit, in the order in which they would be made: parts, cuts, bench, car. */
export function observationsOf(unit: MeasuredUnit, readings: Readings): readonly Observation[] {
  const { length } = readings;
  const { coil, sleeveToSeat: seat } = unit;
  return [
    ...part('free_length', unit.freeLength, length),
    ...part('solid_height', coil && greatestSolidHeight(coil.wire, coil.coils, coil.ends), coilReading(unit, readings)),
    ...part('rate', unit.rate, (unit.rate ?? 0) * readings.rateShare),
    ...part('helper_free_length', unit.helperFreeLength, length),
    ...part('sleeve_length', unit.sleeveLength, length),
    ...part('stop_length', unit.stopLength, length),
    ...single('lowest_perch', unit.lowestPerch, length, lowestPerch),
    ...single('sleeve_to_seat', seat?.distance ?? null, length, sleeveToSeat(seat?.damperLength ?? null)).map((o) => ({
      ...o,
      damperLength: seat?.damperLength ?? null,
    })),
    ...single('extended_gap', unit.extendedGap, length, extendedGap),
    ...unit.snugGaps.map(({ perch, gap }) => atPerch('snug_gap', perch, gap, length, length, snugGap)),
    ...unit.standing.map(({ perch, rideHeight }) =>
      atPerch('ride_height', perch, rideHeight, readings.rideHeight, length, standingHeight),
    ),
    ...part('wheel_load', unit.wheelLoad, readings.wheelLoad),
  ];
}

/** Wire and coils are read each by themselves: solid height is their product, and both may be read high. */
function coilReading({ coil }: MeasuredUnit, { wire, coils }: Readings): number {
  return coil === null ? 0 : wire * coil.coils + coils * coil.wire;
}

/** Something that the model holds as it is. */
function part(kind: ObservationKind & ParameterName, measured: number | null, reading: number): Observation[] {
  return single(kind, measured, reading, (model) => readParameter(model, kind)).map((o) => ({
    ...o,
    dimension: dimensionOf(kind),
  }));
}

function single(
  kind: ObservationKind,
  measured: number | null,
  reading: number,
  predict: Observation['predict'],
): Observation[] {
  if (measured === null) return [];
  return [{ kind, dimension: 'length', perch: null, damperLength: null, measured, reading, perchReading: 0, predict }];
}

function atPerch(
  kind: ObservationKind,
  perch: number,
  measured: number,
  reading: number,
  perchReading: number,
  predict: (model: Model, marks: Marks, perch: number) => number,
): Observation {
  return {
    ...{ kind, dimension: 'length', perch, damperLength: null, measured, reading, perchReading },
    // A perch that reads high stands lower than it reads.
    predict: (model, marks) => predict(model, marks, perch - marks.perch),
  };
}

function lowestPerch({ site, corner }: Model, marks: Marks): number {
  return geometryOf(site, corner).perchLowest + marks.perch;
}

/** With the spring fitted or not: the damper's length alone decides. */
function sleeveToSeat(damperLength: number | null) {
  return ({ site, corner }: Model): number => {
    const { seatBelowShoulder, sleeveTop } = geometryOf(site, corner);
    return (damperLength ?? corner.damper.extended) - seatBelowShoulder - sleeveTop;
  };
}

function extendedGap({ site, corner }: Model, marks: Marks): number {
  return corner.damper.extended - geometryOf(site, corner).stopLength + marks.gap;
}

function snugGap({ site, corner }: Model, marks: Marks, perch: number): number {
  return snugAt(corner, geometryOf(site, corner), perch).gap + marks.gap;
}

/**
 * Whether a gap was read with the damper fully extended and the spring squeezed already, so that it knows nothing of the
 * spring: the model has it preloaded at this perch, and the gap is as long as the damper allows, to `within` mm.
 */
export function wasPreloaded({ site, corner }: Model, { perch, measured }: SnugGapRead, within: number): boolean {
  const { benchGap, preload } = snugAt(corner, geometryOf(site, corner), perch as number);
  return preload > 0 && measured >= benchGap - within;
}

type SnugGapRead = Pick<Observation, 'perch' | 'measured'>;

function standingHeight({ site, corner }: Model, marks: Marks, perch: number): number {
  return heightOn(site, corner, geometryOf(site, corner), site.sprungLoad, perch) + marks.rideHeight;
}

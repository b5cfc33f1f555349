/**
 * What was measured, each with how a model predicts it. A prediction takes the marks from which things were read as they
 * are; `Marks` moves them, for the cause that something was measured from a wrong one.
 */
import { heightOn, perchFor } from '../../model/corner/balance.ts';
import { geometryOf } from '../../model/corner/geometry.ts';
import { snugAt } from '../../model/corner/snug.ts';
import { greatestSolidHeight } from '../../model/formula/coil.ts';
import type { Dimension } from '../../model/units.ts';
import type { Model } from '../../result/tolerance/inputs.ts';
import { type MeasuredUnit, type Readings, unmeasured } from './measured.ts';
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
export function wasPreloaded(
  { site, corner }: Model,
  { perch, measured }: Pick<Observation, 'perch' | 'measured'>,
  within: number,
): boolean {
  const { benchGap, preload } = snugAt(corner, geometryOf(site, corner), perch as number);
  return preload > 0 && measured >= benchGap - within;
}

function standingHeight({ site, corner }: Model, marks: Marks, perch: number): number {
  return heightOn(site, corner, geometryOf(site, corner), site.sprungLoad, perch) + marks.rideHeight;
}

/** The unit filled up with whatever was not measured; the values filled in are placeholders. */
export function fillUp(unit: MeasuredUnit, { corner, site }: Model): MeasuredUnit {
  const { wire, freeLength, rate } = corner.spring;
  const geometry = geometryOf(site, corner);
  const target = perchFor(site, corner, geometry, site.target.targetHeight, site.sprungLoad);
  const standingAt = Math.min(geometry.perchHighest, Math.max(geometry.perchLowest, target));
  return {
    ...unit,
    freeLength: unit.freeLength ?? freeLength,
    rate: unit.rate ?? rate,
    coil: unit.coil ?? { wire: wire?.diameter ?? 10, coils: wire?.totalCoils ?? 7, ends: 'closed_ground' },
    helperFreeLength: unit.helperFreeLength ?? corner.helper?.freeLength ?? null,
    sleeveLength: unit.sleeveLength ?? corner.sleeve.length,
    stopLength: unit.stopLength ?? corner.bumpStop.length,
    lowestPerch: unit.lowestPerch ?? geometry.perchLowest,
    sleeveToSeat: unit.sleeveToSeat ?? { distance: 0, damperLength: null },
    extendedGap: unit.extendedGap ?? 0,
    snugGaps: unit.snugGaps.length > 0 ? unit.snugGaps : [{ perch: geometry.perchLowest, gap: 0 }],
    standing: unit.standing.length > 0 ? unit.standing : [{ perch: standingAt, rideHeight: site.target.targetHeight }],
    wheelLoad: unit.wheelLoad ?? site.sprungMass + site.unsprungMass,
  };
}

export interface Predicted {
  readonly kind: ObservationKind;
  readonly perch: number | null;
  readonly value: number;
}

/** What a model predicts of everything that could be measured on it. */
export function predictedOf(model: Model, readings: Readings): readonly Predicted[] {
  const unit = fillUp(unmeasured(model.site.axle, null), model);
  // Only a helper can be missing from a model, and then none is observed.
  return observationsOf(unit, readings).map(({ kind, perch, predict }) => {
    return { kind, perch, value: predict(model, TRUE_MARKS) as number };
  });
}

/** A unit with every measurement that could be made on it, and what a model predicts of each. */
import { perchFor } from '../corner/balance.ts';
import { geometryOf } from '../corner/geometry.ts';
import type { Model } from '../tolerance/inputs.ts';
import type { MeasuredUnit, Readings } from './measured.ts';
import { unmeasured } from './measured.ts';
import { type ObservationKind, observationsOf, TRUE_MARKS } from './observations.ts';

/** The unit filled up with whatever was not measured; the values filled in are placeholders. */
export function everything(unit: MeasuredUnit, { corner, site }: Model): MeasuredUnit {
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
  const unit = everything(unmeasured(model.site.axle, null), model);
  // Only a helper can be missing from a model, and then none is observed.
  return observationsOf(unit, readings).map(({ kind, perch, predict }) => {
    return { kind, perch, value: predict(model, TRUE_MARKS) as number };
  });
}

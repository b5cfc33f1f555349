import { expect, test } from 'vitest';
import { type Cause, partCauses } from '../../../src/audit/fit/causes.ts';
import type { Expectation } from '../../../src/audit/fit/expectation.ts';
import { tellingMeasurement } from '../../../src/audit/fit/likeliest.ts';
import { type MeasuredUnit, unmeasured } from '../../../src/audit/fit/measured.ts';
import { fillUp, predictedOf, TRUE_MARKS } from '../../../src/audit/fit/observations.ts';
import { type AxleOptions, FAMILIES } from '../../../src/model/scenario.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { READINGS } from './builds.ts';

const base = plainCorner();
const helper = { name: 'h', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60 };
const withHelper = plainCorner({ helper: { ...helper, coupler: 4, couplerBore: 60 } });
const wire = {
  diameter: 9,
  activeCoils: 5.8,
  totalCoils: 7.8,
  material: 'chrome_silicon',
  materialGiven: true,
  estimated: false,
};
const model = { site: plainSite(), corner: base };
const full = { site: plainSite(), corner: { ...withHelper, spring: { ...base.spring, wire } } };
const nothing = unmeasured('front', null);

test('what was not measured is filled up from the parts, what was measured stays', () => {
  const filled = fillUp(nothing, full);
  expect(filled).toMatchObject({
    ...{ freeLength: 220, rate: 38, helperFreeLength: 50, sleeveLength: 140, stopLength: 38, wheelLoad: 268 },
    coil: { wire: 9, coils: 7.8 },
    lowestPerch: 179,
  });
  // A spring whose wire is unknown still has coils to measure.
  expect(fillUp(nothing, model).coil).not.toBeNull();
  expect(fillUp(nothing, model).helperFreeLength).toBeNull();
  expect(fillUp(filled, model)).toEqual(filled);
});

test('what was measured stays, whatever it is; what is filled in reads nothing', () => {
  const measured: MeasuredUnit = {
    ...{ axle: 'front', side: 'left', freeLength: 1, rate: 2, helperFreeLength: 3, sleeveLength: 4, stopLength: 5 },
    ...{ lowestPerch: 6, sleeveToSeat: { distance: 7, damperLength: 8 }, extendedGap: 9, wheelLoad: 10 },
    ...{ coil: { wire: 11, coils: 12, ends: 'plain' }, snugGaps: [{ perch: 13, gap: 14 }] },
    standing: [{ perch: 15, rideHeight: 16 }],
  };
  expect(fillUp(measured, full)).toEqual(measured);
  const { sleeveToSeat, extendedGap, snugGaps } = fillUp(nothing, full);
  expect([sleeveToSeat?.distance, extendedGap, snugGaps[0]?.gap]).toEqual([0, 0, 0]);
});

test('gaps and heights that were measured are not filled up with others, however many', () => {
  const snugGaps = [{ perch: 190, gap: 12 }];
  const standing = [{ perch: 195, rideHeight: 330 }];
  expect(fillUp({ ...nothing, snugGaps, standing }, model)).toMatchObject({ snugGaps, standing });
  const filled = fillUp(nothing, model);
  expect([filled.snugGaps, filled.standing].map((list) => list.length)).toEqual([1, 1]);
  // Lowest place of the perch, by hand: 160 + 8 + 11.
  expect(filled.snugGaps[0]?.perch).toBe(179);
  expect(filled.standing[0]?.rideHeight).toBe(332);
});

test('everything that could be measured on a model has a prediction, a helper only where there is one', () => {
  const told = (m: typeof model) => predictedOf(m, READINGS);
  const value = (m: typeof model, kind: string) => told(m).find((one) => one.kind === kind)?.value;
  expect(value(full, 'helper_free_length')).toBe(50);
  expect(value(model, 'helper_free_length')).toBeUndefined();
  // Hand arithmetic: 160 + 8 + 11; 474 - (318 + 38).
  expect(value(model, 'lowest_perch')).toBe(179);
  expect(value(model, 'extended_gap')).toBe(118);
  expect(value(model, 'wheel_load')).toBe(268);
  expect(told(model).every((one) => Number.isFinite(one.value))).toBe(true);
});

test('a coupler of no thickness can not be missing', () => {
  const options = Object.fromEntries(FAMILIES.map((f) => [f, [withHelper[f]]])) as unknown as AxleOptions;
  const kinds = (coupler: number) => {
    const corner = { ...withHelper, helper: { ...helper, coupler, couplerBore: 60 } };
    return partCauses({ site: plainSite(), corner }, options).map(({ kind }) => kind);
  };
  expect(kinds(4)).toContain('coupler_missing');
  expect(kinds(0)).not.toContain('coupler_missing');
  expect(kinds(0)).toContain('helper_missing');
});

test('two causes are told apart by what differs most for its reading, a part that one does not have apart', () => {
  const cause = (corner: typeof base): Cause => {
    return { kind: 'helper_missing', detail: '', model: { site: plainSite(), corner }, marks: TRUE_MARKS };
  };
  const telling = (one: typeof base, other: typeof base, unit = nothing) =>
    tellingMeasurement(cause(one), cause(other), { model: full } as Expectation, unit, READINGS);
  const cut = { ...withHelper, sleeve: { ...withHelper.sleeve, trim: 25 } };
  expect(telling(withHelper, cut)?.again).toBe(false);
  // Without the helper its free length can not be held against the other's; the heights can.
  expect(telling(withHelper, base)?.kind).not.toBe('helper_free_length');
  expect(telling(base, withHelper)).toEqual(telling(withHelper, base));
  expect(telling(withHelper, withHelper)).toBeNull();
});

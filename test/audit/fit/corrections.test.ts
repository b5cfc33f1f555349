import { expect, test } from 'vitest';
import { auditUnit, NOTES } from '../../../src/audit/fit/audit.ts';
import { correct, infer } from '../../../src/audit/fit/corrections.ts';
import { type MeasuredUnit, unmeasured } from '../../../src/audit/fit/measured.ts';
import { type Marks, observationsOf, TRUE_MARKS } from '../../../src/audit/fit/observations.ts';
import { PARAMETERS, readParameter, withParameter } from '../../../src/audit/fit/parameters.ts';
import { perchFor } from '../../../src/model/corner/balance.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { plainCorner, plainHelper, plainSite } from '../../setup/corners.ts';
import { chosen, READINGS } from './builds.ts';

const model = { site: plainSite(), corner: plainCorner() };

test('every parameter that is set reads back, and changes nothing but itself', () => {
  const helper = plainHelper;
  const full = { ...model, corner: plainCorner({ helper }) };
  for (const name of PARAMETERS.filter((n) => n !== 'motion_offset')) {
    const before = readParameter(full, name) as number;
    const after = withParameter(full, name, before + 3);
    expect(readParameter(after, name)).toBeCloseTo(before + 3, 12);
    for (const other of PARAMETERS.filter((n) => n !== name)) {
      expect([name, other, readParameter(after, other)]).toEqual([name, other, readParameter(full, other)]);
    }
  }
});

test('a sleeve longer than bought was bought longer, a shorter one is cut', () => {
  const cut = withParameter(model, 'sleeve_length', 120).corner.sleeve;
  expect([cut.length, cut.trim]).toEqual([140, 20]);
  const long = withParameter(model, 'sleeve_length', 141).corner.sleeve;
  expect([long.length, long.trim]).toEqual([141, 0]);
});

test('another wheel load moves every load state with it', () => {
  const loads = [{ name: 'two up', sprungMass: 257, sprungLoad: 257 * 9.80665 }];
  const site = plainSite({ loads, heaviestLoad: 257 * 9.80665 });
  const heavier = withParameter({ site, corner: model.corner }, 'wheel_load', 278).site;
  expect(heavier.sprungMass).toBe(247);
  expect(heavier.loads[0]?.sprungMass).toBe(267);
  expect(heavier.heaviestLoad).toBeCloseTo(267 * 9.80665, 9);
});

test('what can not be used is named, and why', async () => {
  const unit = {
    ...unmeasured('front', null),
    helperFreeLength: 50,
    freeLength: 70,
    standing: [{ perch: 200, rideHeight: 270 }],
  };
  const result = correct(model, unit, observationsOf(unit, READINGS));
  // No helper in these parts; 70 mm is less than the solid height of 76 mm; at 270 mm the car leans on a stop without a curve.
  expect(result.unused).toEqual([
    { by: 'free_length', why: 'solid not shorter' },
    { by: 'helper_free_length', why: 'no helper' },
    { by: 'ride_height', why: 'on the stop' },
  ]);
  expect(result.corrections).toEqual([]);
});

test('a solid height must be less than the free length, either way', () => {
  const after = (measured: Partial<MeasuredUnit>) => {
    const unit = { ...unmeasured('front', null), ...measured };
    const { unused, corrections } = correct(model, unit, observationsOf(unit, READINGS));
    return [
      unused.map(({ by, why }) => `${by}: ${why}`),
      corrections.map(({ parameter, to }) => `${parameter}: ${to}`),
    ];
  };
  const coil = (coils: number) => ({ wire: 10, coils, ends: 'closed_ground' as const });
  // 220 mm free, 76 mm solid as given.
  expect(after({ coil: coil(21.9) })).toEqual([[], ['solid_height: 219']]);
  expect(after({ coil: coil(22) })).toEqual([['solid_height: solid not shorter'], []]);
  expect(after({ freeLength: 76.5 })).toEqual([[], ['free_length: 76.5']]);
  expect(after({ freeLength: 76 })).toEqual([['free_length: solid not shorter'], []]);
  // Any other measurement may be as long as it likes.
  expect(after({ sleeveLength: 300 })).toEqual([[], ['sleeve_length: 300']]);
  expect(after({ rate: 10 })).toEqual([[], ['rate: 10']]);
});

test('a height read above its mark is taken for what it is; one that nothing explains is left out', () => {
  const perch = perchFor(model.site, model.corner, geometryOf(model.site, model.corner), 332, model.site.sprungLoad);
  const stood = (perchRead: number, rideHeight: number, marks: Partial<Marks> = {}) => {
    const unit = {
      ...unmeasured('front', null),
      rate: 38,
      wheelLoad: 268,
      standing: [{ perch: perchRead, rideHeight }],
    };
    return correct(model, unit, observationsOf(unit, READINGS), { ...TRUE_MARKS, ...marks });
  };
  const offset = (found: ReturnType<typeof stood>) =>
    found.corrections.find(({ parameter }) => parameter === 'motion_offset')?.to;
  expect(offset(stood(perch, 332))).toBeCloseTo(0, 6);
  expect(offset(stood(perch, 337, { rideHeight: 5 }))).toBeCloseTo(0, 6);
  expect(offset(stood(perch + 5, 332, { perch: 5 }))).toBeCloseTo(0, 6);
  const lost = stood(perch + 120, 332);
  expect(lost.unused).toEqual([{ by: 'ride_height', why: 'out of reach' }]);
  expect(offset(lost)).toBeUndefined();
  expect(lost.standing).toMatchObject({ blamed: 'motion_offset', believed: false });
});

test('a gap read with the spring squeezed already is left out', async () => {
  const build = await chosen('hill-hatch', 'rear');
  const unit = { ...unmeasured('rear', null), snugGaps: [{ perch: 150, gap: 96 }], stopLength: 34 };
  const { report } = auditUnit(build.scenario, build.model, build.options, unit, READINGS);
  expect(report.unused.map(({ kind }) => kind)).toEqual(['snug_gap']);
  expect(report.unused[0]?.why).toContain('perch lower');
  expect(report.measurements.map((m) => m.kind)).toEqual(['stop_length']);
  // Nothing was said of sides, so nothing is noted of them.
  expect(report.notes).not.toContain(NOTES.sidesDiffer);
  const sided = auditUnit(build.scenario, build.model, build.options, unit, READINGS, true);
  expect(sided.report.notes).toContain(NOTES.sidesDiffer);
});

test('a ride height that no load within reach leads to infers nothing', () => {
  expect(infer(model, [{ perch: 330, rideHeight: 300 }], 'wheel_load')).toBeNull();
  expect(infer(model, [], 'rate')).toBeNull();
});

test('a helper that the parts do not have can not be set', () => {
  expect(withParameter(model, 'helper_free_length', 50)).toBe(model);
});

test('where the stop meets a proud sleeve the gap says nothing of the body', () => {
  const { sleeve, bumpStop } = plainCorner();
  const corner = plainCorner({
    sleeve: { ...sleeve, ledgeHeight: 200, trim: 0 },
    bumpStop: { ...bumpStop, diameter: 55 },
  });
  const unit = { ...unmeasured('front', null), extendedGap: 80 };
  const result = correct({ site: plainSite(), corner }, unit, observationsOf(unit, READINGS));
  expect(result.unused).toEqual([{ by: 'extended_gap', why: 'stop on sleeve' }]);
});

test('of several heights reached the mean is inferred', () => {
  const { site, corner } = model;
  const perchOf = (m: typeof model, height: number) =>
    perchFor(m.site, m.corner, geometryOf(m.site, m.corner), height, m.site.sprungLoad);
  const softer = withParameter({ site, corner }, 'rate', 36);
  const stiffer = withParameter({ site, corner }, 'rate', 42);
  const standing = [softer, stiffer].map((m) => ({ perch: perchOf(m, 332), rideHeight: 332 }));
  expect(infer(model, standing, 'rate')).toBeCloseTo(39, 6);
});

import { expect, test } from 'vitest';
import { auditUnit } from '../../../src/domain/audit/audit.ts';
import { corrected } from '../../../src/domain/audit/corrections.ts';
import { inferred } from '../../../src/domain/audit/inference.ts';
import { unmeasured } from '../../../src/domain/audit/measured.ts';
import { observationsOf } from '../../../src/domain/audit/observations.ts';
import { PARAMETERS, readParameter, withParameter } from '../../../src/domain/audit/parameters.ts';
import { perchFor } from '../../../src/domain/corner/balance.ts';
import { geometryOf } from '../../../src/domain/corner/geometry.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { chosen, READINGS } from './builds.ts';

const model = { site: plainSite(), corner: plainCorner() };

test('every parameter that is set reads back, and changes nothing but itself', () => {
  const helper = {
    name: 'h',
    price: null,
    freeLength: 50,
    blockHeight: 12,
    rate: 3,
    bore: 60,
    coupler: 4,
    couplerBore: 60,
  };
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
  const result = corrected(model, unit, observationsOf(unit, READINGS));
  // No helper in these parts; 70 mm is less than the solid height of 76 mm; at 270 mm the car leans on a stop without a curve.
  expect(result.unused).toEqual([
    { by: 'free_length', why: 'solid not shorter' },
    { by: 'helper_free_length', why: 'no helper' },
    { by: 'ride_height', why: 'on the stop' },
  ]);
  expect(result.corrections).toEqual([]);
});

test('a gap read with the spring squeezed already is left out', async () => {
  const build = await chosen('hill-hatch', 'rear');
  const unit = { ...unmeasured('rear', null), snugGaps: [{ perch: 150, gap: 96 }], stopLength: 34 };
  const { report } = auditUnit(build.scenario, build.model, build.options, unit, READINGS);
  expect(report.unused.map(({ kind }) => kind)).toEqual(['snug_gap']);
  expect(report.unused[0]?.why).toContain('perch lower');
  expect(report.measurements.map((m) => m.kind)).toEqual(['stop_length']);
});

test('a ride height that no load within reach leads to infers nothing', () => {
  expect(inferred(model, [{ perch: 330, rideHeight: 300 }], 'wheel_load')).toBeNull();
  expect(inferred(model, [], 'rate')).toBeNull();
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
  const result = corrected({ site: plainSite(), corner }, unit, observationsOf(unit, READINGS));
  expect(result.unused).toEqual([{ by: 'extended_gap', why: 'stop on sleeve' }]);
});

test('of several heights reached the mean is inferred', () => {
  const { site, corner } = model;
  const perchOf = (m: typeof model, height: number) =>
    perchFor(m.site, m.corner, geometryOf(m.site, m.corner), height, m.site.sprungLoad);
  const softer = withParameter({ site, corner }, 'rate', 36);
  const stiffer = withParameter({ site, corner }, 'rate', 42);
  const standing = [softer, stiffer].map((m) => ({ perch: perchOf(m, 332), rideHeight: 332 }));
  expect(inferred(model, standing, 'rate')).toBeCloseTo(39, 6);
});

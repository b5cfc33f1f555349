import { expect, test } from 'vitest';
import type { SolidHeight } from '../../../src/model/parts.ts';
import { judged, toleranceBands, toleranceMoves } from '../../../src/result/tolerance/bands.ts';
import { type Model, TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { bentMotion, noTolerances, plainCorner, straightMotion } from '../../setup/corners.ts';
import { loaded, plain, tolerances } from './models.ts';

test('the bands of a linear chain are those of hand arithmetic', () => {
  const only = { ...tolerances, freeLength: 0, rateShare: 0, wheelLoadShare: 0, motionRatioShare: 0, gasShare: 0 };
  const band = toleranceBands(plain, only).clearance_damper_mm;
  // c = B + 0.4 b - l_in: body 1, stop 0.4 x 1, closed fraction 38 x 0.03, damper 1.
  expect(band?.worstHigh).toBeCloseTo(13.2 + 1 + 0.4 + 1.14 + 1, 9);
  expect(band?.rssLow).toBeCloseTo(13.2 - Math.hypot(1, 0.4, 1.14, 1), 9);
  expect(band?.contributor.id).toBe('closed_fraction');
});

test('the thinnest spare has the band of the contact that is thinnest, and names what moves that one', () => {
  const bands = toleranceBands(plain, tolerances);
  // Coil bind keeps 8.7 mm, the damper 13.2: both are known by hand in other tests.
  const [bind, damper] = [bands.clearance_coil_bind_mm, bands.clearance_damper_mm];
  expect(bind?.nominal).toBeLessThan(damper?.nominal ?? Number.NaN);
  expect(bind?.contributor.id).not.toBe(damper?.contributor.id);
  // Margins of 6 and 3 mm.
  expect(bands.thinnest_spare_mm?.nominal).toBeCloseTo((bind?.nominal ?? Number.NaN) - 6, 9);
  expect(bands.thinnest_spare_mm?.contributor).toEqual({
    ...bind?.contributor,
    by: expect.closeTo(bind?.contributor.by ?? 0, 9),
  });
  expect(bands.thinnest_spare_mm?.worstLow).toBeCloseTo((bind?.worstLow ?? Number.NaN) - 6, 9);
});

test('what does not exist for a corner has no moves', () => {
  // A gas that carries the whole car leaves the spring loose and the corner without a rate.
  const gas = { kind: 'linear', outForce: 3000, inForce: 3000 } as const;
  const site = { ...plain.site, motion: straightMotion };
  const floating = { site, corner: plainCorner({ damper: { ...plain.corner.damper, gas } }) };
  const keysOf = (model: Model) => toleranceMoves(model, tolerances).map(({ key }) => key);
  const contacts = ['coil_bind', 'damper', 'sleeve_isolator', 'tyre_arch'].map((name) => `clearance_${name}_mm`);
  const travels = ['perch_mm', 'bump_travel_mm', 'droop_travel_mm', 'slack_mm'];
  expect(keysOf(plain)).toEqual([...travels, 'body_frequency_hz', 'ride_frequency_hz', ...contacts]);
  expect(keysOf(floating)).toEqual([...travels, ...contacts]);
  for (const { key, moves } of toleranceMoves(floating, tolerances)) {
    for (const { down, up } of moves) expect(down >= 0 && up >= 0, key).toBe(true);
  }
});

test('an estimated solid height is as uncertain as its estimate', () => {
  const bandOf = (solid: Partial<SolidHeight>, given = tolerances) =>
    toleranceBands({ ...plain, corner: plainCorner({ spring: { solid } }) }, given).clearance_coil_bind_mm;
  const estimated = { source: 'estimated' as const, height: 82, least: 70, most: 82, thinWire: 8, thickWire: 9 };
  expect(bandOf(estimated)?.contributor).toMatchObject({ id: 'solid_height', by: 12 });
  // Coil bind is judged on the tall end already: nothing makes it worse.
  const sure = { ...tolerances, solidHeight: 0 };
  const measured = bandOf({ height: 82, least: 82, most: 82 }, sure);
  expect(bandOf(estimated, sure)?.worstLow).toBeCloseTo(measured?.worstLow as number, 9);
});

test('each input leaves the model it is given alone', () => {
  for (const model of [plain, loaded]) {
    const before = JSON.stringify(model);
    for (const input of TOLERANCE_INPUTS) input.moved(model, 0.01);
    expect(JSON.stringify(model)).toBe(before);
  }
});

test('where every tolerance is 0 nothing has a band', () => {
  expect(toleranceBands(plain, noTolerances)).toEqual({});
});

test('where a tolerance tips the corner over, its window has no end there to widen the band', () => {
  const bent = (bend: number): Model => ({ ...plain, site: { ...plain.site, motion: bentMotion(0.9, bend * 1e-4) } });
  const stable = Array.from({ length: 60 }, (_, bend) => bent(bend)).filter((m) => judged(m).window !== null);
  const model = stable.at(-1) as Model;
  const bands = toleranceBands(model, { ...noTolerances, wheelLoadShare: 0.3 });
  expect(Number.isFinite(bands.lowest_height_mm?.worstHigh)).toBe(true);
});

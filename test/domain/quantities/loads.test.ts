import { expect, test } from 'vitest';
import { motionCurve } from '../../../src/domain/motion.ts';
import { loadQuantities } from '../../../src/domain/quantities/loads.ts';
import { valuesOf } from '../../../src/domain/quantities/quantity.ts';
import { workingOf } from '../../../src/domain/reporting/combination.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

test('load states are numbered in their order; each stands lower by its load over the wheel rate', () => {
  const motion = motionCurve({ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: 0.945 });
  const loads = [20, -40].map((kg, k) => {
    return { name: `state ${k + 1}`, sprungMass: 237 + kg, sprungLoad: (237 + kg) * 9.80665 };
  });
  const corner = plainCorner({ damper: { ...plainCorner().damper, gas: { kind: 'none' } } });
  const working = workingOf(plainSite({ motion, loads }), corner);
  const values = valuesOf(loadQuantities(['two up', 'empty']), working);
  const wheel = 38 * 0.945 ** 2;
  const lower = (20 * 9.80665) / wheel;
  expect(Object.keys(values)).toHaveLength(8);
  expect(values.load_1_height_mm).toBeCloseTo(332 - lower, 6);
  expect(values.load_2_height_mm).toBeCloseTo(332 + 2 * lower, 6);
  expect(values.load_1_bump_travel_mm).toBeCloseTo(working.state.bumpTravel - lower, 6);
  expect(values.load_1_droop_travel_mm).toBeCloseTo(working.state.droopTravel + lower, 6);
  expect(values.load_2_frequency_hz).toBeCloseTo(Math.sqrt((1000 * wheel) / 197) / (2 * Math.PI), 9);
});

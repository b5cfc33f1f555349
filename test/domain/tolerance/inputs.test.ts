import { expect, test } from 'vitest';
import { springRate } from '../../../src/domain/formula/coil.ts';
import { resolveSpring, type SpringGiven } from '../../../src/domain/spring.ts';
import { rateHalfWidth, TOLERANCE_INPUTS } from '../../../src/domain/tolerance/inputs.ts';
import { plainCorner } from '../../setup/corners.ts';

const SCRAP: SpringGiven = {
  ...{ name: 'from the heap', price: null, freeLength: 240, rate: null, bore: 60, solidHeight: null },
  ...{ wire: 9, totalCoils: 7.8, ends: 'closed_ground' as SpringGiven['ends'], coating: 0 },
  estimate: { material: 'chrome_silicon', shearModulus: 79_300, thinStressShare: 0.56, thickStressShare: 0.45 },
};

test('a catalogued rate keeps its tolerance; one computed from geometry is wider, and never narrower than asked', () => {
  const catalogue = plainCorner().spring;
  expect(rateHalfWidth(catalogue, 0.05)).toBe(0.05);
  const scrap = {
    ...catalogue,
    wire: { diameter: 9, totalCoils: 7.8, activeCoils: 5.8, material: '', estimated: false },
    rateEstimated: true,
  };
  // By hand: 0.03 + (4/9 - 3/69) 0.05 + 3 x 0.3/69 + 0.25/5.8
  expect(rateHalfWidth(scrap, 0.05)).toBeCloseTo(0.03 + 0.020048 + 0.013043 + 0.043103, 5);
  expect(rateHalfWidth(scrap, 0.2)).toBe(0.2);
});

test('it is the change of the rate formula itself when wire, bore, coils and G are all misread the stiff way', () => {
  const scrap = {
    ...plainCorner().spring,
    wire: { diameter: 9, totalCoils: 7.8, activeCoils: 5.8, material: '', estimated: false },
    rateEstimated: true,
  };
  const rate = (G: number, d: number, bore: number, n: number) => springRate(G, d, bore + d, n);
  const stiff = rate(79_300 * 1.03, 9.05, 60 - 0.3, 5.8 - 0.25) / rate(79_300, 9, 60, 5.8) - 1;
  const soft = 1 - rate(79_300 / 1.03, 8.95, 60.3, 5.8 + 0.25) / rate(79_300, 9, 60, 5.8);
  const half = rateHalfWidth(scrap, 0);
  expect((stiff + soft) / 2).toBeCloseTo(half, 2);
});

test('the tolerance study steps an estimated rate by its own half-width', () => {
  const spring = resolveSpring({ ...SCRAP, estimate: { ...SCRAP.estimate } });
  expect(spring.rateEstimated).toBe(true);
  const corner = plainCorner({ spring });
  const row = TOLERANCE_INPUTS.find((input) => input.id === 'rate');
  const tolerances = { rateShare: 0.05 } as Parameters<NonNullable<typeof row>['halfWidth']>[1];
  const model = { site: {}, corner } as Parameters<NonNullable<typeof row>['halfWidth']>[0];
  expect(row?.halfWidth(model, tolerances)).toBe(rateHalfWidth(spring, 0.05));
  expect(rateHalfWidth(spring, 0.05)).toBeGreaterThan(0.08);
});

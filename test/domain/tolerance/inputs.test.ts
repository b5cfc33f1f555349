import { describe, expect, test } from 'vitest';
import { springRate } from '../../../src/domain/formula/coil.ts';
import { resolveSpring, type SpringGiven } from '../../../src/domain/spring.ts';
import { rateHalfWidth, TOLERANCE_INPUTS } from '../../../src/domain/tolerance/inputs.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

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

describe('gas', () => {
  const base = plainCorner();
  const row = TOLERANCE_INPUTS.find((input) => input.id === 'gas') as (typeof TOLERANCE_INPUTS)[number];
  const tolerances = { gasShare: 0.15 } as Parameters<typeof row.halfWidth>[1];
  const model = (gas: typeof base.damper.gas) => ({
    site: plainSite(),
    corner: plainCorner({ damper: { ...base.damper, gas } }),
  });
  const moved = (gas: typeof base.damper.gas) => row.moved(model(gas), 0.1).corner.damper.gas;

  test('a damper without gas has no gas to be off by', () => {
    expect(row.halfWidth(model({ kind: 'none' }), tolerances)).toBeNull();
    expect(moved({ kind: 'none' })).toEqual({ kind: 'none' });
  });

  test('pushes and pressures are off by a share of themselves', () => {
    expect(row.halfWidth(model(base.damper.gas), tolerances)).toBe(0.15);
    expect(row.halfWidth(model(base.damper.gas), { ...tolerances, gasShare: 0 })).toBeNull();
    expect(moved({ kind: 'linear', outForce: 100, inForce: 200 })).toMatchObject({
      outForce: expect.closeTo(110, 9),
      inForce: expect.closeTo(220, 9),
    });
    expect(moved({ kind: 'linear', outForce: 100, inForce: null })).toMatchObject({ inForce: null });
    const charge = { chargePressure: 2, rodArea: 150, gasVolume: 110_000, chargeTemperature: 20 };
    expect(moved({ kind: 'charge', ...charge })).toMatchObject({
      chargePressure: expect.closeTo(2.2, 9),
      rodArea: 150,
    });
  });
});

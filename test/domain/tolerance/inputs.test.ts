import { describe, expect, test } from 'vitest';
import { springRate } from '../../../src/domain/formula/coil.ts';
import { baseAt, ratioAt } from '../../../src/domain/motion.ts';
import type { Damper, Helper } from '../../../src/domain/parts.ts';
import type { Tolerances } from '../../../src/domain/scenario.ts';
import { resolveSpring, type SpringGiven } from '../../../src/domain/spring.ts';
import { type Model, rateHalfWidth, TOLERANCE_INPUTS } from '../../../src/domain/tolerance/inputs.ts';
import { plainCorner, plainHelper, plainSite } from '../../setup/corners.ts';

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

/** What each input is, read from a model; shares of it where the input's tolerance is one. */
const READ: Readonly<Record<string, (model: Model) => number>> = {
  free_length: ({ corner }) => corner.spring.freeLength,
  rate: ({ corner }) => corner.spring.rate / 38,
  solid_height: ({ corner }) => corner.spring.solid.height,
  helper_free_length: ({ corner }) => (corner.helper as Helper).freeLength,
  helper_rate: ({ corner }) => (corner.helper as Helper).rate / 3,
  helper_block: ({ corner }) => (corner.helper as Helper).blockHeight,
  damper_extended: ({ corner }) => corner.damper.extended,
  damper_compressed: ({ corner }) => corner.damper.compressed,
  body_length: ({ corner }) => corner.damper.bodyLength,
  gas: ({ corner }) => (corner.damper.gas as Extract<Damper['gas'], { kind: 'linear' }>).outForce / 160,
  ledge_height: ({ corner }) => corner.sleeve.ledgeHeight,
  sleeve_cut: ({ corner }) => corner.sleeve.length - corner.sleeve.trim,
  perch_height: ({ corner }) => corner.perch.height + corner.perch.lockRing,
  stop_length: ({ corner }) => corner.bumpStop.length,
  closed_fraction: ({ corner }) => corner.bumpStop.closedFraction,
  raise: ({ corner }) => corner.mount.raise,
  flange_depth: ({ corner }) => corner.mount.flangeDepth,
  isolator_thickness: ({ corner }) => (corner.isolator as NonNullable<typeof corner.isolator>).thickness,
  wheel_load: ({ site }) => (site.sprungMass + site.unsprungMass) / 268,
  motion_length: ({ site }) => baseAt(site.motion, 332),
  motion_ratio: ({ site }) =>
    (ratioAt(site.motion, 332) - ratioAt(plainSite().motion, 332)) / site.motion.ratioAtMiddle,
};

test('each input goes up by what it is off by, and down by as much, and nothing else of the list moves', () => {
  const helper = plainHelper;
  const model: Model = { site: plainSite(), corner: plainCorner({ helper }) };
  expect(TOLERANCE_INPUTS.map(({ id }) => id).sort()).toEqual(Object.keys(READ).sort());
  for (const input of TOLERANCE_INPUTS) {
    for (const by of [0.01, -0.01]) {
      const moved = input.moved(model, by);
      for (const [id, read] of Object.entries(READ)) {
        const change = read(moved) - read(model);
        expect(change, `${input.id} by ${by}: ${id}`).toBeCloseTo(id === input.id ? by : 0, 3);
      }
    }
  }
});

test('a wheel that weighs more carries it in every load state, the unsprung mass apart', () => {
  const loads = [{ name: 'two up', sprungMass: 257, sprungLoad: 257 * 9.80665 }];
  const site = plainSite({ loads, heaviestLoad: 257 * 9.80665 });
  const row = TOLERANCE_INPUTS.find(({ id }) => id === 'wheel_load');
  const heavier = row?.moved({ site, corner: plainCorner() }, 0.1).site;
  // A tenth of 268 kg.
  expect(heavier?.sprungMass).toBeCloseTo(263.8, 9);
  expect(heavier?.unsprungMass).toBe(31);
  expect(heavier?.sprungLoad).toBeCloseTo(263.8 * 9.80665, 6);
  expect(heavier?.loads[0]?.sprungMass).toBeCloseTo(283.8, 9);
  expect(heavier?.loads[0]?.sprungLoad).toBeCloseTo(283.8 * 9.80665, 6);
  expect(heavier?.heaviestLoad).toBeCloseTo(283.8 * 9.80665, 6);
});

test('an input that a corner does not have, or whose tolerance is 0, has no half-width', () => {
  const names = ['freeLength', 'rateShare', 'solidHeight', 'damperLength', 'body', 'gasShare', 'sleeve', 'perch'];
  const more = ['stopLength', 'closedFraction', 'mount', 'isolator', 'wheelLoadShare', 'motionRatioShare'];
  const all = (value: number) =>
    Object.fromEntries([...names, ...more].map((name) => [name, value])) as unknown as Tolerances;
  const bare: Model = { site: plainSite(), corner: plainCorner({ isolator: null }) };
  const widths = (tolerances: Tolerances) =>
    TOLERANCE_INPUTS.map(({ id, halfWidth }) => [id, halfWidth(bare, tolerances)]);
  expect(widths(all(0)).filter(([, width]) => width !== null)).toEqual([]);
  const missing = widths(all(0.5)).flatMap(([id, width]) => (width === null ? [id] : []));
  expect(missing).toEqual(['helper_free_length', 'helper_rate', 'helper_block', 'isolator_thickness']);
});

test('an estimated solid height is judged on its tall end and steps down by its spread only', () => {
  const row = TOLERANCE_INPUTS.find(({ id }) => id === 'solid_height') as (typeof TOLERANCE_INPUTS)[number];
  const solid = { ...plainCorner().spring.solid, source: 'estimated' as const, height: 76, least: 66 };
  const model: Model = { site: plainSite(), corner: plainCorner({ spring: { ...plainCorner().spring, solid } }) };
  expect(row.halfWidth(model, { solidHeight: 1.5 } as Tolerances)).toBe(10);
  expect(row.halfWidth(model, { solidHeight: 15 } as Tolerances)).toBe(15);
  expect(row.moved(model, 10).corner.spring.solid.height).toBe(76);
  expect(row.moved(model, -10).corner.spring.solid.height).toBe(66);
});

test('a shoulder that stands higher does so with its spacer and without', () => {
  const row = TOLERANCE_INPUTS.find(({ id }) => id === 'raise') as (typeof TOLERANCE_INPUTS)[number];
  const mount = { ...plainCorner().mount, spacer: 8, raise: 20, bareRaise: 12 };
  const { corner } = row.moved({ site: plainSite(), corner: plainCorner({ mount }) }, 0.75);
  expect(corner.mount).toEqual({ ...mount, raise: 20.75, bareRaise: 12.75 });
});

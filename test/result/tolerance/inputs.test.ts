import { describe, expect, test } from 'vitest';
import { springRate } from '../../../src/model/formula/coil.ts';
import { baseAt, motionCurve, ratioAt } from '../../../src/model/motion.ts';
import type { Damper, Helper } from '../../../src/model/parts.ts';
import type { Tolerances } from '../../../src/model/scenario.ts';
import { resolveSpring, type SpringGiven } from '../../../src/model/spring/spring.ts';
import {
  type Model,
  offBy,
  rateHalfWidth,
  TOLERANCE_INPUTS,
  type Width,
} from '../../../src/result/tolerance/inputs.ts';
import {
  loadState,
  noTolerances as none,
  plainCorner,
  plainHelper,
  plainSite,
  plainWire,
  stopCurve,
} from '../../setup/corners.ts';

const inputOf = (id: string) => TOLERANCE_INPUTS.find((input) => input.id === id) as (typeof TOLERANCE_INPUTS)[number];

const SCRAP: SpringGiven = {
  ...{ name: 'from the heap', price: null, freeLength: 240, rate: null, bore: 60, solidHeight: null },
  ...{ wire: 9, totalCoils: 7.8, ends: 'closed_ground' as SpringGiven['ends'], coating: 0 },
  estimate: {
    material: 'chrome_silicon',
    grade: null,
    shearModulus: 79_300,
    thinStressShare: 0.56,
    thickStressShare: 0.45,
  },
};

test('a catalogued rate keeps its tolerance; one computed from geometry is wider, and never narrower than asked', () => {
  const catalogue = plainCorner().spring;
  expect(rateHalfWidth(catalogue, 0.05)).toBe(0.05);
  const scrap = { ...catalogue, wire: { ...plainWire, material: '' }, rateEstimated: true };
  // By hand: 0.03 + (4/9 - 3/69) 0.05 + 3 x 0.3/69 + 0.25/5.8
  expect(rateHalfWidth(scrap, 0.05)).toBeCloseTo(0.03 + 0.020048 + 0.013043 + 0.043103, 5);
  expect(rateHalfWidth(scrap, 0.2)).toBe(0.2);
});

test('it is the change of the rate formula itself when wire, bore, coils and G are all misread the stiff way', () => {
  const { spring: scrap } = plainCorner({ spring: { wire: { ...plainWire, material: '' }, rateEstimated: true } });
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
  const row = inputOf('rate');
  const half = rateHalfWidth(spring, 0.05);
  expect(row.width({ site: plainSite(), corner }, { ...none, rateShare: 0.05 })).toEqual({ down: half, up: half });
  expect(rateHalfWidth(spring, 0.05)).toBeGreaterThan(0.08);
});

describe('gas', () => {
  const base = plainCorner();
  const row = inputOf('gas');
  const tolerances = { ...none, gasShare: 0.15 };
  const model = (gas: typeof base.damper.gas) => ({ site: plainSite(), corner: plainCorner({ damper: { gas } }) });
  const moved = (gas: typeof base.damper.gas) => row.moved(model(gas), 0.1).corner.damper.gas;

  test('a damper without gas has no gas to be off by', () => {
    expect(row.width(model({ kind: 'none' }), tolerances)).toBeNull();
    expect(moved({ kind: 'none' })).toEqual({ kind: 'none' });
  });

  test('pushes and pressures are off by a share of themselves', () => {
    expect(row.width(model(base.damper.gas), tolerances)).toEqual({ down: 0.15, up: 0.15 });
    expect(row.width(model(base.damper.gas), { ...tolerances, gasShare: 0 })).toBeNull();
    expect(moved({ kind: 'linear', outForce: 100, inForce: 200 })).toMatchObject({
      outForce: expect.closeTo(110, 9),
      inForce: expect.closeTo(220, 9),
    });
    expect(moved({ kind: 'linear', outForce: 100, inForce: null })).toMatchObject({ inForce: null });
    const charge = { chargePressure: 2, rodArea: 150, gasVolume: 110_000 };
    expect(moved({ kind: 'charge', ...charge })).toMatchObject({
      chargePressure: expect.closeTo(2.2, 9),
      rodArea: 150,
    });
  });
});

const plainStop = { curve: stopCurve };

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
  unsprung_mass: ({ site }) => site.unsprungMass / 31,
  tyre_on_arch: ({ site }) => site.tyreOnArchHeight,
  lowest_wheel: ({ site }) => site.lowestWheelHeight as number,
  stop_force: ({ corner }) => (corner.bumpStop.curve?.points.at(-1)?.force ?? 0) / 9000,
  bush_give: ({ corner }) => corner.mount.bushGive,
  spring_bore: ({ corner }) => corner.spring.bore,
  helper_bore: ({ corner }) => (corner.helper as Helper).bore,
  coupler_bore: ({ corner }) => (corner.helper as Helper).couplerBore,
  sleeve_bore: ({ corner }) => corner.sleeve.bore,
  sleeve_diameter: ({ corner }) => corner.sleeve.outerDiameter,
  body_diameter: ({ corner }) => corner.damper.bodyDiameter,
  spigot_diameter: ({ corner }) => corner.perch.spigotDiameter as number,
  mount_bore: ({ corner }) => corner.mount.bore,
  washer_diameter: ({ corner }) => corner.mount.washerDiameter,
  isolator_bore: ({ corner }) => (corner.isolator as NonNullable<typeof corner.isolator>).bore,
  stop_diameter: ({ corner }) => corner.bumpStop.diameter,
  packer_diameter: ({ corner }) => corner.bumpStop.packerDiameter,
  tyre_rate: ({ site }) => site.tyreRate / 190 - 1,
  engagement: ({ corner }) => corner.perch.engagement,
  motion_length: ({ site }) => baseAt(site.motion, 332),
  motion_ratio: ({ site }) =>
    (ratioAt(site.motion, 332) - ratioAt(plainSite().motion, 332)) / site.motion.ratioAtMiddle,
};

test('each input goes up by what it is off by, and down by as much, and nothing else of the list moves', () => {
  const corner = plainCorner({ helper: {}, bumpStop: { curve: stopCurve } });
  const model: Model = { site: plainSite({ lowestWheelHeight: 400 }), corner };
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

test('a ratio that is off turns the whole curve about the target height, beyond three pairs as well', () => {
  const pairs = [300, 330, 360].map((hubToArch, k) => ({ hubToArch, damperLength: 380 + 29 * k - k * k, raise: 0 }));
  const model: Model = { site: plainSite({ motion: motionCurve({ pairs, ratio: null }) }), corner: plainCorner() };
  const turned = inputOf('motion_ratio').moved(model, 0.02);
  const turn = 0.02 * model.site.motion.ratioAtMiddle;
  for (const height of [260, 299, 315, 332, 345, 390]) {
    const moved = baseAt(turned.site.motion, height) - baseAt(model.site.motion, height);
    expect(moved).toBeCloseTo(turn * (height - 332), 9);
  }
});

test('a wheel that weighs more carries it in every load state, the unsprung mass apart', () => {
  const site = plainSite({ loads: [loadState('two up', 257)], heaviestLoad: 257 * 9.80665 });
  const row = inputOf('wheel_load');
  const heavier = row.moved({ site, corner: plainCorner() }, 0.1).site;
  // A tenth of 268 kg.
  expect(heavier.sprungMass).toBeCloseTo(263.8, 9);
  expect(heavier.unsprungMass).toBe(31);
  expect(heavier.sprungLoad).toBeCloseTo(263.8 * 9.80665, 6);
  expect(heavier.loads[0]?.sprungMass).toBeCloseTo(283.8, 9);
  expect(heavier.loads[0]?.sprungLoad).toBeCloseTo(283.8 * 9.80665, 6);
  expect(heavier.heaviestLoad).toBeCloseTo(283.8 * 9.80665, 6);
});

test('an input that a corner does not have, or whose tolerance is 0, has no width', () => {
  const all = (value: number) =>
    Object.fromEntries(Object.keys(none).map((name) => [name, value])) as unknown as Tolerances;
  const corner = plainCorner({ isolator: null, perch: { spigotDiameter: null } });
  const bare: Model = { site: plainSite(), corner };
  const widths = (tolerances: Tolerances, model = bare) =>
    TOLERANCE_INPUTS.flatMap(({ id, width }) => (width(model, tolerances) === null ? [id] : []));
  expect(widths(all(0))).toEqual(TOLERANCE_INPUTS.map(({ id }) => id));
  expect(widths(all(0.5))).toEqual([
    ...['helper_free_length', 'helper_rate', 'helper_block', 'isolator_thickness', 'lowest_wheel', 'stop_force'],
    ...['helper_bore', 'coupler_bore', 'spigot_diameter', 'isolator_bore', 'packer_diameter'],
  ]);
  const helper = { ...plainHelper, coupler: 0 };
  expect(widths(all(0.5), { site: plainSite(), corner: plainCorner({ helper }) })).toEqual([
    ...['lowest_wheel', 'stop_force', 'coupler_bore', 'packer_diameter'],
  ]);
  const packed = { packer: 4, packerDiameter: 40 };
  expect(widths(all(0.5), { site: plainSite(), corner: plainCorner({ bumpStop: packed }) })).not.toContain(
    'packer_diameter',
  );
});

test('an estimated solid height steps down to its thin end and up to its tall one, and draws fill the whole of it', () => {
  const row = inputOf('solid_height');
  const solid = { source: 'estimated' as const, height: 76, least: 66, most: 91 };
  const model: Model = { site: plainSite(), corner: plainCorner({ spring: { solid } }) };
  const width = row.width(model, { ...none, solidHeight: 1.5 }) as Width;
  expect(width).toEqual({ down: 10, up: 15 });
  expect(row.width(model, { ...none, solidHeight: 12 })).toEqual({ down: 12, up: 15 });
  const heightAt = (draw: number) => row.moved(model, offBy(width, draw)).corner.spring.solid.height;
  // Evenly from 66 to 91: the middle of the draws is the middle of the range, not the height judged on.
  expect([-1, 0, 0.2, 1].map(heightAt)).toEqual([66, 78.5, 81, 91]);
});

test('how far a stop closes is surer where its force curve was measured', () => {
  const row = inputOf('closed_fraction');
  const tolerances = { ...none, closedFraction: 0.06, closedFractionOfCurve: 0.03 };
  const at = (bumpStop: typeof plainStop | ReturnType<typeof plainCorner>['bumpStop']) =>
    row.width({ site: plainSite(), corner: plainCorner({ bumpStop }) }, tolerances);
  expect(at(plainCorner().bumpStop)).toEqual({ down: 0.06, up: 0.06 });
  expect(at(plainStop)).toEqual({ down: 0.03, up: 0.03 });
});

test('a bush gives no less than nothing', () => {
  const row = inputOf('bush_give');
  const at = (bushGive: number) =>
    row.width({ site: plainSite(), corner: plainCorner({ mount: { bushGive } }) }, { ...none, bushGive: 1 });
  expect(at(0)).toEqual({ down: 0, up: 1 });
  expect(at(0.4)).toEqual({ down: 0.4, up: 1 });
  expect(at(3)).toEqual({ down: 1, up: 1 });
});

test('a wheel with more unsprung mass has less sprung mass on the same scales, in every load state', () => {
  const site = plainSite({ loads: [loadState('two up', 257)], heaviestLoad: 257 * 9.80665 });
  const row = inputOf('unsprung_mass');
  const moved = row.moved({ site, corner: plainCorner() }, 0.2).site;
  // A fifth of 31 kg is 6.2 kg.
  expect(moved.unsprungMass).toBeCloseTo(37.2, 9);
  expect(moved.sprungMass).toBeCloseTo(230.8, 9);
  expect(moved.sprungLoad).toBeCloseTo(230.8 * 9.80665, 6);
  expect(moved.loads[0]?.sprungLoad).toBeCloseTo(250.8 * 9.80665, 6);
  expect(moved.heaviestLoad).toBeCloseTo(250.8 * 9.80665, 6);
});

test('a shoulder that stands higher does so with its spacer and without', () => {
  const row = inputOf('raise');
  const raised = plainCorner({ mount: { spacer: 8, raise: 20, bareRaise: 12 } });
  const { corner } = row.moved({ site: plainSite(), corner: raised }, 0.75);
  expect(corner.mount).toEqual({ ...raised.mount, raise: 20.75, bareRaise: 12.75 });
});

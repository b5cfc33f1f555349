/** What can be left out of the fixture, given: every optional field arrives under the name the model uses. */

import { expect, test } from 'vitest';
import { product } from '../../../src/input/assemble/parts.ts';
import type { Axle } from '../../../src/model/scenario.ts';
import { type Edit, scenarioOf } from '../edit.ts';

const frontOf = async (edits: readonly Edit[]): Promise<Axle> => (await scenarioOf(edits)).axles.front;

test('a force-velocity table is sorted by velocity', async () => {
  const table =
    'force_velocity: [{ velocity: 300 mm/s, bump: 600 N, rebound: 1 kN }, { velocity: 0.05 m/s, bump: 200 N, rebound: 420 N }]';
  const front = await frontOf([['price: 0', `price: 0\n        ${table}`]]);
  expect(front.options.damper[0]?.forceVelocity).toEqual([
    { velocity: 0.05, bump: 200, rebound: 420 },
    { velocity: 0.3, bump: 600, rebound: 1000 },
  ]);
});

test('no gas, and a gas force given out only', async () => {
  const none = await frontOf([['gas: { out: 180 N, in: 240 N }', 'gas: none']]);
  expect(none.options.damper[0]?.gas).toEqual({ kind: 'none' });
  const constant = await frontOf([['gas: { out: 180 N, in: 240 N }', 'gas: { out: 40 lbf }']]);
  // 4.448222 N per lbf (NIST SP 811, Appendix B.8).
  expect(constant.options.damper[0]?.gas).toMatchObject({ kind: 'linear', inForce: null });
  expect(constant.options.damper[0]?.gas).toHaveProperty('outForce', expect.closeTo(177.9289, 4));
});

test('a rod area may stand in place of the rod diameter', async () => {
  const { axles } = await scenarioOf([['rod_diameter: 14 mm', 'rod_area: 154 mm2']]);
  expect(axles.rear.options.damper[0]?.gas).toHaveProperty('rodArea', 154);
});

test('bushes, roll data and rod ends are carried over', async () => {
  const rodEnd =
    '{ name: M12, thread_start: 20 mm, thread_end: 50 mm, plate_thickness: 5 mm, upper_bush: 8 mm, upper_washers: 3 mm, nut: 10 mm, jam_nut: [0 mm, 6 mm] }';
  const front = await frontOf([
    [
      'tyre_on_arch: 250 mm',
      `tyre_on_arch: 250 mm
    bushes: { rate: 2 N/mm, unloaded_height: 340 mm }
    roll: { track: 1480 mm, roll_centre_height: -20 mm, bar_rate: 0 N/mm }
    rod_ends: [none, ${rodEnd}]`,
    ],
  ]);
  expect(front.bushes).toEqual({ rate: 2, unloadedHeight: 340 });
  expect(front.roll).toEqual({ track: 1480, rollCentreHeight: -20, barRate: 0 });
  expect(front.options.rodEnd.map((end) => end?.jamNut ?? null)).toEqual([null, 0, 6]);
  expect(front.options.rodEnd[1]).toEqual({
    ...{ name: 'M12', price: null, threadStart: 20, threadEnd: 50, plateThickness: 5 },
    ...{ upperBush: 8, upperWashers: 3, nut: 10, jamNut: 0 },
  });
});

test('without a packer its diameter is 0 and its swept diameters are one choice', async () => {
  const packer = 'closed_fraction: 0.4\n    packer: [0 mm, 8 mm]\n    packer_diameter: [40 mm, 50 mm]';
  const front = await frontOf([
    ['closed_fraction: 0.4', packer],
    ['cut_length: { from: 30 mm, to: 60 mm, step: 10 mm }', 'cut_length: 45 mm'],
  ]);
  expect(front.options.bumpStop.map((stop) => [stop.packer, stop.packerDiameter])).toEqual([
    [0, 0],
    [8, 40],
    [8, 50],
  ]);
});

test('an uncut stop keeps its length as bought', async () => {
  const cut: Edit = ['    cut_length: { from: 30 mm, to: 60 mm, step: 10 mm }\n', ''];
  const { axles, assumptions } = await scenarioOf([cut]);
  expect(axles.front.options.bumpStop[0]).toMatchObject({ length: 60, uncutLength: 60 });
  expect(assumptions).toContainEqual(
    expect.objectContaining({ field: 'axles.front.bump_stops[1].cut_length', value: 'not given: not cut' }),
  );
});

test('margins, ranking, tolerances and targets keep what is given', async () => {
  const settings = `
ranking: { weights: { price: 2, clearance: 0, front_frequency: 1 }, price: { good: 400, worst: 900 }, keep: 5 }
tolerances: { rate: 4 %, closed_fraction: 0.05, gas: 20 % }
`;
  const { ranking, tolerances, setups } = await scenarioOf([
    ['\nsetups:', `${settings}\nsetups:`],
    [
      'frequency: { from: 1.6 Hz, to: 2.6 Hz }',
      'frequency: { from: 96 cpm, to: 2.6 Hz, wanted: 2 Hz }\n      damping_ratio: { from: 0.3, to: 0.8 }\n      allowed_slack: 3 mm',
    ],
    ['gas: { out', 'price: 0\n        gas: { out'],
    ['        price: 0\n    mounts', '    mounts'],
  ]);
  expect(ranking).toMatchObject({ price: { good: 400, worst: 900 }, goodClearance: null, keep: 5 });
  expect(ranking.weights).toMatchObject({ price: 2, clearance: 0, bump_travel: 1 });
  expect(tolerances).toMatchObject({ rateShare: 0.04, closedFraction: 0.05, gasShare: 0.2, wheelLoadShare: 0.03 });
  expect(setups[0]?.axles.front).toMatchObject({
    wantedFrequency: 2,
    dampingFrom: 0.3,
    dampingTo: 0.8,
    allowedSlack: 3,
  });
  expect(setups[0]?.axles.front.frequencyFrom).toBeCloseTo(1.6, 12);
});

test('full bump by load and standing on the stop arrive with stop curves', async () => {
  const curve =
    'curve: { measured_length: 60 mm, points: [{ squeeze: 0 mm, force: 0 N }, { squeeze: 36 mm, force: 4 kN }] }\n    closed_fraction: 0.35';
  const { setups, axles } = await scenarioOf([
    ['closed_fraction: 0.4', curve],
    ['    balance:', '    bump: { load: 3 }\n    standing_on_stop: true\n    frequency_basis: ride\n    balance:'],
  ]);
  expect(setups[0]).toMatchObject({
    bump: { kind: 'load', multiple: 3 },
    standingOnStop: true,
    frequencyBasis: 'ride',
  });
  // Given beside a curve, the closed fraction counts.
  expect(axles.front.options.bumpStop[0]?.closedFraction).toBe(0.35);
});

test('of a product the last dimension named turns fastest; that of no dimensions is one empty choice', () => {
  expect(product({ a: [1, 2], b: [5, 6] })).toEqual([
    { a: 1, b: 5 },
    { a: 1, b: 6 },
    { a: 2, b: 5 },
    { a: 2, b: 6 },
  ]);
  expect(product({})).toEqual([{}]);
});

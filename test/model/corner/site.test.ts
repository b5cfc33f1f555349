import { expect, test } from 'vitest';
import { damperLengthAt, rideHeightAt, siteOf } from '../../../src/model/corner/site.ts';
import type { Scenario, Setup } from '../../../src/model/scenario.ts';
import { plainCorner, plainSite, plainTarget } from '../../setup/corners.ts';

const GRAVITY = 9.80665;
const motion = { pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: 0.945 };
const axle = {
  ...{ wheelLoad: 268, wheelLoads: null, unsprungMass: 31, tyreRate: 190, tyreOnArchHeight: 262 },
  ...{ lowestWheelHeight: 385, bushes: { rate: 3, unloadedHeight: 345 }, roll: null, motion, options: {} },
};
const { margins } = plainSite();
const scenario = { axles: { front: axle, rear: { ...axle, wheelLoad: 200 } }, margins } as unknown as Scenario;

function setupOf(...loads: readonly (readonly [front: number, rear: number])[]): Setup {
  const loadStates = loads.map(([front, rear], k) => ({ name: `state ${k + 1}`, extra: { front, rear } }));
  const rear = { ...plainTarget, targetHeight: 340 };
  return {
    ...{ name: 'low', loadStates, axles: { front: plainTarget, rear }, bump: { kind: 'load', multiple: 3 } },
    ...{ standingOnStop: true, frequencyBasis: 'ride' },
  } as unknown as Setup;
}

test('the sprung load is the wheel load less the unsprung mass, times standard gravity', () => {
  const front = siteOf(scenario, setupOf(), 'front');
  expect(front).toMatchObject({
    ...{ axle: 'front', unsprungMass: 31, sprungMass: 237, tyreRate: 190, tyreOnArchHeight: 262 },
    ...{ lowestWheelHeight: 385, bushes: { rate: 3, unloadedHeight: 345 }, target: plainTarget, margins },
    ...{ bump: { kind: 'load', multiple: 3 }, standingOnStop: true, frequencyBasis: 'ride', loads: [] },
  });
  expect(front.sprungLoad).toBeCloseTo(237 * GRAVITY, 9);
  expect(front.heaviestLoad).toBe(front.sprungLoad);
  const rear = siteOf(scenario, setupOf(), 'rear');
  expect([rear.sprungMass, rear.target.targetHeight]).toEqual([169, 340]);
  // One side's own load in place of the axle's.
  expect(siteOf(scenario, setupOf(), 'front', { wheelLoad: 281 }).sprungMass).toBe(250);
});

test('left and right of an axle carry their own loads, load states on top of each', () => {
  const { sides, sprungMass } = siteOf(scenario, setupOf([40, 70]), 'front', {
    wheelLoad: 268,
    wheelLoads: { left: 281, right: 255 },
  });
  expect(sprungMass).toBe(237);
  expect(sides.map(({ name, sprungMass: own }) => [name, own])).toEqual([
    ['left', 250],
    ['right', 224],
  ]);
  expect(sides[0]?.sprungLoad).toBeCloseTo(250 * GRAVITY, 9);
  expect(sides[0]?.heaviestLoad).toBeCloseTo(290 * GRAVITY, 9);
  expect(siteOf(scenario, setupOf(), 'front').sides).toEqual([]);
});

test('load states add their own load to each axle; the heaviest counts, the design load among them', () => {
  const heavier = siteOf(scenario, setupOf([40, 70], [-20, 10]), 'front');
  expect(heavier.loads.map(({ name, sprungMass }) => [name, sprungMass])).toEqual([
    ['state 1', 277],
    ['state 2', 217],
  ]);
  expect(heavier.loads[0]?.sprungLoad).toBeCloseTo(277 * GRAVITY, 9);
  expect(heavier.heaviestLoad).toBeCloseTo(277 * GRAVITY, 9);
  const lighter = siteOf(scenario, setupOf([-40, 0]), 'front');
  expect(lighter.heaviestLoad).toBeCloseTo(237 * GRAVITY, 9);
  expect(siteOf(scenario, setupOf([40, 70]), 'rear').heaviestLoad).toBeCloseTo((169 + 70) * GRAVITY, 9);
});

test('a mount raised by a millimetre lengthens the damper by one at the same height, and length leads back to height', () => {
  const site = siteOf(scenario, setupOf(), 'front');
  const mount = { ...plainCorner().mount, raise: 12 };
  // The pair was taken with the shoulder 12 mm up.
  expect(damperLengthAt(site, mount, 335)).toBeCloseTo(409.5, 9);
  expect(damperLengthAt(site, mount, 345)).toBeCloseTo(409.5 + 9.45, 9);
  expect(damperLengthAt(site, { ...mount, raise: 20 }, 335)).toBeCloseTo(417.5, 9);
  expect(rideHeightAt(site, mount, 409.5 + 9.45)).toBeCloseTo(345, 9);
  expect(rideHeightAt(site, { ...mount, raise: 20 }, 417.5)).toBeCloseTo(335, 9);
});

import { expect, test } from 'vitest';
import { surplusAt } from '../../src/model/corner/balance.ts';
import { bumpLoad } from '../../src/model/corner/contacts.ts';
import { type CornerState, cornerState } from '../../src/model/corner/state.ts';
import { plainCorner, plainHelper, plainSite, stopCurve } from '../setup/corners.ts';
import { odexSolver } from '../setup/odex.ts';

/**
 * Where the sprung mass comes to rest when it is let go at a height, by integrating its motion with the odex package
 * (Hairer, Norsett & Wanner's Gragg-Bulirsch-Stoer method): m dv/dt = surplus - c v, wheel on the ground, tyre rigid.
 */
function settle(state: CornerState, from: number, load: number, seconds = 12): number {
  const { site, corner, geometry, standing } = state;
  const mass = site.sprungMass;
  const damping = 0.4 * 2 * Math.sqrt(1000 * state.rates.wheel * mass);
  const solver = odexSolver(2, 1e-9);
  const motion = (_: number, [height = 0, speed = 0]: number[]) => {
    const force = surplusAt(site, corner, geometry, height, load, standing.perch);
    return [speed, (1000 * force - damping * speed) / mass];
  };
  return solver.solve(motion, 0, [from, 0], seconds).y[0] as number;
}

const helper = plainHelper;
const target = { allowedSlack: 8 };

test('let go at full droop, the corner settles at the standing height the model computes', () => {
  for (const corner of [plainCorner(), plainCorner({ helper })]) {
    const state = cornerState(plainSite({ target }), corner);
    expect(settle(state, state.geometry.droopHeight, state.site.sprungLoad)).toBeCloseTo(332, 4);
  }
});

test('under the bump load it settles on its stop at the full bump the model computes', () => {
  const corner = plainCorner({ bumpStop: { length: 58, curve: stopCurve } });
  const state = cornerState(plainSite({ target, bump: { kind: 'load', multiple: 2.2 } }), corner);
  const { full, geometry, standing, site } = state;
  expect(full.height).toBeGreaterThan(geometry.closedHeight);
  expect(full.height).toBeLessThan(geometry.stopHeight);
  expect(settle(state, standing.height, bumpLoad(site))).toBeCloseTo(full.height, 4);
});

test('a small push swings at the body frequency the model computes', () => {
  const state = cornerState(plainSite({ target }), plainCorner());
  const { site, corner, geometry, standing, rates } = state;
  const solver = odexSolver(2, 1e-10);
  solver.denseOutput = true;
  const crossings: number[] = [];
  let last = 0.5;
  const motion = (_: number, [height = 0, speed = 0]: number[]) => [
    speed,
    (1000 * surplusAt(site, corner, geometry, height, site.sprungLoad, standing.perch)) / site.sprungMass,
  ];
  const watch = solver.grid(0.0005, (time: number, [height = 0]: number[]) => {
    const offset = height - standing.height;
    if (last < 0 && offset >= 0) crossings.push(time);
    last = offset;
  });
  solver.solve(motion, 0, [standing.height + 0.5, 0], 8, watch);
  const swings = crossings.length - 1;
  const frequency = swings / ((crossings[swings] as number) - (crossings[0] as number));
  // The model gives the gas its vibrating rate, the standing law swings with its standing rate: the same when linear.
  expect(Math.abs(frequency / rates.bodyFrequency - 1)).toBeLessThan(2e-3);
});

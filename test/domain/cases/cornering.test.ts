import { describe, expect, test } from 'vitest';
import { type CorneringAxles, cornering } from '../../../src/domain/cases/cornering.ts';
import { forcesAt } from '../../../src/domain/corner/balance.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import { motionCurve } from '../../../src/domain/motion.ts';
import { plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';

const straight = motionCurve({ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: 0.945 });
const noGas = { ...plainCorner().damper, gas: { kind: 'none' as const } };

function axles(barRate: number, curve = false, length = 38): CorneringAxles {
  const stop = { ...plainCorner().bumpStop, length, curve: curve ? stopCurve : null };
  const corner = plainCorner({ damper: noGas, bumpStop: stop });
  const state = cornerState(plainSite({ motion: straight }), corner);
  const roll = { track: 1460, rollCentreHeight: 60, barRate };
  return { front: { state, roll }, rear: { state, roll } };
}

describe('while nothing but linear springs and bars act', () => {
  const found = cornering(axles(6), 540, 0.3);

  test('the roll is that of small-angle arithmetic', () => {
    expect(found?.rollAngle).toBeCloseTo(found?.smallAngleRoll as number, 9);
  });

  test('the roll is that of hand arithmetic', () => {
    // k_w = 38 x 0.945^2; K = k_w t^2/2 + 6 t^2 an axle; W = 4 x 237 x 9.80665; h = 480.
    const wheelRate = 38 * 0.945 ** 2;
    const stiffness = 2 * (wheelRate / 2 + 6) * 1460 ** 2;
    const arm = 4 * 237 * 9.80665 * 480;
    expect(found?.rollAngle).toBeCloseTo(((0.3 * arm) / (stiffness - arm)) * (180 / Math.PI), 9);
  });

  test('there is no jacking, and all load moved adds up to the overturning moment over the track', () => {
    const front = found?.axles.front;
    expect(front?.jacking).toBeCloseTo(0, 7);
    const moved = (front?.springShare ?? 0) + (front?.barShare ?? 0);
    const angle = ((found?.rollAngle ?? 0) * Math.PI) / 180;
    expect(2 * moved * 1460).toBeCloseTo(4 * 237 * 9.80665 * 480 * (0.3 + angle), 3);
    // The roll centre's share is that of a force at its height: m a h_rc / t.
    expect(front?.rollCentreShare).toBeCloseTo((2 * 237 * 9.80665 * 0.3 * 60) / 1460, 6);
  });
});

test('a stop met by the outer wheel raises the axle and holds back the roll', () => {
  const hard = cornering(axles(2, true, 58), 540, 0.95);
  const soft = cornering(axles(2, false, 58), 540, 0.95);
  expect(hard?.axles.front.outer.intoStop).toBeGreaterThan(2);
  expect(hard?.axles.front.jacking).toBeGreaterThan(0.5);
  expect(hard?.rollAngle).toBeLessThan(soft?.rollAngle as number);
});

test('outer and inner wheel together always carry the load of the axle', () => {
  for (const lateral of [0.1, 0.4, 0.8, 1.1]) {
    const both = axles(4, true);
    const { state } = both.front;
    const found = cornering(both, 540, lateral)?.axles.front;
    const load = (height = 0) => forcesAt(state.site, state.corner, state.geometry, height, state.standing.perch).load;
    const inside = (found?.inner.height ?? 0) < state.geometry.droopHeight - 1e-6;
    if (inside) expect(load(found?.outer.height) + load(found?.inner.height)).toBeCloseTo(2 * state.site.sprungLoad, 5);
    expect(inside || lateral > 0.5).toBe(true);
  }
});

test('a car that would roll past all reason has no answer', () => {
  expect(cornering(axles(0), 6000, 3)).toBeNull();
});

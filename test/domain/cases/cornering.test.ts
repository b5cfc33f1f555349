import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CorneringAxle,
  type CorneringAxles,
  type CorneringResult,
  cornering,
  heldAtRest,
} from '../../../src/domain/cases/cornering.ts';
import { underMultiple } from '../../../src/domain/cases/multiple.ts';
import { forcesAt } from '../../../src/domain/corner/balance.ts';
import { contactLengths } from '../../../src/domain/corner/contacts.ts';
import type { Corner } from '../../../src/domain/corner/site.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import { motionCurve } from '../../../src/domain/motion.ts';
import { anyCorner, anySite, plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';

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

describe('metal ends the travel of a cornering wheel', () => {
  const solid = (height: number) => {
    const { spring } = plainCorner();
    return { ...spring, solid: { ...spring.solid, height, least: height } };
  };
  /** A soft spring that goes solid well before its stop is closed. */
  function binding(height: number): CorneringAxles {
    const corner = plainCorner({ damper: noGas, spring: solid(height) });
    const state = cornerState(plainSite({ motion: straight }), corner);
    const roll = { track: 1460, rollCentreHeight: 60, barRate: 1 };
    return { front: { state, roll }, rear: { state, roll } };
  }

  test('the outer wheel rests where its spring is solid, and the inner wheel carries what is left', () => {
    const axles = binding(130);
    const { state } = axles.front;
    const found = cornering(axles, 540, 0.7);
    // Solid: seat to seat 130 mm, so the damper is 130 mm + seat + perch long; from there by the straight motion.
    const bind = 130 + state.geometry.seatBelowShoulder + state.standing.perch;
    const height = 335 + (bind - 409.5) / 0.945;
    expect(height).toBeGreaterThan(state.geometry.closedHeight + 5);
    expect(found?.axles.front.outer.height).toBeCloseTo(height, 9);
    expect(found?.axles.front.outer.at).toBe('coil_bind');
    expect(found?.axles.front.inner.at).toBeNull();
    // Moments: what is moved is the overturning moment over the track, whoever carries it.
    const angle = ((found?.rollAngle ?? 0) * Math.PI) / 180;
    const { springShare, barShare } = found?.axles.front ?? { springShare: 0, barShare: 0 };
    expect(2 * (springShare + barShare) * 1460).toBeCloseTo(4 * 237 * 9.80665 * 480 * (0.7 + angle), 2);
  });

  test('a multiple of the load ends at the same metal, a spring that holds it does not', () => {
    const { state } = binding(130).front;
    const { height, at } = underMultiple(state, 3);
    expect(at).toBe('coil_bind');
    expect(height).toBeCloseTo(cornering(binding(130), 540, 0.7)?.axles.front.outer.height as number, 6);
    expect(underMultiple(state, 1.1).at).toBeNull();
    expect(underMultiple(state, 0).at).toBe('droop');
    const offArch = plainSite({ motion: straight, tyreOnArchHeight: 200 });
    // The damper bottoms inside before the foam is closed: no force law knows of it.
    const early = plainCorner({ damper: { ...noGas, compressed: 350 } });
    const bottomed = underMultiple(cornerState(offArch, early), 4);
    expect(bottomed).toMatchObject({ at: 'damper', damperLength: expect.closeTo(350, 9) });
    expect(underMultiple(cornerState(offArch, plainCorner({ damper: noGas })), 4).at).toBe('closed_stop');
  });
});

describe('cars that an earlier solver gave up on', () => {
  const at = (height: number, change: Partial<Corner> = {}) => {
    const target = { ...plainSite().target, targetHeight: height };
    const state = cornerState(
      plainSite({ motion: straight, target, tyreOnArchHeight: 200 }),
      plainCorner({ damper: noGas, ...change }),
    );
    return { state, roll: { track: 1460, rollCentreHeight: 60, barRate: 6 } };
  };

  test('a sprung centre below the roll axis leans into the bend by as much as one above leans out of it less gravity', () => {
    const car = at(332);
    const high = { ...car, roll: { ...car.roll, rollCentreHeight: 700 } };
    const found = cornering({ front: high, rear: high }, 540, 0.4);
    // Moments by hand: K phi = m g h (0.4 + phi), h = 540 - 700.
    const stiffness = 2 * ((38 * 0.945 ** 2) / 2 + 6) * 1460 ** 2;
    const arm = 4 * 237 * 9.80665 * (540 - 700);
    expect(found?.rollAngle).toBeCloseTo(((0.4 * arm) / (stiffness - arm)) * (180 / Math.PI), 9);
    expect(found?.rollAngle).toBeCloseTo(found?.smallAngleRoll as number, 9);
    const { outer, inner, springShare, barShare } = (found as CorneringResult).axles.front;
    expect(outer.height).toBeGreaterThan(inner.height);
    expect(Math.max(springShare, barShare)).toBeLessThan(0);
  });

  test('a target below the closed stop, a spring solid at rest, and gas that lifts the car to full droop have no roll', () => {
    const low = at(238);
    expect(heldAtRest(low.state)).toBe('closed_stop');
    const { spring } = plainCorner();
    const solid = at(332, { spring: { ...spring, rate: 4, solid: { ...spring.solid, height: 180, least: 180 } } });
    expect(heldAtRest(solid.state)).toBe('coil_bind');
    const push = { kind: 'linear', outForce: 3000, inForce: 3000 } as const;
    const lifted = at(332, { damper: { ...plainCorner().damper, gas: push } });
    expect(heldAtRest(lifted.state)).toBe('droop');
    const shut = at(332, { bumpStop: { ...plainCorner().bumpStop, length: 200, closedFraction: 0.95 } });
    expect(heldAtRest(shut.state)).toBe('closed_stop');
    for (const axle of [low, solid, lifted, shut]) {
      expect(cornering({ front: axle, rear: at(332) }, 540, 0.5)).toBeNull();
      expect(cornering({ front: at(332), rear: axle }, 540, 0.5)).toBeNull();
    }
    expect(heldAtRest(at(332).state)).toBeNull();
  });

  test('a wheel that full droop holds above the ground carries nothing', () => {
    const site = plainSite({ motion: straight, tyreOnArchHeight: 200, lowestWheelHeight: 350 });
    const state = cornerState(site, plainCorner({ damper: noGas }));
    const axle = (barRate: number) => ({ state, roll: { track: 1460, rollCentreHeight: 60, barRate } });
    const { outer, inner, springShare } = (cornering({ front: axle(0.5), rear: axle(20) }, 900, 1.2) as CorneringResult)
      .axles.front;
    expect([outer.at, inner.at]).toEqual(['closed_stop', 'droop']);
    expect(inner.height).toBe(350);
    // All of the axle's load is on the outer wheel: W more than at rest.
    expect(springShare).toBeCloseTo(237 * 9.80665, 6);
  });
});

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('random cars, the impossible ones included, get an answer inside their travel or none, never a failure', () => {
  const seen = { answers: 0, metal: 0, into: 0, held: 0 };
  const axle = fc.record({
    site: anySite,
    corner: anyCorner,
    height: between(240, 400),
    centre: between(-50, 1200),
    bar: between(0, 30),
  });
  fc.assert(
    fc.property(axle, axle, between(300, 700), between(0.05, 1.4), (f, r, centre, lateral) => {
      const [front, rear] = [f, r].map(({ site, corner, height, centre: rollCentreHeight, bar }) => ({
        state: cornerState(site, corner, height),
        roll: { track: 1400, rollCentreHeight, barRate: bar },
      })) as [CorneringAxle, CorneringAxle];
      const found = cornering({ front, rear }, centre, lateral);
      const held = [front, rear].some(({ state }) => heldAtRest(state) !== null);
      if (held) seen.held++;
      if (held) expect(found).toBeNull();
      if (found === null) return;
      seen.answers++;
      if (found.rollAngle < 0) seen.into++;
      for (const [name, { state }] of [
        ['front', front],
        ['rear', rear],
      ] as const) {
        const { outer, inner, springShare } = found.axles[name];
        const lengths = contactLengths(state.site, state.corner, state.geometry, state.standing.perch);
        for (const wheel of [outer, inner]) {
          for (const [, length] of lengths) expect(wheel.damperLength).toBeGreaterThan(length - 1e-6);
          expect(wheel.damperLength).toBeGreaterThan(state.geometry.closedLength - 1e-6);
          expect(wheel.height).toBeLessThan(state.geometry.droopHeight + 1e-6);
          if (wheel.at === 'coil_bind') seen.metal++;
        }
        expect(Math.abs(springShare)).toBeLessThan(state.site.sprungLoad * 20);
      }
    }),
    { numRuns: 600, seed: 20, endOnFailure: true },
  );
  for (const [what, times] of Object.entries(seen)) expect(times, what).toBeGreaterThan(10);
});

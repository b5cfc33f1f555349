import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { forcesAt } from '../../../src/model/corner/balance.ts';
import { contactLengths, travelEnd } from '../../../src/model/corner/contacts.ts';
import {
  type CorneringAxle,
  type CorneringAxles,
  type CorneringResult,
  cornering,
  heldAtRest,
  underMultiple,
} from '../../../src/model/corner/loadCases.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { AXLE_NAMES } from '../../../src/model/scenario.ts';
import {
  anyCorner,
  anySite,
  type CornerChange,
  plainCorner,
  plainSite,
  type SiteChange,
  stopCurve,
  straightMotion,
} from '../../setup/corners.ts';
import { odexSolver } from '../../setup/odex.ts';
import { between, forAny } from '../../setup/random.ts';

const noGas = { gas: { kind: 'none' as const } };

/** An axle on straight motions and linear springs: small-angle arithmetic holds for it. */
function axleOf(barRate: number, { damper, ...corner }: CornerChange = {}, site: SiteChange = {}): CorneringAxle {
  const built = plainCorner({ ...corner, damper: { ...noGas, ...damper } });
  const state = cornerState(plainSite({ motion: straightMotion, ...site }), built);
  return { state, roll: { track: 1460, rollCentreHeight: 60, barRate } };
}

const alike = (axle: CorneringAxle): CorneringAxles => ({ front: axle, rear: axle });
const axles = (barRate: number, curve = false, length = 38) =>
  alike(axleOf(barRate, { bumpStop: { length, curve: curve ? stopCurve : null } }));

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
  /** A soft spring that goes solid well before its stop is closed. */
  const binding = (height: number) => alike(axleOf(1, { spring: { solid: { height, least: height } } }));

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
    // The damper bottoms inside before the foam is closed: no force law knows of it.
    const offArch = (compressed: number) => axleOf(1, { damper: { compressed } }, { tyreOnArchHeight: 200 }).state;
    const bottomed = underMultiple(offArch(350), 4);
    expect(bottomed).toMatchObject({ at: 'damper', damperLength: expect.closeTo(350, 9) });
    expect(underMultiple(offArch(320), 4).at).toBe('closed_stop');
  });
});

describe('cars that an earlier solver gave up on', () => {
  const at = (targetHeight: number, change: CornerChange = {}) =>
    axleOf(6, change, { target: { targetHeight }, tyreOnArchHeight: 200 });

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
    const push = { kind: 'linear', outForce: 3000, inForce: 3000 } as const;
    const cars = [
      ['closed_stop', at(238)],
      ['coil_bind', at(332, { spring: { rate: 4, solid: { height: 180, least: 180 } } })],
      ['droop', at(332, { damper: { gas: push } })],
      ['closed_stop', at(332, { bumpStop: { length: 200, closedFraction: 0.95 } })],
    ] as const;
    for (const [held, axle] of cars) {
      expect(heldAtRest(axle.state)).toBe(held);
      expect(cornering({ front: axle, rear: at(332) }, 540, 0.5)).toBeNull();
      expect(cornering({ front: at(332), rear: axle }, 540, 0.5)).toBeNull();
    }
    expect(heldAtRest(at(332).state)).toBeNull();
  });

  test('a wheel that full droop holds above the ground carries nothing', () => {
    const axle = (barRate: number) => axleOf(barRate, {}, { tyreOnArchHeight: 200, lowestWheelHeight: 350 });
    const found = cornering({ front: axle(0.5), rear: axle(20) }, 900, 1.2) as CorneringResult;
    const { outer, inner, springShare } = found.axles.front;
    expect([outer.at, inner.at]).toEqual(['closed_stop', 'droop']);
    expect(inner.height).toBe(350);
    // All of the axle's load is on the outer wheel: W more than at rest.
    expect(springShare).toBeCloseTo(237 * 9.80665, 6);
  });
});

test('random cars, the impossible ones included, get an answer inside their travel or none, never a failure', () => {
  const seen = { answers: 0, metal: 0, into: 0, held: 0 };
  const car = { site: anySite, corner: anyCorner, height: between(240, 400) };
  const axle = fc.record({ ...car, centre: between(-50, 1200), bar: between(0, 30) });
  forAny(
    [axle, axle, between(300, 700), between(0.05, 1.4)],
    { numRuns: 600, seed: 20, endOnFailure: true },
    (f, r, centre, lateral) => {
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
      for (const name of AXLE_NAMES) {
        const { state } = { front, rear }[name];
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
    },
  );
  for (const [what, times] of Object.entries(seen)) expect(times, what).toBeGreaterThan(10);
});

/**
 * Where a car comes to rest in a bend, by integrating its motion with the odex package (Hairer, Norsett & Wanner's
 * Gragg-Bulirsch-Stoer method) from upright until it has settled: roll of the stiff body and heave of either axle, each
 * damped, under the lateral force and the four corners' forces. Nothing is solved here; the rest is what is left.
 */
const GRAVITY = 9806.65;
const PER_METRE = 1000;
/** Rate of whatever ends the droop, N/mm: far above any spring. */
const HARD = 20_000;
const SECONDS = 8;

interface Rest {
  readonly angle: number;
  /** Mean ride height of either axle. */
  readonly front: number;
  readonly rear: number;
}

function settle(front: CorneringAxle, rear: CorneringAxle, centreHeight: number, lateral: number): Rest {
  const [massFront, massRear] = [2 * front.state.site.sprungMass, 2 * rear.state.site.sprungMass];
  const mass = massFront + massRear;
  const axis = (massFront * front.roll.rollCentreHeight + massRear * rear.roll.rollCentreHeight) / mass;
  const arm = centreHeight - axis;
  // A body 1200 mm across; inertia and damping decide how fast it settles, not where.
  const inertia = mass * 600 ** 2;
  const rollDamping = 1.4 * Math.sqrt(PER_METRE * stiffnessOf(front, rear) * inertia);
  const heaveDamping = (axle: CorneringAxle, m: number) => 1.2 * Math.sqrt(PER_METRE * 2 * axle.state.rates.wheel * m);
  const [frontDamping, rearDamping] = [heaveDamping(front, massFront), heaveDamping(rear, massRear)];
  const motion = (_: number, y: number[]) => {
    const [angle = 0, spin = 0, zf = 0, vf = 0, zr = 0, vr = 0] = y;
    const f = axleForces(front, zf, angle);
    const r = axleForces(rear, zr, angle);
    const moment = mass * arm * GRAVITY * (lateral + angle) - PER_METRE * (f.moment + r.moment) - rollDamping * spin;
    return [
      spin,
      moment / inertia,
      vf,
      (PER_METRE * (f.lift - massFront * 9.80665) - frontDamping * vf) / massFront,
      vr,
      (PER_METRE * (r.lift - massRear * 9.80665) - rearDamping * vr) / massRear,
    ];
  };
  const start = [0, 0, front.state.standing.height, 0, rear.state.standing.height, 0];
  const { y } = odexSolver(6, 1e-9).solve(motion, 0, start, SECONDS);
  return { angle: y[0] as number, front: y[2] as number, rear: y[4] as number };
}

/** Both wheels of an axle: what lifts the body, N, and what turns it upright again, N mm. */
function axleForces({ state, roll }: CorneringAxle, mean: number, angle: number) {
  const half = (roll.track * angle) / 2;
  const outer = wheelForce(state, mean - half);
  const inner = wheelForce(state, mean + half);
  return { lift: outer + inner, moment: ((outer - inner) * roll.track) / 2 + roll.barRate * roll.track ** 2 * angle };
}

function wheelForce({ site, corner, geometry, standing }: CorneringAxle['state'], height: number): number {
  const held = HARD * Math.max(0, height - geometry.droopHeight);
  return forcesAt(site, corner, geometry, height, standing.perch).load - held;
}

function stiffnessOf(...axles: CorneringAxle[]): number {
  return axles.reduce((sum, { state, roll }) => sum + (state.rates.wheel / 2 + roll.barRate) * roll.track ** 2, 0);
}

const anyAxle: fc.Arbitrary<CorneringAxle> = fc
  .record({
    ...{ site: anySite, height: between(318, 350), rate: between(24, 70), stop: between(35, 60), curve: fc.boolean() },
    ...{ helped: fc.boolean(), strap: fc.option(between(12, 40), { nil: null }) },
    roll: fc.record({ track: between(1300, 1600), rollCentreHeight: between(-40, 220), barRate: between(0, 15) }),
  })
  .map(({ site, height, rate, stop, curve, helped, strap, roll }) => {
    const corner = plainCorner({
      spring: { rate, freeLength: 240 },
      bumpStop: { length: stop, curve: curve ? stopCurve : null },
      helper: helped ? { rate: 6 } : null,
    });
    const target = { ...site.target, targetHeight: height };
    const lowestWheelHeight = strap === null ? null : height + strap;
    return { state: cornerState(plainSite({ ...site, target, lowestWheelHeight }), corner), roll };
  });

const isAtDroop = (axle: CorneringAxle, height: number) => height > axle.state.geometry.droopHeight - 1e-6;

/** Metal, and the closed stop of a corner without a curve, are walls that no smooth motion can run into. */
function insideTravel(axles: readonly CorneringAxle[], found: NonNullable<ReturnType<typeof cornering>>): boolean {
  return AXLE_NAMES.every((name, k) => {
    const { site, corner, geometry, standing } = (axles[k] as CorneringAxle).state;
    const wall = travelEnd(site, corner, geometry, standing.perch).height;
    return found.axles[name].outer.height > wall + 1;
  });
}

test('let go upright in a bend, the car settles at the roll and the heights that cornering() solves', () => {
  let [onStop, atDroop] = [0, 0];
  forAny(
    [anyAxle, anyAxle, between(450, 650), between(0.2, 1)],
    { numRuns: 100, seed: 20_260, endOnFailure: true },
    (front, rear, centre, lateral) => {
      const stable = [front, rear].every(({ state }) => state.standing.springForce > 0 && state.rates.wheel > 5);
      fc.pre(stable);
      const found = cornering({ front, rear }, centre, lateral);
      fc.pre(found !== null && found.rollAngle < 8 && insideTravel([front, rear], found));
      if (found === null) return;
      // Whatever ends the droop gives a little where the motion is integrated and nothing where it is solved.
      const atRest =
        !isAtDroop(front, found.axles.front.inner.height) && !isAtDroop(rear, found.axles.rear.inner.height);
      const rest = settle(front, rear, centre, lateral);
      expect(Math.abs((rest.angle * 180) / Math.PI - found.rollAngle)).toBeLessThan(atRest ? 1e-5 : 0.02);
      for (const name of AXLE_NAMES) {
        const axle = { front, rear }[name];
        const { outer, inner, jacking } = found.axles[name];
        expect(Math.abs(rest[name] - axle.state.standing.height - jacking)).toBeLessThan(atRest ? 1e-4 : 0.1);
        if (outer.intoStop > 0) onStop += 1;
        if (isAtDroop(axle, inner.height)) atDroop += 1;
      }
    },
  );
  expect([onStop > 0, atDroop > 0]).toEqual([true, true]);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CorneringAxle, cornering } from '../../../src/domain/cases/cornering.ts';
import { forcesAt } from '../../../src/domain/corner/balance.ts';
import { travelEnd } from '../../../src/domain/corner/contacts.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import { anySite, plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';
import { odexSolver } from '../../setup/odex.ts';

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

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const helper = {
  name: 'h',
  price: null,
  freeLength: 50,
  blockHeight: 12,
  rate: 6,
  bore: 60,
  coupler: 4,
  couplerBore: 60,
};

const anyAxle: fc.Arbitrary<CorneringAxle> = fc
  .record({
    site: anySite,
    height: between(318, 350),
    rate: between(24, 70),
    stop: between(35, 60),
    curve: fc.boolean(),
    helped: fc.boolean(),
    strap: fc.option(between(12, 40), { nil: null }),
    track: between(1300, 1600),
    rollCentreHeight: between(-40, 220),
    barRate: between(0, 15),
  })
  .map((r) => {
    const { spring, bumpStop } = plainCorner();
    const corner = plainCorner({
      spring: { ...spring, rate: r.rate, freeLength: 240 },
      bumpStop: { ...bumpStop, length: r.stop, curve: r.curve ? stopCurve : null },
      helper: r.helped ? helper : null,
    });
    const target = { ...r.site.target, targetHeight: r.height };
    const lowestWheelHeight = r.strap === null ? null : r.height + r.strap;
    const state = cornerState(plainSite({ ...r.site, target, lowestWheelHeight }), corner);
    return { state, roll: { track: r.track, rollCentreHeight: r.rollCentreHeight, barRate: r.barRate } };
  });

const isAtDroop = (axle: CorneringAxle, height: number) => height > axle.state.geometry.droopHeight - 1e-6;

/** Metal, and the closed stop of a corner without a curve, are walls that no smooth motion can run into. */
function insideTravel(axles: readonly CorneringAxle[], found: NonNullable<ReturnType<typeof cornering>>): boolean {
  return (['front', 'rear'] as const).every((name, k) => {
    const { site, corner, geometry, standing } = (axles[k] as CorneringAxle).state;
    const wall = travelEnd(site, corner, geometry, standing.perch).height;
    return found.axles[name].outer.height > wall + 1;
  });
}

test('let go upright in a bend, the car settles at the roll and the heights that cornering() solves', () => {
  let [onStop, atDroop] = [0, 0];
  fc.assert(
    fc.property(anyAxle, anyAxle, between(450, 650), between(0.2, 1), (front, rear, centre, lateral) => {
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
      for (const [name, axle] of [
        ['front', front],
        ['rear', rear],
      ] as const) {
        const { outer, inner, jacking } = found.axles[name];
        expect(Math.abs(rest[name] - axle.state.standing.height - jacking)).toBeLessThan(atRest ? 1e-4 : 0.1);
        if (outer.intoStop > 0) onStop += 1;
        if (isAtDroop(axle, inner.height)) atDroop += 1;
      }
    }),
    { numRuns: 100, seed: 20_260, endOnFailure: true },
  );
  expect([onStop > 0, atDroop > 0]).toEqual([true, true]);
}, 60_000);

/** Roll of a car against the forces of its four springs and two bars, written out wheel by wheel. */
import { expect, test } from 'vitest';
import {
  barRollStiffness,
  lateralLoadTransfer,
  rollAngle,
  rollRatePerDegree,
  springRollStiffness,
} from '../../../src/model/formula/roll.ts';
import { between, forAny } from '../../setup/random.ts';

const track = between(1200, 1700);
const rate = between(5, 60);

test('roll stiffness is the couple of the wheel forces over the angle', () => {
  forAny([rate, rate, track, between(0.001, 0.05)], (kw, k1, t, phi) => {
    const [left, right] = [(phi * t) / 2, (-phi * t) / 2];
    const springs = (kw * left * t) / 2 - (kw * right * t) / 2;
    // The bar pushes one wheel with k1 times the difference of both, and the other with the opposite.
    const push = k1 * (left - right);
    const bar = (push * t) / 2 - (-push * t) / 2;
    expect(springRollStiffness(kw, t)).toBeCloseTo(springs / phi, 3);
    expect(barRollStiffness(k1, t)).toBeCloseTo(bar / phi, 3);
  });
});

test('springs, bars and roll centres together carry the whole moment of the sprung mass about the ground', () => {
  forAny(
    [between(400, 900), between(400, 900), between(0, 150), between(0, 150), rate, rate, track],
    (mf, mr, zf, zr, kf, kr, t) => {
      const [mass, a, g, height] = [mf + mr, 0.8 * 9.80665, 9.80665, 560];
      const axis = (mf * zf + mr * zr) / mass;
      const [front, rear] = [springRollStiffness(kf, t), springRollStiffness(kr, t)];
      const [frontBar, rearBar] = [barRollStiffness(9, t), barRollStiffness(4, t)];
      const arm = height - axis;
      const roll = rollAngle(mass, a, g, arm, front + rear + frontBar + rearBar);
      const shares = [
        lateralLoadTransfer(front, frontBar, roll, mf, a, zf, t),
        lateralLoadTransfer(rear, rearBar, roll, mr, a, zr, t),
      ];
      const carried = shares.reduce((sum, s) => sum + (s.spring + s.bar + s.rollCentre) * t, 0);
      // Overturning: the lateral force at its height, and the weight moved sideways by the roll.
      expect(carried / (mass * a * height + mass * g * arm * roll)).toBeCloseTo(1, 10);
    },
  );
});

test('a car softer in roll than its own weight leans on has no roll angle', () => {
  expect(rollAngle(1000, 9.8, 9.8, 500, 1000 * 9.8 * 500)).toBeNaN();
});

test('torque per degree is the torque of one degree, in newton metres', () => {
  expect(rollRatePerDegree((180_000 / Math.PI) * 250)).toBeCloseTo(250, 9);
});

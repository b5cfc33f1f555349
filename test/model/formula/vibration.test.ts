/**
 * The modes against two references that share nothing with them: eigenvalues of the full matrices (ml-matrix), and
 * frequencies read off the motion that the equations of motion give when integrated from an offset (odex).
 */

import fc from 'fast-check';
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  criticalDamping,
  dampingRatio,
  halfCarModes,
  inStepSpeed,
  naturalFrequency,
  quarterCarModes,
  reboundDamping,
  secantDamping,
  seriesRate,
  staticDeflectionFrequency,
} from '../../../src/model/formula/vibration.ts';
import { between, forAny } from '../../setup/random.ts';
import { readMotion, swing } from './motionReading.ts';

const TWO_PI = 2 * Math.PI;

function same(a: number, b: number, share: number) {
  expect(Math.abs(a / b - 1), `${a} and ${b}`).toBeLessThan(share);
}

/** Eigenvalues of M^-1 K as rad/s with the second coordinate over the first, slow first. */
function eigenmodes(matrix: number[][]) {
  const found = new EigenvalueDecomposition(new Matrix(matrix));
  const vectors = found.eigenvectorMatrix;
  return found.realEigenvalues
    .map((value, k) => ({ omega: Math.sqrt(value), ratio: vectors.get(1, k) / vectors.get(0, k) }))
    .sort((a, b) => a.omega - b.omega) as [Mode, Mode];
}

interface Mode {
  readonly omega: number;
  readonly ratio: number;
}

const quarterCar = fc.record({ ms: between(150, 600), mu: between(20, 80), kw: between(8, 80), kt: between(120, 350) });

describe('the quarter car', () => {
  test('has the eigenvalues and shapes of its matrices', () => {
    forAny([quarterCar], ({ ms, mu, kw, kt }) => {
      const [s, w, t] = [(1000 * kw) / ms, (1000 * kw) / mu, (1000 * kt) / mu];
      const reference = eigenmodes([
        [s, -s],
        [-w, w + t],
      ]);
      const { first, second } = quarterCarModes(ms, mu, kw, kt);
      same(TWO_PI * first.frequency, reference[0].omega, 1e-10);
      same(TWO_PI * second.frequency, reference[1].omega, 1e-10);
      same(first.ratio, reference[0].ratio, 1e-9);
      same(second.ratio, reference[1].ratio, 1e-9);
    });
  });

  test.each([
    [317.5, 45.4, 22, 192],
    [210, 32, 35, 180],
    [380, 55, 60, 260],
  ])('with %d and %d kg on %d and %d N/mm swings at these frequencies when let go from an offset', (ms, mu, kw, kt) => {
    const samples = swing(
      (_, [xs = 0, xu = 0, vs = 0, vu = 0]) => {
        const spring = 1000 * kw * (xs - xu);
        return [vs, vu, -spring / ms, (spring - 1000 * kt * xu) / mu];
      },
      [1, -0.4],
      0.02,
      200,
    );
    const { omegas, ratios } = readMotion(samples, 0.02);
    const { first, second } = quarterCarModes(ms, mu, kw, kt);
    same(TWO_PI * first.frequency, omegas[0], 1e-7);
    same(TWO_PI * second.frequency, omegas[1], 1e-7);
    same(first.ratio, ratios[0], 1e-6);
    same(second.ratio, ratios[1], 1e-6);
  });

  test('moves body and wheel together in the slow mode and against each other in the fast one', () => {
    forAny([quarterCar], ({ ms, mu, kw, kt }) => {
      const { first, second } = quarterCarModes(ms, mu, kw, kt);
      expect(first.ratio).toBeGreaterThan(0);
      expect(second.ratio).toBeLessThan(0);
      // Modes are orthogonal over the masses: m_s + m_u r_1 r_2 = 0.
      same(-mu * first.ratio * second.ratio, ms, 1e-9);
    });
  });

  test('has its slow mode below the frequency with a rigid tyre, and near it when the tyre is stiff', () => {
    forAny([quarterCar], ({ ms, mu, kw, kt }) => {
      expect(quarterCarModes(ms, mu, kw, kt).first.frequency).toBeLessThan(naturalFrequency(kw, ms));
      same(quarterCarModes(ms, mu, kw, 1e7).first.frequency, naturalFrequency(kw, ms), 1e-5);
    });
  });
});

const halfCar = fc
  .record({
    m: between(500, 1800),
    a: between(800, 1600),
    b: between(800, 1600),
    inertia: between(0.6, 1.3),
    kf: between(15, 120),
    kr: between(15, 120),
  })
  .map((c) => ({ ...c, radius: Math.sqrt(c.inertia * c.a * c.b) }))
  // Close to uncoupled the far centre runs away, and close to k^2 = a b the names depend on rounding: tested below.
  .filter((c) => Math.abs(c.kf * c.a - c.kr * c.b) > 1000 && Math.abs(c.inertia - 1) > 1e-3);

describe('the half car', () => {
  test('has the eigenvalues and centres of its matrices', () => {
    forAny([halfCar], ({ m, radius, a, b, kf, kr }) => {
      // Coordinates: heave of the centre of gravity and pitch, nose up; millimetres, so that 1000 N/m per N/mm.
      const coupling = (1000 * (kf * a - kr * b)) / m;
      const reference = eigenmodes([
        [(1000 * (kf + kr)) / m, coupling],
        [coupling / radius ** 2, (1000 * (kf * a * a + kr * b * b)) / (m * radius ** 2)],
      ]);
      const { bounce, pitch } = halfCarModes(m, radius, a, b, kf, kr);
      const ours = [bounce, pitch].sort((x, y) => x.frequency - y.frequency);
      for (const [k, mode] of ours.entries()) {
        same(TWO_PI * mode.frequency, reference[k]?.omega ?? Number.NaN, 1e-9);
        // The body stands still where x + s theta = 0.
        same(mode.centre, -1 / (reference[k]?.ratio ?? Number.NaN), 1e-6);
      }
    });
  });

  test.each([
    [1000, 900, 1000, 1500, 18, 22],
    [760, 1150, 980, 1420, 34, 30],
    [1250, 1220, 1300, 1250, 52, 60],
  ])('of %d kg, radius %d mm, swings so when let go from an offset', (m, radius, a, b, kf, kr) => {
    const inertia = m * radius ** 2;
    const samples = swing(
      (_, [front = 0, rear = 0, vFront = 0, vRear = 0]) => {
        // Coordinates: heights over the axles; forces there turn and lift the body about its centre of gravity.
        const [pushFront, pushRear] = [-1000 * kf * front, -1000 * kr * rear];
        const heave = (pushFront + pushRear) / m;
        const turn = (pushFront * a - pushRear * b) / inertia;
        return [vFront, vRear, heave + a * turn, heave - b * turn];
      },
      [1, 0.3],
      0.08,
      200,
    );
    const { omegas, ratios } = readMotion(samples, 0.08);
    const { bounce, pitch } = halfCarModes(m, radius, a, b, kf, kr);
    const ours = [bounce, pitch].sort((x, y) => x.frequency - y.frequency);
    for (const [k, mode] of ours.entries()) {
      same(TWO_PI * mode.frequency, omegas[k] ?? Number.NaN, 1e-7);
      // Rear over front height in a mode that turns about its centre.
      same((-b - mode.centre) / (a - mode.centre), ratios[k] ?? Number.NaN, 1e-6);
    }
  });

  test('always has exactly one centre between the axles, and calls its mode pitch', () => {
    forAny([halfCar], ({ m, radius, a, b, kf, kr }) => {
      const { bounce, pitch } = halfCarModes(m, radius, a, b, kf, kr);
      expect(pitch.centre > -b && pitch.centre < a).toBe(true);
      expect(bounce.centre > -b && bounce.centre < a).toBe(false);
      same(bounce.centre * pitch.centre, -(radius ** 2), 1e-12);
    });
  });

  test('with k^2 = a b turns about its axles, and each axle swings by itself', () => {
    const uneven = halfCar.filter(({ a, b }) => Math.abs(a - b) > 1);
    forAny([uneven], ({ m, a, b, kf, kr }) => {
      const { bounce, pitch } = halfCarModes(m, Math.sqrt(a * b), a, b, kf, kr);
      const frontSwings = naturalFrequency(kf, (m * b) / (a + b));
      const rearSwings = naturalFrequency(kr, (m * a) / (a + b));
      const farIsFront = a > b;
      same(bounce.centre, farIsFront ? a : -b, 1e-6);
      same(pitch.centre, farIsFront ? -b : a, 1e-6);
      same(bounce.frequency, farIsFront ? rearSwings : frontSwings, 1e-6);
      same(pitch.frequency, farIsFront ? frontSwings : rearSwings, 1e-6);
    });
  });

  test('with both axles equally far and k^2 = a b calls the slower mode bounce', () => {
    for (const [kf, kr, centre] of [
      [18, 22, -1000],
      [22, 18, 1000],
    ] as const) {
      const { bounce, pitch } = halfCarModes(1000, 1000, 1000, 1000, kf, kr);
      expect(bounce.frequency).toBeLessThan(pitch.frequency);
      // The slow mode swings the soft end and so turns about the other axle.
      expect(bounce.centre).toBeCloseTo(centre, 6);
    }
  });

  test('with k_f a = k_r b bounces evenly and pitches about its centre of gravity', () => {
    const { bounce, pitch } = halfCarModes(1000, 1100, 1000, 1250, 25, 20);
    expect(bounce.centre).toBe(Number.POSITIVE_INFINITY);
    expect(pitch.centre).toBe(0);
    expect(bounce.frequency).toBeCloseTo(naturalFrequency(45, 1000), 12);
    const turning = 25 * 1000 ** 2 + 20 * 1250 ** 2;
    expect(pitch.frequency).toBeCloseTo(naturalFrequency(turning, 1000 * 1100 ** 2), 12);
  });

  test('close to uncoupled keeps its frequencies and lets the far centre run away', () => {
    const near = halfCarModes(1000, 1100, 1000, 1250, 25, 20 + 1e-9);
    const at = halfCarModes(1000, 1100, 1000, 1250, 25, 20);
    expect(Math.abs(near.bounce.centre)).toBeGreaterThan(1e9);
    expect(near.bounce.frequency).toBeCloseTo(at.bounce.frequency, 8);
    expect(near.pitch.frequency).toBeCloseTo(at.pitch.frequency, 8);
  });
});

describe('one mass', () => {
  test('falls to rest where its frequency says', () => {
    forAny([between(1, 200), between(10, 1000)], (k, m) => {
      const sag = (m * 9.80665) / k;
      same(staticDeflectionFrequency(sag, 9.80665), naturalFrequency(k, m), 1e-12);
    });
  });

  test('has no frequency on a rate that is not above 0', () => {
    expect(naturalFrequency(0, 100)).toBeNaN();
    expect(naturalFrequency(-3, 100)).toBeNaN();
    // 2 sqrt(1000 x 0.4 x 160): softest springs swing, too.
    expect(criticalDamping(0.4, 160)).toBeCloseTo(505.964, 3);
    expect(criticalDamping(-3, 100)).toBeNaN();
    expect(criticalDamping(0, 100)).toBeNaN();
    // The softest spring still has one.
    expect(naturalFrequency(0.4, 10)).toBeCloseTo(Math.sqrt(40) / TWO_PI, 12);
    expect(staticDeflectionFrequency(0, 9.8)).toBeNaN();
  });

  test('on two equal springs in series has half the rate, and on one very stiff one nearly the other’s', () => {
    forAny([between(1, 200)], (k) => {
      same(seriesRate(k, k), k / 2, 1e-12);
      same(seriesRate(k, 1e12), k, 1e-9);
    });
  });

  test('is critically damped at a ratio of 1, and a leverage counts twice', () => {
    forAny([between(1, 200), between(10, 1000), between(0.3, 1)], (k, m, MR) => {
      same(dampingRatio(criticalDamping(k, m), 1, k, m), 1, 1e-12);
      same(dampingRatio(3000, MR, k, m), MR ** 2 * dampingRatio(3000, 1, k, m), 1e-12);
    });
  });
});

describe('the speed at which front and rear fall in step', () => {
  test('lets the rear do one and a half swings from its bump while the front does them from its own', () => {
    const speed = inStepSpeed(2500, 1.3, 1.5) ?? Number.NaN;
    const delay = 2.5 / (speed / 3.6);
    expect(delay + 1.5 / 1.5).toBeCloseTo(1.5 / 1.3, 12);
  });

  test('does not exist where the rear is not faster, or beyond 200 km/h', () => {
    expect(inStepSpeed(2500, 1.5, 1.5)).toBeNull();
    expect(inStepSpeed(2500, 1.6, 1.5)).toBeNull();
    expect(inStepSpeed(2500, Number.NaN, 1.5)).toBeNull();
    expect(inStepSpeed(2500, 1.49, 1.5)).toBeNull();
    // 1/f_f - 1/f_r = 1/30 s with 2.5 m is 180 km/h; the wheelbase scales it.
    expect(inStepSpeed((2500 * 199.9) / 180, 1 / (0.6 + 1 / 30), 1 / 0.6)).toBeCloseTo(199.9, 9);
    expect(inStepSpeed((2500 * 200.1) / 180, 1 / (0.6 + 1 / 30), 1 / 0.6)).toBeNull();
  });
});

const point = (velocity: number, bump: number, rebound: number) => ({ velocity, bump, rebound });

test('a point at 0.1 m/s is taken as it stands, bump and rebound averaged', () => {
  expect(secantDamping([point(0.05, 1, 1), point(0.1, 200, 600), point(0.3, 9, 9)])).toBeCloseTo(4000, 9);
});

test('between two points the forces lie on the straight line', () => {
  expect(secantDamping([point(0.05, 100, 300), point(0.25, 300, 900)])).toBeCloseTo((150 + 450) / 0.2, 9);
});

test('a table that begins above 0.1 m/s gives no number: between rest and its first point nothing is known', () => {
  expect(secantDamping([point(0.2, 400, 1200), point(0.3, 500, 1400)])).toBeNull();
  expect(secantDamping([point(0.1, 400, 1200)])).toBeCloseTo(8000, 9);
});

test('a point at rest is allowed to begin the table', () => {
  expect(secantDamping([point(0, 0, 0), point(0.2, 400, 1200)])).toBeCloseTo(4000, 9);
});

test('a table that ends before 0.1 m/s gives no number', () => {
  expect(secantDamping([point(0.05, 100, 300), point(0.09, 200, 500)])).toBeNull();
  expect(secantDamping([])).toBeNull();
});

test('rebound alone is read at the same speed, and not at all from a table that does not reach it', () => {
  expect(reboundDamping([point(0.05, 200, 400), point(0.15, 400, 800)])).toBeCloseTo(6000, 9);
  expect(reboundDamping([point(0.02, 1, 1), point(0.05, 200, 400)])).toBeNull();
  expect(reboundDamping([point(0.2, 200, 400)])).toBeNull();
});

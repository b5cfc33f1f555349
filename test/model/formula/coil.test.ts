/** Identities of coil springs that hold for every spring, whatever its numbers. */
import { describe, expect, test } from 'vitest';
import {
  activeCoilsForRate,
  bergstraesserFactor,
  criticalDeflection,
  type EndType,
  greatestSolidHeight,
  inactiveCoils,
  leastGapSum,
  slendernessLimit,
  solidHeight,
  springMass,
  springRate,
  surgeFrequency,
  uncorrectedStress,
  wahlFactor,
} from '../../../src/model/formula/coil.ts';
import { between, forAny } from '../../setup/random.ts';

const G = 79_500;
const E = 206_000;
const wire = between(1, 16);
const index = between(4, 20);
const coils = between(2, 20);

function same(a: number, b: number, share = 1e-12) {
  expect(Math.abs(a / b - 1)).toBeLessThan(share);
}

describe('for every spring', () => {
  test('half the coils double the rate, and rate and coils turn into each other', () => {
    forAny([wire, index, coils], (d, C, n) => {
      same(springRate(G, d, C * d, n / 2), 2 * springRate(G, d, C * d, n));
      same(activeCoilsForRate(G, d, C * d, springRate(G, d, C * d, n)), n);
    });
  });

  test('Bergstraesser’s factor equals (w + 0.5)/(w - 0.75) of EN 13906-1', () => {
    forAny([index], (w) => {
      same(bergstraesserFactor(w), (w + 0.5) / (w - 0.75));
    });
  });

  test('Bergstraesser’s factor is below Wahl’s by 1.4 % at most', () => {
    forAny([between(4, 12)], (C) => {
      const share = 1 - bergstraesserFactor(C) / wahlFactor(C);
      expect(share).toBeGreaterThan(0);
      expect(share).toBeLessThan(0.01364);
    });
  });

  test('the surge frequency equals d/(2 pi n D^2) sqrt(G/(2 rho))', () => {
    const density = 7.85e-6;
    forAny([wire, index, coils], (d, C, n) => {
      const D = C * d;
      const f = surgeFrequency(springRate(G, d, D, n), springMass(d, D, n, density));
      // G in MPa over rho in kg/mm3 is 1000 mm2/s2.
      same(f, (d / (2 * Math.PI * n * D ** 2)) * Math.sqrt((1000 * G) / (2 * density)));
    });
  });

  test('the critical deflection is EN 13906-1’s and starts where the slenderness limit is passed', () => {
    forAny([between(20, 200), between(1.01, 5), between(0.5, 2)], (D, over, alpha) => {
      const length = (over * slendernessLimit(E, G) * D) / alpha;
      const root = 1 - ((1 - G / E) / (0.5 + G / E)) * ((Math.PI * D) / (alpha * length)) ** 2;
      same(criticalDeflection(length, D, alpha, E, G), ((length * 0.5) / (1 - G / E)) * (1 - Math.sqrt(root)), 1e-9);
      expect(criticalDeflection(length / over / 1.001, D, alpha, E, G)).toBe(Number.POSITIVE_INFINITY);
    });
  });

  test('the mass is the wire’s length times its section times the density', () => {
    forAny([wire, index, coils], (d, C, n) => {
      const length = Math.PI * C * d * n;
      same(springMass(d, C * d, n, 7.85e-6), length * (Math.PI / 4) * d ** 2 * 7.85e-6);
    });
  });

  test('stress and force go hand in hand, and thicker wire at the same mean diameter is stressed less', () => {
    forAny([between(1, 1e4), wire, index], (F, d, C) => {
      same(uncorrectedStress(2 * F, C * d, d), 2 * uncorrectedStress(F, C * d, d));
      same(uncorrectedStress(F, C * d, 1.1 * d), uncorrectedStress(F, C * d, d) / 1.1 ** 3);
    });
  });
});

/** Shigley’s Mechanical Engineering Design, Table 10-1, with d = 10 mm and 8 coils; EN 13906-1 (from memory) beside it. */
test.each([
  ['plain', 0, 90, 95],
  ['plain_ground', 1, 80, 80],
  ['closed', 2, 90, 95],
  ['closed_ground', 2, 80, 80],
] as const satisfies readonly (readonly [EndType, number, number, number])[])(
  'with %s ends %d coils are inactive, and the solid height is %d mm by the touching helix, at most %d mm by the standard',
  (ends, inactive, helix, greatest) => {
    expect(inactiveCoils(ends)).toBe(inactive);
    expect(solidHeight(10, 8, ends)).toBe(helix);
    expect(greatestSolidHeight(10, 8, ends)).toBe(greatest);
  },
);

test('a spring exactly at the slenderness limit does not buckle yet, the slightest bit beyond it does', () => {
  // One millimetre of mean diameter, both ends hinged: the slenderness is the length itself.
  const limit = slendernessLimit(E, G);
  expect(criticalDeflection(limit, 1, 1, E, G)).toBe(Number.POSITIVE_INFINITY);
  expect(criticalDeflection(limit * (1 + 1e-9), 1, 1, E, G)).toBeLessThan(limit);
});

test('at a spring index of 10 the least gap of a coil is a quarter of the wire: 0.0015 x 10^2 + 0.1', () => {
  // EN 13906-1, from memory; the arithmetic by hand.
  same(leastGapSum(8, 80, 5), 10);
  same(leastGapSum(4, 40, 3), 3);
  // At an index of 20 the wire's diameter counts four times as much and its own share as much: 0.6 + 0.1.
  same(leastGapSum(5, 100, 4), 14);
});

test('the least gap sum of a spring of 12 mm wire is in the range springs of this kind need, 10 to 15 mm', () => {
  expect(leastGapSum(12, 75, 6)).toBeGreaterThan(10);
  expect(leastGapSum(12, 75, 6)).toBeLessThan(15);
});

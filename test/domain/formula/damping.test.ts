import { expect, test } from 'vitest';
import { reboundDamping, secantDamping } from '../../../src/domain/formula/damping.ts';

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

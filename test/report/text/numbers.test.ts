import { expect, test } from 'vitest';
import { UNITS } from '../../../src/model/units.ts';
import {
  count,
  fixed,
  inImperial,
  inInner,
  PAGE,
  PLAIN,
  percent,
  withUnits,
} from '../../../src/report/text/numbers.ts';

test('lengths have one decimal in mm and two in inches, 25.4 mm an inch', () => {
  expect(withUnits(254, 'length', PLAIN)).toBe('254.0 mm (10.00 in)');
});

test('a force of 1000 N is 224.8 lbf (NIST SP 811 App. B.8: 1 lbf = 4.448222 N)', () => {
  expect(withUnits(1000, 'force', PLAIN)).toBe('1000.0 N (224.8 lbf)');
});

test('a rate of 10 N/mm is 57.1 lbf/in (NIST SP 811 App. B.8: 1 lbf/in = 175.1268 N/m)', () => {
  expect(withUnits(10, 'rate', PLAIN)).toBe('10.00 N/mm (57.1 lbf/in)');
});

test('what both worlds share is written once, what has no unit has none', () => {
  expect(withUnits(1.5, 'frequency', PLAIN)).toBe('1.50 Hz');
  expect(withUnits(0.94, 'ratio', PLAIN)).toBe('0.940');
  expect(inImperial(1.5, 'frequency', PLAIN)).toBeNull();
});

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, null, undefined])(
  '%s is nothing, in every dimension and both styles',
  (value) => {
    for (const dimension of Object.keys(UNITS) as (keyof typeof UNITS)[]) {
      expect(withUnits(value, dimension, PLAIN)).toBe('none');
      expect(inInner(value, dimension, PAGE)).toBe('–');
      expect(inImperial(value, dimension, PAGE) ?? '–').toBe('–');
    }
  },
);

test('a page has a true minus, a terminal a hyphen; what rounds to zero has neither', () => {
  expect(fixed(-4.25, 1, PAGE)).toBe('\u22124.3');
  expect(fixed(-4.25, 1, PLAIN)).toBe('-4.3');
  expect(fixed(-0.04, 1, PAGE)).toBe('0.0');
  expect(fixed(-0, 1, PLAIN)).toBe('0.0');
});

test('counts are grouped in threes', () => {
  expect([0, 999, 1000, 1_234_567].map((n) => count(n, PLAIN))).toEqual(['0', '999', '1,000', '1,234,567']);
  expect(count(48_600, PAGE)).toBe('48\u202f600');
});

test('a share of nothing is nothing', () => {
  expect(percent(1, 8, PLAIN)).toBe('12.5 %');
  expect(percent(0, 0, PLAIN)).toBe('none');
});

test('page units carry raised exponents', () => {
  expect(withUnits(12, 'area', PAGE)).toMatch(/^12\.0 mm²/);
});

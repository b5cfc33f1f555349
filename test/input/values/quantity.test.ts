/**
 * Expected values: exact definitions of inch, pound and standard gravity, and the rounded factors of NIST SP 811
 * (2008), Appendix B.8: lbf/in 175.1268 N/m, lbf 4.448222 N, psi 6894.757 Pa.
 */

import { expect, test } from 'vitest';
import { readQuantity, type Spec } from '../../../src/input/values/quantity.ts';

type Dimension = Spec['dimension'];

function innerValue(text: unknown, dimension: Dimension, spec: Partial<Spec> = {}): number {
  const read = readQuantity(text, { dimension, sign: 'any', ...spec });
  return 'value' in read ? read.value : Number.NaN;
}

function complaintAbout(text: unknown, dimension: Dimension, spec: Partial<Spec> = {}) {
  const read = readQuantity(text, { dimension, sign: 'any', ...spec });
  return 'complaint' in read ? read.complaint : null;
}

const READ: readonly (readonly [Dimension, number, readonly string[]])[] = [
  ['length', 178, ['178 mm', '178mm', '  17.8  cm ']],
  ['length', 177.8, ['7 in', '7in', '7"', '7 inches']],
  ['length', 1200, ['1.2 m']],
  ['length', 304.8, ['1 ft']],
  ['length', -4, ['-4 mm']],
  ['length', 150, ['1.5e2 mm']],
  ['length', 0.5, ['.5 mm']],
  ['rate', 62, ['62 N/mm', '62 N / mm', '62 n/mm', '62 kN/m']],
  ['rate', 61.29438, ['350 lbf/in', '350 lb/in', '350 lbs/in']],
  ['rate', 63.743225, ['6.5 kgf/mm', '6.5 kg/mm']],
  ['mass', 268, ['268 kg']],
  ['mass', 267.6194983, ['590 lb', '590 lbs']],
  ['frequency', 1.9, ['1.9 Hz', '114 cpm']],
  ['stress', 2, ['20 bar']],
  ['stress', 1.99947953, ['290 psi']],
  ['stress', 78500, ['78.5 GPa']],
  ['temperature', 20, ['20 degC', '20 °C', '68 degF']],
  ['force', 180, ['180 N']],
  ['force', 177.92888, ['40 lbf']],
  ['force', 98.0665, ['10 kgf']],
  ['volume', 120_000, ['120 cm3', '120 cc']],
  ['area', 154, ['154 mm2', '154 mm²']],
  ['velocity', 0.05, ['0.05 m/s']],
  ['velocity', 0.0508, ['2 in/s']],
  ['share', 0.02, ['2 %', '2%']],
];

test.each(READ.flatMap(([dimension, value, texts]) => texts.map((text) => [text, dimension, value] as const)))(
  '%s is read as a %s of %d',
  (text, dimension, expected) => {
    expect(Math.abs(innerValue(text, dimension) / expected - 1)).toBeLessThan(3e-7);
  },
);

test('a bare number is read where no unit is wanted', () => {
  expect(innerValue(0.95, 'ratio')).toBe(0.95);
});

test('a bare number where a unit is needed names the units that fit', () => {
  expect(complaintAbout(178, 'length')).toEqual({
    found: '`178` without a unit',
    expected: 'a length with its unit (mm, cm, m, in or ft)',
    advice: 'write `178 mm` (or `178 cm`, `178 m`, `178 in` or `178 ft`), whichever was measured',
  });
  expect(complaintAbout('178', 'length')?.found).toContain('without a unit');
});

test('a wrong unit names the units that fit', () => {
  const complaint = complaintAbout('62 Nm', 'rate');
  expect(complaint?.found).toContain('`Nm` does not fit');
  expect(complaint?.expected).toContain('N/mm, kN/m, N/m, lbf/in or kgf/mm');
});

test.each([
  ['17,5 mm', '17.5 mm'],
  ['17,5mm', '17.5 mm'],
  ['1,234,5 mm', '1.2345 mm'],
  ['1.234,5 mm', '1234.5 mm'],
])('the comma in %s is explained', (text, rewritten) => {
  expect(complaintAbout(text, 'length')?.advice).toContain(`\`${rewritten}\``);
});

test('a comma in a bare number is explained too', () => {
  expect(complaintAbout('0,95', 'ratio')?.advice).toContain('`0.95`');
});

test('fractions of an inch are rewritten as decimals', () => {
  expect(complaintAbout('7 1/2 in', 'length')?.advice).toBe('write `7.5 in`');
  expect(complaintAbout('1/2 in', 'length')?.advice).toBe('write `0.5 in`');
});

test.each([Number.NaN, Number.POSITIVE_INFINITY, 'NaN mm', 'Infinity mm', '-inf mm', '.inf', '1e999 mm'])(
  '%s is refused as not finite',
  (value) => {
    expect(complaintAbout(value, 'length')?.found).toContain('not a finite number');
  },
);

test.each([null, undefined, true, [], {}, '', 'mm', 'about 5 mm', '5 mm 6', '--5 mm', '0x10 mm'])(
  '%s is not a length',
  (value) => {
    expect(complaintAbout(value, 'length')).not.toBeNull();
  },
);

test('signs and limits are kept', () => {
  expect(complaintAbout('0 mm', 'length', { sign: 'positive' })?.expected).toBe('a length above 0');
  expect(complaintAbout('-1 mm', 'length', { sign: 'not_negative' })?.expected).toBe('a length of 0 or more');
  expect(complaintAbout('178 m', 'length')?.expected).toBe('a length of at most 10000 mm');
  expect(complaintAbout('1e-9 mm', 'length', { sign: 'positive' })?.expected).toBe('a length of at least 0.01 mm');
  const orNothing = 'a length of 0 or at least 0.01 mm';
  expect(complaintAbout('1e-9 mm', 'length', { sign: 'not_negative' })?.expected).toBe(orNothing);
  expect(complaintAbout('0 mm', 'length', { sign: 'not_negative' })).toBeNull();
  expect(complaintAbout('-1e-9 mm', 'length', { sign: 'any' })?.expected).toBe(orNothing);
  expect(complaintAbout('32.00001 degF', 'temperature', { sign: 'any' })).toBeNull();
  expect(complaintAbout(1.5, 'ratio', { most: 1 })?.expected).toBe('a number of at most 1');
  expect(complaintAbout(2.5, 'count', { whole: true })?.expected).toBe('a number without decimals');
});

test('what is shown of a value holds no character a terminal would obey', () => {
  expect(complaintAbout('\u001b[31m5\u202e mm', 'length')?.found).toBe('`[31m5  mm`');
});

test.each([
  ['17,5', 'length', 'write `17.5 mm`'],
  ['1,250 mm', 'length', 'write `1.25 mm` if the comma is a decimal sign, `1250 mm` if it stands between thousands'],
  ['0,125 in', 'length', 'write `0.125 in`'],
  ['7,5', 'ratio', 'write `7.5`, `7, 5` if it stands between two values of a list'],
] as const)('the advice for %s holds all it can mean, each whole', (text, dimension, advice) => {
  expect(complaintAbout(text, dimension)?.advice).toBe(advice);
});

test('a percentage is read where a number can be 1 at most, and elsewhere advised as the number it is', () => {
  expect(innerValue('40 %', 'ratio', { most: 1 })).toBe(0.4);
  expect(complaintAbout('140 %', 'ratio', { most: 1 })?.expected).toBe('a number of at most 1');
  expect(complaintAbout('94 %', 'ratio')?.advice).toBe(
    'write it as a bare number, like `0.94`, without unit or quotes',
  );
});

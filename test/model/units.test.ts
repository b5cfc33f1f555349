/** Every factor of the table of units against mathjs, a general-purpose unit library that knows nothing of this program. */
import fc from 'fast-check';
import { unit as quantity } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  ALSO,
  type Dimension,
  findUnit,
  findUnitByKey,
  fromInner,
  imperialUnit,
  innerUnit,
  toInner,
  UNITS,
  type Unit,
} from '../../src/model/units.ts';
import { between, forAny } from '../setup/random.ts';

/**
 * How mathjs writes a unit; one that it writes alike is left out. Its own psi is a rounded figure (6e-11 off), so that
 * one is spelled out of exact parts.
 */
const SPELLING: Readonly<Record<string, string>> = {
  mm2: 'mm^2',
  cm2: 'cm^2',
  in2: 'in^2',
  mm3: 'mm^3',
  cm3: 'cm^3',
  in3: 'in^3',
  psi: 'lbf/in^2',
  '1/min': 'minute^-1',
  'km/h': 'km/hour',
  mph: 'mile/hour',
  '1/m': 'm^-1',
  '1/in': 'in^-1',
};

/** Dimensions whose units mathjs has no word for: plain numbers, shares, money. */
const NUMBERS: readonly Dimension[] = ['ratio', 'share', 'count', 'money'];
const dimensions = (Object.keys(UNITS) as Dimension[]).filter((d) => !NUMBERS.includes(d));
const cases = dimensions.flatMap((dimension) =>
  UNITS[dimension].map((unit: Unit) => [dimension, unit.symbol, unit] as const),
);

function byMathjs(value: number, symbol: string, inner: string): number {
  const target = SPELLING[inner] ?? inner;
  // mathjs has no kilogram-force in quotients; standard gravity is exact (NIST SP 811, App. B.8).
  if (symbol.startsWith('kgf')) return quantity(value * 9.80665, symbol.replace('kgf', 'N')).toNumber(target);
  return quantity(value, SPELLING[symbol] ?? symbol).toNumber(target);
}

describe('a unit turns into the inner unit as mathjs turns it', () => {
  test.each(cases)('%s in %s', (dimension, symbol, unit) => {
    const inner = innerUnit(dimension).symbol;
    if (dimension === 'temperature') return expectTemperature(unit);
    for (const value of [1, 12.5, 0.003]) {
      const expected = byMathjs(value, symbol, inner);
      expect(Math.abs(toInner(value, unit) / expected - 1), `${value} ${symbol}`).toBeLessThan(1e-14);
    }
  });
});

function expectTemperature(unit: Unit) {
  for (const value of [-40, 20, 100]) {
    const expected = quantity(value, unit.symbol).toNumber('degC');
    expect(toInner(value, unit)).toBeCloseTo(expected, 9);
  }
}

test('every dimension with units is compared', () => {
  expect(cases.length).toBeGreaterThanOrEqual(44);
});

test('a value turned into the inner unit and back stays the value', () => {
  const any = fc.constantFrom(...cases.map(([, , unit]) => unit));
  forAny([any, between(-1e6, 1e6)], (unit, value) => {
    const back = fromInner(toInner(value, unit), unit);
    expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 + 1e-12 * Math.abs(value));
  });
});

test('every spelling of a unit finds it again, by symbol, by other spellings and by key', () => {
  for (const [dimension, symbol, unit] of cases) {
    expect(findUnit(dimension, symbol)).toBe(unit);
    expect(findUnitByKey(dimension, unit.key)).toBe(unit);
    for (const other of ALSO[dimension]?.[symbol] ?? []) expect(findUnit(dimension, other), other).toBe(unit);
  }
});

test('an unknown unit is null, never a guess', () => {
  expect(findUnit('length', 'furlong')).toBeNull();
  expect(findUnit('length', 'N')).toBeNull();
  expect(findUnitByKey('rate', 'lbf/in')).toBeNull();
});

test('the inner unit has the factor 1 and the imperial partner is another unit of the same dimension', () => {
  for (const dimension of dimensions) {
    expect(innerUnit(dimension).factor).toBe(1);
    const partner = imperialUnit(dimension);
    if (partner !== null) expect(UNITS[dimension]).toContain(partner);
  }
  expect(imperialUnit('rate')?.symbol).toBe('lbf/in');
  expect(imperialUnit('frequency')).toBeNull();
});

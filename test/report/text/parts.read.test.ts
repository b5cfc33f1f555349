import { expect, test } from 'vitest';
import { measure, quantityOf, wordOf } from '../../../src/report/text/parts.ts';
import type { CornerKey, CornerValues } from '../../../src/result/quantities/corner.ts';
import { combination } from '../fixture.ts';

test('a quantity that does not exist for a corner is null, a key that nobody knows is an error', () => {
  const told: CornerValues = { trim_mm: null };
  expect(quantityOf(told, 'trim_mm')).toBeNull();
  expect(() => quantityOf<CornerValues>({}, 'trim_mm')).toThrow('no quantity “trim_mm”');
  // Compiles only as long as the compiler knows from the tables which keys there are, units included.
  const known: { readonly [K in 'trim_mm' | 'trim_n' | 'load_1_height_mm']: K extends CornerKey ? true : false } = {
    trim_mm: true,
    trim_n: false,
    load_1_height_mm: true,
  };
  expect(known.trim_n).toBe(false);
  expect(() => wordOf(combination('low', 1).axles.front, 'mood')).toThrow('no word “mood”');
});

test('a measure stands in both worlds where there are two', () => {
  expect(measure(25.4, 'length')).toEqual({ metric: '25.4', unit: 'mm', imperial: '1.00', imperialUnit: 'in' });
  expect(measure(1.5, 'frequency')).toEqual({ metric: '1.50', unit: 'Hz', imperial: null, imperialUnit: null });
});

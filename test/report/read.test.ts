import { expect, test } from 'vitest';
import { measure, quantityOf, wordOf } from '../../src/report/read.ts';
import { combination } from './fixture.ts';

test('a quantity that does not exist for a corner is null, a key that nobody knows is an error', () => {
  expect(quantityOf({ trim_mm: null }, 'trim_mm')).toBeNull();
  expect(() => quantityOf({}, 'trim_mm')).toThrow('no quantity “trim_mm”');
  expect(() => wordOf(combination('low', 1).axles.front, 'mood')).toThrow('no word “mood”');
});

test('a measure stands in both worlds where there are two', () => {
  expect(measure(25.4, 'length')).toEqual({ metric: '25.4', unit: 'mm', imperial: '1.00', imperialUnit: 'in' });
  expect(measure(1.5, 'frequency')).toEqual({ metric: '1.50', unit: 'Hz', imperial: null, imperialUnit: null });
});

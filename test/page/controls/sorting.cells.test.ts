import { expect, test } from 'vitest';
import { compareCells, numberOf } from '../../../src/page/controls/sorting.ts';

const sorted = (cells: readonly string[], falling = false) => [...cells].sort((a, b) => compareCells(a, b, falling));

test('figures sort by size, with a true minus and grouped digits', () => {
  expect(numberOf('6\u202f676')).toBe(6676);
  expect(numberOf('\u22124.2')).toBe(-4.2);
  expect(numberOf('helper 50')).toBeNull();
  expect(sorted(['10.0', '\u22124.2', '9.5', '6\u202f676'])).toEqual(['\u22124.2', '9.5', '10.0', '6\u202f676']);
});

test('words sort by alphabet with the figures in them by size, and after bare figures', () => {
  expect(sorted(['coil 100', 'coil 60', '7 coils', 'Band'])).toEqual(['7 coils', 'Band', 'coil 60', 'coil 100']);
});

test('what has no value comes last either way', () => {
  expect(sorted(['\u2013', '3', '', '1'])).toEqual(['1', '3', '\u2013', '']);
  expect(sorted(['\u2013', '3', '', '1'], true)).toEqual(['3', '1', '\u2013', '']);
});

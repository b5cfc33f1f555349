import { expect, test } from 'vitest';
import { lookedText, rangeLabel, rangeText, rateText } from '../../../src/report/text/adviceText.ts';
import { PLAIN } from '../../../src/report/text/numbers.ts';
import type { WorkingRange } from '../../../src/result/advice.ts';

const cuts = (works_mm: readonly number[], gaps_mm: readonly number[] = []) =>
  ({ kind: 'length', dimension: 'trim', options: 9, works_mm, gaps_mm }) as unknown as WorkingRange;
const parts = (works: readonly string[]) =>
  ({ kind: 'part', family: 'mount', options: 3, works }) as unknown as WorkingRange;

test('a range of cuts says from where to where, what lies between and does not work, and how many of the listed', () => {
  expect(rangeText(cuts([10, 20, 40], [30]), PLAIN)).toBe(
    '10.0 mm (0.39 in) to 40.0 mm (1.57 in), 3 of 9 listed, but not 30.0 mm (1.18 in)',
  );
  expect(rangeText(cuts([10]), PLAIN)).toBe('only 10.0 mm (0.39 in), 1 of 9 listed');
  expect(rangeText(cuts([]), PLAIN)).toBe('none of 9 listed');
});

test('parts that work are named, none of them too', () => {
  expect(rangeText(parts(['flat', 'none']), PLAIN)).toBe('flat or without one, 2 of 3 listed');
  expect(rangeText(parts(['flat']), PLAIN)).toBe('only flat, 1 of 3 listed');
  expect(rangeText(parts([]), PLAIN)).toBe('none of 3 listed');
  expect(rangeLabel(parts([]))).toBe('top mount');
});

test('a thinned search says that a closer combination may exist', () => {
  expect(lookedText(108, 108)).toBe('All 108 combinations with each spring were looked at.');
  expect(lookedText(10_800, 512)).toContain('512 were looked at, on evenly thinned option lists');
});

test('where no spring gives a frequency that is said instead of a rate', () => {
  const needed = { frequency_hz: 2, from: 'wanted', rate_n_per_mm: null, nearest: [], listed: false } as never;
  expect(rateText(needed, PLAIN)).toBe('2.00 Hz (wanted): no spring gives it; gas, bushes or tyre alone decide.');
});

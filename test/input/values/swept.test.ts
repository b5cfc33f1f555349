import { expect, test } from 'vitest';
import type { Spec } from '../../../src/input/values/quantity.ts';
import { readSwept } from '../../../src/input/values/swept.ts';

const LENGTH: Spec = { dimension: 'length', sign: 'not_negative' };
const read = (value: unknown) => readSwept(value, LENGTH);
const range = (from: unknown, to: unknown, step: unknown) => read({ from, to, step });

test('one value, a list and a range give their values in order', () => {
  expect(read('5 mm').values).toEqual([5]);
  expect(read(['5 mm', '1 cm']).values).toEqual([5, 10]);
  expect(range('0 mm', '50 mm', '10 mm').values).toEqual([0, 10, 20, 30, 40, 50]);
});

test('a range that misses its end stops before it', () => {
  expect(range('0 mm', '45 mm', '20 mm').values).toEqual([0, 20, 40]);
});

test('values are start plus whole steps, so that 0.1 mm does not drift', () => {
  const values = range('0 mm', '300 mm', '0.1 mm').values ?? [];
  expect(values).toHaveLength(3001);
  values.forEach((value, i) => {
    expect(value).toBe(i * 0.1);
  });
});

test('the end belongs to a range although rounding puts it a hair beyond the last step', () => {
  // (0.3 - 0) / 0.1 is 2.9999999999999996 in binary.
  expect(range('0 mm', '0.3 mm', '0.1 mm').values).toHaveLength(4);
  expect(range('6 in', '10 in', '0.5 in').values).toHaveLength(9);
});

test('steps that are zero or negative are refused at the step', () => {
  for (const step of ['0 mm', '-1 mm']) {
    expect(range('0 mm', '5 mm', step).complaints?.[0]?.path).toEqual(['step']);
  }
});

test('a reversed range is refused', () => {
  expect(range('5 mm', '1 mm', '1 mm').complaints?.[0]?.complaint.found).toBe('a range from 5 mm to 1 mm');
});

test('10,000 values are accepted and 10,001 refused with their count', () => {
  expect(range('0 mm', '999.9 mm', '0.1 mm').values).toHaveLength(10_000);
  expect(range('0 mm', '1000 mm', '0.1 mm').complaints?.[0]?.complaint.found).toBe('a range of 10001 values');
  expect(range('0 mm', '1000 mm', '1e-300 mm').complaints?.[0]?.complaint.found).toContain('values');
});

test('every fault in a list or range is named with its place', () => {
  expect(read(['5 mm', 6, '7 kg', '5 mm']).complaints?.map(({ path }) => path)).toEqual([[1], [2], [3]]);
  expect(read({ form: '0 mm', to: 5, step: '1 mm' }).complaints?.map(({ path }) => path)).toEqual([
    ['form'],
    [],
    ['to'],
  ]);
});

test('an empty list is refused', () => {
  expect(read([]).complaints?.[0]?.complaint.found).toBe('an empty list');
});

/**
 * Facts of the trade that every builder knows and nobody publishes. They hold the model to plausibility, not to digits:
 * each is marked as common practice without a source, and none of them is counted among the published values.
 */

import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { PRACTICE } from './quantities/practice.ts';
import { factorOf, type Inputs, readRows } from './rows.ts';

const QUANTITIES: Readonly<Record<string, (i: Inputs) => number>> = PRACTICE;
const rows = readRows(fileURLToPath(new URL('./common-practice.csv', import.meta.url)));

describe('the model agrees with common practice', () => {
  test.each(rows.map((row) => [row.id, row] as const))('%s', (_, row) => {
    const computed = (QUANTITIES[row.quantity]?.(row.inputs) ?? Number.NaN) / factorOf(row.unit);
    expect(Math.abs(computed - row.expected), `computed ${computed}`).toBeLessThanOrEqual(row.tolerance);
    expect(row.inputs.unused(), 'inputs nobody used').toEqual([]);
  });
});

test('every row says that it has no source, and every quantity is called for', () => {
  expect(rows.length).toBe(16);
  expect(rows.map((row) => row.source).filter((source) => source !== 'common practice, no source')).toEqual([]);
  const called = new Set(rows.map((row) => row.quantity));
  expect(Object.keys(QUANTITIES).filter((name) => !called.has(name))).toEqual([]);
});

test('the worst perch is at an end of the window whatever the height between', () => {
  const inputs = (low: number, high: number) =>
    ({ number: (key: string) => (key === 'low' ? low : high) }) as unknown as Inputs;
  for (let height = 322; height < 344; height += 2) {
    expect(PRACTICE.bump_travel_gained(inputs(height, height + 2))).toBeGreaterThan(0);
    expect(PRACTICE.bind_clearance_lost(inputs(height, height + 2))).toBeGreaterThan(0);
  }
});

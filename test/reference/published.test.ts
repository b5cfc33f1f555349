/**
 * Values printed in standards and books, each computed with the program's own formulas. Set SPRINGSIFT_REFERENCE_TABLE
 * to a file name to have the comparison written there as a table.
 */

import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { COIL } from './quantities/coil.ts';
import { CORNER } from './quantities/corner.ts';
import { TABLES } from './quantities/tables.ts';
import { VIBRATION } from './quantities/vibration.ts';
import { factorOf, type Inputs, type Row, readRows } from './rows.ts';
import { type Comparison, comparisonTable } from './table.ts';

const QUANTITIES: Readonly<Record<string, (i: Inputs) => number>> = { ...COIL, ...TABLES, ...VIBRATION, ...CORNER };
const PUBLISHED_VALUES = 222;

const rows = readRows(fileURLToPath(new URL('./published.csv', import.meta.url)));
const compared: Comparison[] = [];

function compare(row: Row): Comparison {
  const quantity = QUANTITIES[row.quantity];
  if (quantity === undefined) throw new Error(`${row.id}: nothing computes ${row.quantity}`);
  const computed = quantity(row.inputs) / factorOf(row.unit);
  const off = Math.abs(computed - row.expected);
  // Printed digits and factors are decimals, so the last binary digit is free.
  const rounding = 4 * Number.EPSILON * Math.abs(row.expected);
  return { row, computed, deviation: off <= rounding ? 0 : off / row.tolerance };
}

describe('a published value is met within its tolerance', () => {
  test.each(rows.map((row) => [row.id, row] as const))('%s', (_, row) => {
    const comparison = compare(row);
    compared.push(comparison);
    expect(comparison.deviation, `computed ${comparison.computed}, printed ${row.expected}`).toBeLessThanOrEqual(1);
    expect(row.inputs.unused(), 'inputs nobody used').toEqual([]);
  });
});

test('every published value was run', () => {
  expect(rows.length).toBe(PUBLISHED_VALUES);
  expect(compared.length).toBe(PUBLISHED_VALUES);
  expect(new Set(rows.map((row) => row.id)).size).toBe(PUBLISHED_VALUES);
});

test('every quantity that can be computed is called for by a row', () => {
  const called = new Set(rows.map((row) => row.quantity));
  expect(Object.keys(QUANTITIES).filter((name) => !called.has(name))).toEqual([]);
});

test('every row names its source, and no quantity rests on remembered or derived values alone', () => {
  const firm = (row: Row) => !/from memory|^derived/.test(row.source);
  for (const row of rows) expect([row.source, row.reproduces], row.id).not.toContain('');
  for (const [name, group] of byQuantity()) {
    if (!group.some(firm)) expect(CHECKED_OTHERWISE, name).toHaveProperty(name);
  }
});

/** Quantities whose rows are remembered or derived, and what else holds them. */
const CHECKED_OTHERWISE: Readonly<Record<string, string>> = {
  half_bounce_omega: 'eigenvalues and integrated motion in test/model/formula/vibration.test.ts',
  half_pitch_omega: 'the same',
  half_bounce_centre: 'the same',
  half_pitch_centre: 'the same',
  gas_force: 'the work of the gas law in test/model/formula/gas.test.ts',
  gas_rate: 'a difference quotient in test/model/formula/gas.test.ts',
  corner_gas_force: 'the same',
  lever_ratio: 'exact geometry, printed beside the value',
  lever_ratio_slope: 'the same',
  lever_wheel_rate: 'the same',
};

function byQuantity(): Map<string, Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) groups.set(row.quantity, [...(groups.get(row.quantity) ?? []), row]);
  return groups;
}

afterAll(() => {
  const file = process.env.SPRINGSIFT_REFERENCE_TABLE;
  if (file) writeFileSync(file, comparisonTable(compared));
});

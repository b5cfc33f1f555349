import { expect, test } from 'vitest';
import { CHECK, CHECKS } from '../../../src/model/corner/checks.ts';
import { checksShown, mapCells } from '../../../src/report/charts/springMap.ts';
import type { SpringCell } from '../../../src/result/result.ts';

const cell = (free: number, rate: number, best: number | null, rejected: SpringCell['rejected'] = {}): SpringCell => ({
  spring: `${free} x ${rate}`,
  free_length_mm: free,
  rate_n_per_mm: rate,
  workable: best === null ? 0 : 3,
  best_score: best,
  rejected,
});
const CELLS = [
  cell(200, 40, 0.62, { coil_bind: 9 }),
  cell(200, 50, null, { coil_bind: 5, fit: 5, bump_travel: 2 }),
  cell(220, 40, null, { perch_low: 7 }),
  cell(220, 40, 0.8, {}),
];
const CHOSEN = { freeLength: 220, rate: 40 };

test('a cell holds the best score of its springs, or the check that rejects most, the earlier among equals', () => {
  const cells = mapCells(CELLS, CHOSEN, { columns: 20, rows: 20 });
  expect(cells.map(({ row, column, score }) => [row, column, score])).toEqual([
    ['50 (286)', '200|7.87', null],
    ['40 (228)', '200|7.87', 0.62],
    ['40 (228)', '220|8.66', 0.8],
  ]);
  expect(cells[0]?.letter).toBe(CHECK.fit.letter);
  expect(cells.map(({ isChosen }) => isChosen)).toEqual([false, false, true]);
});

test('more lengths than a page holds share cells, and no spring is lost', () => {
  const many = Array.from({ length: 100 }, (_, k) => cell(100 + k, 30, k / 100));
  const cells = mapCells(many, CHOSEN, { columns: 8, rows: 8 });
  expect(cells).toHaveLength(8);
  expect(Math.max(...cells.map(({ score }) => score ?? 0))).toBe(0.99);
  expect(cells[0]?.column).toMatch(/…$/);
});

test('letters differ from check to check, and the key lists those that stand in the map', () => {
  expect(new Set(CHECKS.map((check) => CHECK[check].letter)).size).toBe(CHECKS.length);
  expect(checksShown(CELLS)).toEqual(['fit']);
});

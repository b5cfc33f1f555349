/**
 * Free length x rate: the best score of any combination with that spring as a figure on a shade, and for a spring that
 * never works a letter for the check that rejects most of its combinations.
 */

import type { TopLevelSpec } from 'vega-lite';
import { CHECK, CHECKS, type CheckName } from '../../model/corner/checks.ts';
import { fromInner, imperialUnit, innerUnit } from '../../model/units.ts';
import type { SpringCell } from '../../result/result.ts';
import { paint } from '../frame/theme.ts';
import { fixed, inImperial, PAGE } from '../text/numbers.ts';
import { chartOf, number } from './axes.ts';
import { TYPE_SIZE } from './draw.ts';

const WIDTH = 262;
const ROW = 20;

export interface SpringMap {
  readonly cells: readonly SpringCell[];
  /** The spring of the best combination, outlined. */
  readonly chosen: ChosenSpring;
}

export function springMap({ cells, chosen }: SpringMap): TopLevelSpec {
  const drawn = mapCells(cells, chosen, MOST_CELLS);
  const columns = [...new Set(drawn.map(({ column }) => column))].sort(
    (a, b) => Number.parseFloat(a) - Number.parseFloat(b),
  );
  const rows = [...new Set(drawn.map(({ row }) => row))];
  const places = { columns, rows };
  const width = Math.min(WIDTH, columns.length * 48);
  return chartOf(width, rows.length * ROW, [
    ...shades(drawn, places),
    ...(['ink', 'muted'] as const).map((ink) =>
      figures(
        drawn.filter(({ score }) => (score !== null) === (ink === 'ink')),
        places,
        paint(ink),
      ),
    ),
  ]);
}

interface Places {
  readonly columns: readonly string[];
  readonly rows: readonly string[];
}

/** The whole order stands in each scale: layers hold only some of the cells. */
export function encoding({ columns, rows }: Places) {
  const axis = (title: string) => ({ title, domain: false, ticks: false, labelAngle: 0 });
  return {
    x: {
      field: 'column',
      type: 'ordinal',
      scale: { domain: columns },
      axis: { ...axis('free length, mm (below: in)'), labelExpr: "split(datum.label, '|')" },
    },
    y: { field: 'row', type: 'ordinal', scale: { domain: rows }, axis: axis('rate, N/mm (lbf/in)') },
  };
}

/** A shade for what works, an empty frame for what doesn’t, a thick frame for the best combination’s spring. */
function shades(drawn: readonly MapCell[], places: Places): object[] {
  const layer = (values: readonly MapCell[], mark: object, extra: object = {}) => ({
    data: { values },
    mark: { type: 'rect', ...mark },
    encoding: { ...encoding(places), ...extra },
  });
  const works = drawn.filter(({ score }) => score !== null);
  return [
    layer(drawn, { fill: paint('panel'), stroke: paint('paper'), strokeWidth: 1.5 }),
    layer(
      works,
      { fill: paint('accent'), stroke: paint('paper'), strokeWidth: 1.5 },
      {
        fillOpacity: number('score', { scale: { domain: [0, 1], range: [0.12, 0.55] }, legend: null }),
      },
    ),
    layer(
      drawn.filter(({ isChosen }) => isChosen),
      { fill: null, stroke: paint('ink'), strokeWidth: 2 },
    ),
  ];
}

function figures(drawn: readonly MapCell[], places: Places, fill: string): object {
  const texts = drawn.map(({ column, row, score, letter }) => ({
    column,
    row,
    text: score === null ? letter : score.toFixed(2).replace(/^0/, ''),
  }));
  return {
    data: { values: texts },
    mark: { type: 'text', fontSize: TYPE_SIZE, baseline: 'middle', fill },
    encoding: { ...encoding(places), text: { field: 'text', type: 'nominal' } },
  };
}

// The cells of a map of springs by free length and rate: what each says, and how many a page holds.

export interface MapSize {
  /** Columns and rows that are drawn at most; more springs share cells. */
  readonly columns: number;
  readonly rows: number;
}

/** What a phone’s width holds with a figure in each cell. */
const MOST_CELLS: MapSize = { columns: 11, rows: 24 };

interface MapCell {
  readonly column: string;
  readonly row: string;
  readonly score: number | null;
  readonly letter: string;
  readonly isChosen: boolean;
}

interface ChosenSpring {
  readonly freeLength: number;
  readonly rate: number;
}

/** One cell for each length and rate, or for a run of neighbouring ones where there are more than a page holds. */
export function mapCells(cells: readonly SpringCell[], chosen: ChosenSpring, most: MapSize): MapCell[] {
  const columnOf = binning(
    cells.map((cell) => cell.free_length_mm),
    most.columns,
    lengthName,
  );
  const rowOf = binning(
    cells.map((cell) => cell.rate_n_per_mm),
    most.rows,
    rateName,
  );
  const bins = new Map<string, { column: Bin; row: Bin; cells: SpringCell[] }>();
  for (const cell of cells) {
    const column = columnOf(cell.free_length_mm);
    const row = rowOf(cell.rate_n_per_mm);
    const key = `${column.from}/${row.from}`;
    const bin = bins.get(key) ?? { column, row, cells: [] };
    bin.cells.push(cell);
    bins.set(key, bin);
  }
  const inOrder = [...bins.values()].sort((a, b) => b.row.from - a.row.from || a.column.from - b.column.from);
  return inOrder.map((bin) => ({
    column: bin.column.name,
    row: bin.row.name,
    score: bestScore(bin.cells),
    letter: letterOf(bin.cells),
    isChosen: bin.column === columnOf(chosen.freeLength) && bin.row === rowOf(chosen.rate),
  }));
}

interface Bin {
  readonly from: number;
  readonly name: string;
}

/** Distinct values in rising order, in runs of equal count, each named after its first in both units. */
function binning(values: readonly number[], most: number, name: (value: number) => string): (value: number) => Bin {
  const distinct = [...new Set(values)].sort((a, b) => a - b);
  const each = Math.ceil(distinct.length / most);
  const bins = new Map<number, Bin>();
  for (let k = 0; k < distinct.length; k += each) {
    const run = distinct.slice(k, k + each);
    const from = run[0] ?? 0;
    const bin = { from, name: `${name(from)}${run.length > 1 ? '…' : ''}` };
    for (const value of run) bins.set(value, bin);
  }
  return (value) => bins.get(value) ?? { from: Number.NaN, name: '' };
}

/** Millimetres over inches: the axis breaks the line at the bar. */
export function lengthName(value: number): string {
  return `${short(value)}|${inImperial(value, 'length', PAGE)}`;
}

export function rateName(value: number): string {
  return `${short(value)} (${fixed(fromInner(value, imperialUnit('rate') ?? innerUnit('rate')), 0, PAGE)})`;
}

function short(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function bestScore(cells: readonly SpringCell[]): number | null {
  const scores = cells.flatMap(({ best_score }) => (best_score === null ? [] : [best_score]));
  return scores.length > 0 ? Math.max(...scores) : null;
}

/** The check that rejects most, the earlier one among equals. */
function letterOf(cells: readonly SpringCell[]): string {
  const total = (check: CheckName) => cells.reduce((sum, { rejected }) => sum + (rejected[check] ?? 0), 0);
  const most = CHECKS.reduce((a, b) => (total(b) > total(a) ? b : a));
  return total(most) > 0 ? CHECK[most].letter : '';
}

/** The checks whose letters stand in the map, in their order. */
export function checksShown(cells: readonly SpringCell[]): CheckName[] {
  const letters = new Set(
    mapCells(cells, { freeLength: Number.NaN, rate: Number.NaN }, MOST_CELLS).flatMap(({ score, letter }) =>
      score === null ? [letter] : [],
    ),
  );
  return CHECKS.filter((check) => letters.has(CHECK[check].letter));
}

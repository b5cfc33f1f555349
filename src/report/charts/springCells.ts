/** The cells of a map of springs by free length and rate: what each says, and how many a page holds. */
import { CHECKS, type CheckName } from '../../domain/checks.ts';
import type { SpringCell } from '../../domain/result.ts';
import { fromInner, imperialUnit, innerUnit } from '../../domain/units.ts';
import { fixed, inImperial, PAGE } from '../numbers.ts';

/** One letter a check; a table beside the map tells which. */
export const CHECK_LETTERS: Readonly<Record<CheckName, string>> = {
  fit: 'F',
  unloaded_spring: 'U',
  damper_bottoms: 'D',
  sleeve_metal: 'S',
  body_metal: 'B',
  tyre_on_arch: 'A',
  bump_travel: 'T',
  droop_travel: 'R',
  perch_low: 'L',
  perch_high: 'H',
  coil_bind: 'C',
  spring_loose: 'N',
  overstressed: 'X',
  frequency: 'Q',
  balance: 'E',
};

export interface MapSize {
  /** Columns and rows that are drawn at most; more springs share cells. */
  readonly columns: number;
  readonly rows: number;
}

/** What a phone’s width holds with a figure in each cell. */
export const MOST_CELLS: MapSize = { columns: 11, rows: 24 };

export interface MapCell {
  readonly column: string;
  readonly row: string;
  readonly score: number | null;
  readonly letter: string;
  readonly isChosen: boolean;
}

export interface ChosenSpring {
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
function lengthName(value: number): string {
  return `${short(value)}|${inImperial(value, 'length', PAGE)}`;
}

function rateName(value: number): string {
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
  return total(most) > 0 ? CHECK_LETTERS[most] : '';
}

/** The checks whose letters stand in the map, in their order. */
export function checksShown(cells: readonly SpringCell[]): CheckName[] {
  const letters = new Set(
    mapCells(cells, { freeLength: Number.NaN, rate: Number.NaN }, MOST_CELLS).flatMap(({ score, letter }) =>
      score === null ? [letter] : [],
    ),
  );
  return CHECKS.filter((check) => letters.has(CHECK_LETTERS[check]));
}

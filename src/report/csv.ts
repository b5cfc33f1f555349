/** The shortlist for a spreadsheet: one row a combination and setup, the unit in every header. */
import { type Options, stringify } from 'csv-stringify/sync';
import type { Builds } from '../domain/advice/types.ts';
import type { Combination, CornerReport, CriterionScore, Result, SetupResult, SideReport } from '../domain/result.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, SIDE_NAMES, type SideName } from '../domain/scenario.ts';
import { formulaSafe } from './escape.ts';

export type Cell = string | number | boolean | null;
/** Cells of a row by column, in order. Hundreds of columns: as properties of an object they would cost far more. */
export type Cells = readonly (readonly [column: string, cell: Cell])[];

/** RFC 4180: lines end in CRLF, quotes are doubled. */
const FORMAT: Options = { record_delimiter: 'windows', cast: { boolean: (value) => String(value) } };

/**
 * Columns in a fixed order: setup, rank, id, workable, score, criteria, quantities of the pair, then front and rear.
 * Numbers are the result's own in full, with a point; what does not exist is an empty cell. Text that a
 * spreadsheet would run as a formula gets an apostrophe in front.
 */
export function shortlistCsv(result: Result): string {
  return csvTable(
    LEADING,
    result.setups.flatMap((setup) => setup.shortlist.map((combination, k) => rowOf(setup, combination, k))),
  );
}

/** A table with these columns first; every text is made safe. Of two cells in one column the later counts. */
export function csvTable(leading: readonly string[], rows: readonly Cells[]): string {
  const cells = rows.map((row) => new Map(row));
  // Setups may have different load states, so the header is the union of all rows' columns.
  const columns = [...new Set([...leading, ...cells.flatMap((row) => [...row.keys()])])];
  const lines = cells.map((row) => columns.map((column) => safe(row.get(column) ?? null)));
  return stringify([columns.map(formulaSafe), ...lines], FORMAT);
}

const LEADING = ['setup', 'rank', 'id', 'workable', 'score'];

function rowOf(setup: SetupResult, combination: Combination, place: number): Cells {
  const { rank, id, workable, score, criteria } = combination;
  return [
    ...Object.entries({ setup: setup.name, rank, id, workable, score }),
    ...criteriaColumns(criteria),
    ...adviceColumns(setup, place),
    ...numberColumns(combination),
  ];
}

export function criteriaColumns(criteria: readonly CriterionScore[]): Cells {
  return criteria.map((c) => [criterionColumn(c), c.desirability]);
}

/** Quantities of the pair and its words, then front and rear. */
export function numberColumns({ values, words = {}, axles }: Pick<Combination, 'values' | 'words' | 'axles'>): Cells {
  return [
    ...Object.entries(values),
    ...Object.entries(words),
    ...AXLE_NAMES.flatMap((axle) => cornerColumns(axle, axles[axle])),
  ];
}

/** What becomes of random builds, whether another beats it, and what its parts cost. */
function adviceColumns({ advice }: SetupResult, place: number): Cells {
  const purchase = advice?.purchases[place];
  if (!advice || !purchase) return [];
  const { dominated_by, worst_score, order } = purchase;
  return Object.entries({
    ...{ ranked_by: advice.ranked_by, dominated_by },
    ...Object.fromEntries(buildsColumns(purchase)),
    worst_score,
    priced_parts_total: order.total,
    unpriced_parts: order.unpriced.join('; '),
  });
}

/** Shares of random builds: those that work, and by the worst they fail those that don't. */
export function buildsColumns({ share, fails }: Builds): Cells {
  const failing = Object.entries(fails ?? {}).map(([key, value]) => [`builds_${key}`, value] as const);
  return [['working_builds_share', share], ...failing];
}

function criterionColumn({ criterion, axle }: CriterionScore): string {
  return ['desirability', criterion, ...(axle === null ? [] : [axle])].join('_');
}

function cornerColumns(axle: AxleName, { id, parts, values, words, sides }: CornerReport): Cells {
  const entries: [string, Cell][] = [['id', id]];
  for (const family of FAMILIES) {
    const stem = snakeCase(family);
    const { name, price, choice } = parts[family];
    entries.push([`${stem}_name`, name], [`${stem}_price`, price]);
    for (const [key, value] of Object.entries(choice)) entries.push([`${stem}_chosen_${key}`, value]);
  }
  entries.push(...Object.entries(values), ...Object.entries(words));
  for (const side of sides ? SIDE_NAMES : []) entries.push(...sideColumns(side, sides?.[side]));
  return entries.map(([key, value]) => [`${axle}_${key}`, value]);
}

/** Either side's own numbers, and which checks it fails at its own load. */
function sideColumns(side: SideName, report: SideReport | undefined): [string, Cell][] {
  if (!report) return [];
  const { values, words, failures } = report;
  const checks = [...new Set(failures.map(({ check }) => check))].join('; ');
  return [...Object.entries({ ...values, ...words }), ['failing_checks', checks] as const].map(([key, value]) => {
    return [`${side}_${key}`, value];
  });
}

function snakeCase(family: string): string {
  return family.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** A number keeps its minus; only text can be a formula. */
function safe(cell: Cell): Cell {
  if (typeof cell === 'number') return Number.isFinite(cell) ? cell : null;
  return typeof cell === 'string' ? formulaSafe(cell) : cell;
}

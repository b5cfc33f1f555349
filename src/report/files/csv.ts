/** The shortlist for a spreadsheet: one row a combination and setup, the unit in every header. */

import { type Options, stringify } from 'csv-stringify/sync';
import type { CriterionScore } from '../../model/corner/score.ts';
import { snakeKey } from '../../model/keys.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, SIDE_NAMES, type SideName } from '../../model/scenario.ts';
import type { Builds, PurchaseAdvice } from '../../result/advice.ts';
import type {
  Combination,
  CornerReport,
  PlanPart,
  PlanRecord,
  Result,
  SetupResult,
  SideReport,
} from '../../result/result.ts';
import { combinationOf } from '../text/answers.ts';
import { formulaSafe } from '../text/escape.ts';

export type Cell = string | number | boolean | null;
/** Cells of a row by column, in order. Hundreds of columns: as properties of an object they would cost far more. */
type Cells = readonly (readonly [column: string, cell: Cell])[];

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
function csvTable(leading: readonly string[], rows: readonly Cells[]): string {
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

function criteriaColumns(criteria: readonly CriterionScore[]): Cells {
  return criteria.map((c) => [criterionColumn(c), c.desirability]);
}

/** Quantities of the pair and its words, then front and rear. */
function numberColumns({ values, words = {}, axles }: Pick<Combination, 'values' | 'words' | 'axles'>): Cells {
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
    ...expectedColumns(purchase),
    worst_score,
    priced_parts_total: order.total,
    unpriced_parts: order.unpriced.join('; '),
  });
}

/** Shares of random builds: those that work, and by the worst they fail those that don't. */
function buildsColumns({ share, fails }: Builds): Cells {
  const failing = Object.entries(fails ?? {}).map(([key, value]) => [`builds_${key}`, value] as const);
  return [['working_builds_share', share], ...failing];
}

/** Where it was ranked by what is expected: what comes of measuring before cutting, and of cutting as planned. */
function expectedColumns({ expected }: PurchaseAdvice): Record<string, number> {
  if (expected === undefined) return {};
  const { measured_first: measured, as_planned: planned } = expected;
  return {
    measured_first_working_share: measured.share,
    measured_first_expected_score: measured.expected_score,
    as_planned_expected_score: planned.expected_score,
  };
}

function criterionColumn({ criterion, axle }: CriterionScore): string {
  return ['desirability', criterion, ...(axle === null ? [] : [axle])].join('_');
}

function cornerColumns(axle: AxleName, { id, parts, values, words, sides }: CornerReport): Cells {
  const entries: [string, Cell][] = [['id', id]];
  for (const family of FAMILIES) {
    const stem = snakeKey(family);
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

/** A number keeps its minus; only text can be a formula. */
function safe(cell: Cell): Cell {
  if (typeof cell === 'number') return Number.isFinite(cell) ? cell : null;
  return typeof cell === 'string' ? formulaSafe(cell) : cell;
}

// The plans for a spreadsheet: one row a plan and setup, the unit in every header.

const PLAN_COLUMNS = [
  ...['kind', 'plan_rank', 'plan_id', 'plan_score', 'plan_price', 'plan_springs_price'],
  ...['setup', 'id', 'score'],
];

/**
 * Kinds: `plan`, best first; `one set` and `own sets`, the best plans with one set of springs and with one a setup;
 * `alone`, what a setup would choose with nothing shared. A header alone where no plan was wanted.
 */
export function plansCsv(result: Result): string {
  const { plans } = result;
  if (!plans) return csvTable(PLAN_COLUMNS, []);
  const { one_set, own_sets, alone } = plans.comparison;
  return csvTable(PLAN_COLUMNS, [
    ...plans.plans.flatMap((plan, k) => planRows(result, 'plan', plan, k + 1)),
    ...(one_set ? planRows(result, 'one set', one_set, null) : []),
    ...(own_sets ? planRows(result, 'own sets', own_sets, null) : []),
    ...alone.flatMap((part) => (part ? [[['kind', 'alone'] as const, ...partRow(result, part)]] : [])),
  ]);
}

function planRows(result: Result, kind: string, plan: PlanRecord, rank: number | null): Cells[] {
  const { id, score, price, springs_price } = plan;
  const own = Object.entries({
    ...{ kind, plan_rank: rank, plan_id: id, plan_score: score },
    ...{ plan_price: price, plan_springs_price: springs_price },
  });
  return plan.setups.map((part) => [...own, ...partRow(result, part)]);
}

function partRow(result: Result, part: PlanPart): Cells {
  const { setup, id, score, criteria, builds } = part;
  const own = Object.entries({ setup, id, score });
  return [
    ...own,
    ...criteriaColumns(criteria),
    ...(builds ? buildsColumns(builds) : []),
    ...numberColumns(combinationOf(result, part)),
  ];
}

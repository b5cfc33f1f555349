/** The plans for a spreadsheet: one row a plan and setup, the unit in every header. */
import type { PlanPart, PlanRecord, Result } from '../domain/result.ts';
import { buildsColumns, type Cells, criteriaColumns, csvTable, numberColumns } from './csv.ts';
import { combinationOf } from './planParts.ts';

const LEADING = [
  ...['kind', 'plan_rank', 'plan_id', 'plan_score', 'plan_price', 'plan_springs_price'],
  ...['setup', 'id', 'score'],
];

/**
 * Kinds: `plan`, best first; `one set` and `own sets`, the best plans with one set of springs and with one a setup;
 * `alone`, what a setup would choose with nothing shared. A header alone where no plan was wanted.
 */
export function plansCsv(result: Result): string {
  const { plans } = result;
  if (!plans) return csvTable(LEADING, []);
  const { one_set, own_sets, alone } = plans.comparison;
  return csvTable(LEADING, [
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

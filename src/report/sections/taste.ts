/** How the winner changes with the weights: each doubled and halved. */
import type { TasteRow, TasteTable } from '../../domain/advice/types.ts';
import type { SetupResult } from '../../domain/result.ts';
import { CRITERION_LABELS } from '../labels.ts';
import { fixed, PAGE } from '../numbers.ts';

export interface TasteView {
  readonly setup: string;
  readonly basis: string;
  readonly changes: string;
  /** Where other springs win: what the table shows. */
  readonly rows: readonly TasteRowView[];
}

export interface TasteRowView {
  readonly criterion: string;
  readonly weight: string;
  readonly tried: string;
  readonly winner: string;
  readonly score: string;
  readonly what: string;
}

export function tasteView({ name, advice }: SetupResult): TasteView | null {
  if (!advice?.taste) return null;
  const { basis } = advice.taste;
  return {
    setup: name,
    basis: BASES[basis],
    changes: changesText(advice.taste),
    rows: telling(advice.taste).map(rowView),
  };
}

/** Rows in which the same springs win tell nothing by themselves: one sentence counts them. */
export function telling({ rows }: TasteTable): readonly TasteRow[] {
  return rows.filter((row) => row.changes);
}

export function changesText(taste: TasteTable): string {
  const [changes, tried] = [telling(taste).length, taste.rows.length];
  if (changes === 0) return `The same springs win each of the ${tried} times: the choice does not hang on taste.`;
  return `Other springs win ${changes} of ${tried} times; each other time the same springs do.`;
}

export const BASES = {
  sweep: 'Everything was swept again each time.',
  shortlist: 'Too many combinations to sweep again: ranked anew within the shortlist, so that others may win in truth.',
} as const;

function rowView(row: TasteRow): TasteRowView {
  return {
    criterion: CRITERION_LABELS[row.criterion],
    weight: fixed(row.weight, 2, PAGE),
    tried: fixed(row.tried, 2, PAGE),
    winner: row.winner,
    score: fixed(row.score, 3, PAGE),
    what: winnerText(row),
  };
}

export function winnerText({ place }: TasteRow): string {
  return place > 0 ? `other springs, number ${place} by score` : 'other springs, not on the shortlist';
}

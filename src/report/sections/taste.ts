/** How the winner changes with the weights: each doubled and halved. */
import type { TasteRow } from '../../domain/advice/types.ts';
import type { SetupResult } from '../../domain/result.ts';
import { CRITERION_LABELS } from '../labels.ts';
import { fixed, PAGE } from '../numbers.ts';

export interface TasteView {
  readonly setup: string;
  readonly basis: string;
  readonly changes: string;
  readonly rows: readonly TasteRowView[];
}

export interface TasteRowView {
  readonly criterion: string;
  readonly weight: string;
  readonly tried: string;
  readonly winner: string;
  readonly score: string;
  readonly what: string;
  readonly changes: boolean;
}

export function tasteView({ name, advice }: SetupResult): TasteView | null {
  if (!advice?.taste) return null;
  const { basis, rows } = advice.taste;
  const changes = rows.filter((row) => row.changes).length;
  return {
    setup: name,
    basis: BASES[basis],
    changes:
      changes === 0 ? 'The same springs win in every row.' : `Other springs win in ${changes} of ${rows.length} rows.`,
    rows: rows.map(rowView),
  };
}

export const BASES = {
  sweep: 'Everything was swept again for each row.',
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
    changes: row.changes,
  };
}

export function winnerText({ changes, place }: TasteRow): string {
  if (!changes) return 'the same springs';
  return place > 0 ? `other springs, number ${place} by score` : 'other springs, not on the shortlist';
}

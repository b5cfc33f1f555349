/** How the winner changes with the weights: each doubled and halved. */
import { CRITERIA } from '../../model/criteria.ts';
import type { TasteRow, TasteTable } from '../../result/advice.ts';
import type { SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import { fixed, PAGE } from '../text/numbers.ts';

export const taste = section({
  id: 'taste',
  link: 'Other weights',
  title: 'If your weights were other',
  view: ({ found, isBuild, isPlanned }) => {
    const tastes = isBuild ? null : ofSetups(found.map(tasteView));
    return tastes && { isPlanned, ...tastes };
  },
  prints: false,
  leaves: 'other weights',
});

export function tasteView({ name, advice }: SetupResult) {
  if (!advice?.taste) return null;
  const { basis } = advice.taste;
  return {
    setup: name,
    basis: BASES[basis],
    changes: changesText(advice.taste),
    /** Where other springs win: what the table shows. */
    rows: changingRows(advice.taste).map((row) => ({
      criterion: CRITERIA[row.criterion].label,
      weight: fixed(row.weight, 2, PAGE),
      tried: fixed(row.tried, 2, PAGE),
      winner: row.winner,
      score: fixed(row.score, 3, PAGE),
      what: winnerText(row),
    })),
  };
}

/** Rows in which other springs win; one sentence counts those in which the same do. */
export function changingRows({ rows }: TasteTable): readonly TasteRow[] {
  return rows.filter((row) => row.changes);
}

export function changesText(taste: TasteTable): string {
  const [changes, tried] = [changingRows(taste).length, taste.rows.length];
  if (changes === 0) return `The same springs win each of the ${tried} times: the choice does not hang on taste.`;
  return `Other springs win ${changes} of ${tried} times; each other time the same springs do.`;
}

export const BASES = {
  sweep: 'Everything was swept again each time.',
  shortlist: 'Too many combinations to sweep again: ranked anew within the shortlist, so that others may win in truth.',
} as const;

export function winnerText({ place }: TasteRow): string {
  return place > 0 ? `other springs, number ${place} by score` : 'other springs, not on the shortlist';
}

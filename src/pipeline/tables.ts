/** What a sweep leaves beside its page: the tables to sort, the record to keep. */
import { resultsJson } from '../report/embed.ts';
import { plansCsv, shortlistCsv } from '../report/files/csv.ts';
import { purchaseMarkdown } from '../report/files/purchase.ts';
import type { Result } from '../result/result.ts';

/** The files beside the page, by name. */
export type Tables = Readonly<Record<'shortlist.csv' | 'plans.csv' | 'results.json' | 'purchase.md', string>>;

export function tablesOf(result: Result): Tables {
  return {
    'shortlist.csv': shortlistCsv(result),
    'plans.csv': plansCsv(result),
    'results.json': resultsJson(result),
    'purchase.md': purchaseMarkdown(result),
  };
}

/** A result drawn: the page to read, the tables to sort, the record to keep. Loads much; see `drawing.ts`. */
import { resultsJson } from '../report/embed.ts';
import { plansCsv, shortlistCsv } from '../report/files/csv.ts';
import { purchaseMarkdown } from '../report/files/purchase.ts';
import { reportHtml } from '../report/html.ts';
import type { Result } from '../result/result.ts';

/** The files a sweep leaves, by name. */
export type Pages = Readonly<
  Record<'report.html' | 'shortlist.csv' | 'plans.csv' | 'results.json' | 'purchase.md', string>
>;

/** Draws a result. Writes nothing. */
export async function pagesOf(result: Result): Promise<Pages> {
  return {
    'report.html': await reportHtml(result),
    'shortlist.csv': shortlistCsv(result),
    'plans.csv': plansCsv(result),
    'results.json': resultsJson(result),
    'purchase.md': purchaseMarkdown(result),
  };
}

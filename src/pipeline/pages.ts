/** A result drawn: the page to read and what lies beside it. Loads much; see `drawing.ts`. */
import { reportHtml } from '../report/html.ts';
import type { Result } from '../result/result.ts';
import { type Tables, tablesOf } from './tables.ts';

/** The files a sweep leaves, by name. */
export type Pages = Tables & Readonly<Record<'report.html', string>>;

/** Draws a result. Writes nothing. */
export async function pagesOf(result: Result): Promise<Pages> {
  return { 'report.html': await reportHtml(result), ...tablesOf(result) };
}

/** The whole result as JSON, for other programs; `results.schema.json` beside this file describes it. */
import type { Result } from '../domain/result.ts';
import { writtenOf } from './written.ts';

/** Keys stand in the order in which the result is built, which is fixed: the same result gives the same bytes. */
export function resultsJson(result: Result): string {
  return `${JSON.stringify(writtenOf(result), null, 2)}\n`;
}

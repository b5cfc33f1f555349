/** A result drawn on this thread, which loads what drawing takes only now. */
import type { Result } from '../result/result.ts';
import type { Pages } from './pages.ts';

export type { Pages };

export const PAGE_NAMES: readonly (keyof Pages)[] = [
  'report.html',
  'shortlist.csv',
  'plans.csv',
  'results.json',
  'purchase.md',
];

/** Draws a result. Writes nothing. */
export async function draw(result: Result): Promise<Pages> {
  const { pagesOf } = await import('./pages.ts');
  return pagesOf(result);
}

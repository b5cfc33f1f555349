/** How two cells of a column compare, by what they show. */

const words = new Intl.Collator('en', { numeric: true });

/**
 * Below 0 where `a` stands before `b`. Figures by size, words by alphabet, figures before words; what has no value
 * comes last whichever way a table is sorted.
 */
export function compareCells(a: string, b: string, falling: boolean): number {
  if (isNothing(a) || isNothing(b)) return Number(isNothing(a)) - Number(isNothing(b));
  return falling ? -compareShown(a, b) : compareShown(a, b);
}

function compareShown(a: string, b: string): number {
  const [x, y] = [figureOf(a), figureOf(b)];
  if (x === null && y === null) return words.compare(a, b);
  if (x === null || y === null) return x === null ? 1 : -1;
  return x - y;
}

function isNothing(text: string): boolean {
  return /^[\u2013\s]*$/.test(text);
}

/** A cell's leading figure, `6 676` in groups and with a true minus too; null where it doesn't begin with one. */
export function figureOf(text: string): number | null {
  const match = /^[\u2212-]?\d[\d\u202f]*(?:\.\d+)?/.exec(text.trim());
  return match ? Number(match[0].replace('\u2212', '-').replace(/\u202f/g, '')) : null;
}

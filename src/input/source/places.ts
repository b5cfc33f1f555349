/** Line and column of every offset in a text. The parser's own count misses lines in documents that are broken. */
import type { Place } from '../problems.ts';

/** Places in a text by offset from its start; offsets beyond its end are places of the end. */
export function placesIn(text: string): (offset: number) => Place {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return (offset) => {
    const within = Math.min(Math.max(0, offset), text.length);
    const line = lastNotAbove(starts, within);
    return { line: line + 1, column: within - (starts[line] ?? 0) + 1 };
  };
}

/** Index of the last of the rising `values` that is not above `limit`; 0 when all are. */
function lastNotAbove(values: readonly number[], limit: number): number {
  let [low, high] = [0, values.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((values[middle] ?? 0) <= limit) low = middle;
    else high = middle;
  }
  return low;
}

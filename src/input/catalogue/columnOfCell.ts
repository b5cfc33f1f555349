/** Where a cell stands in the text of its row. */
import type { Place } from '../problems.ts';

/**
 * Column (from 1) of the first character of a cell, and how many lines below the row's first line it stands, for
 * rows whose quoted cells hold line breaks. A row with fewer cells gives the start of its last one.
 */
export function columnOfCell(row: string, index: number): Place {
  let [cell, quoted, start] = [0, false, 0];
  for (let i = 0; i < row.length && cell < index; i++) {
    if (row[i] === '"') quoted = !quoted;
    if (row[i] !== ',' || quoted) continue;
    cell++;
    start = i + 1;
  }
  const before = row.slice(0, start).split(/\r\n|\r|\n/);
  return { line: before.length - 1, column: (before[before.length - 1]?.length ?? 0) + 1 };
}

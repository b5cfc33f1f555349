/** Where rows and cells of a CSV text stand, so that one cell can be changed and the rest left byte for byte. */
import type { TextEdit } from './textEdits.ts';

export interface CsvRow {
  /** Line of its first character, from 1. */
  readonly line: number;
  /** Range of its characters, the line end left out. */
  readonly start: number;
  readonly end: number;
  /** Where each cell starts and ends. */
  readonly cells: readonly (readonly [start: number, end: number])[];
}

/** All rows that hold anything, the header first. A quoted cell may hold commas and line ends. */
export function csvRows(text: string): readonly CsvRow[] {
  const rows: CsvRow[] = [];
  let [line, rowLine, start, cell, quoted] = [1, 1, 0, 0, false];
  let cells: (readonly [number, number])[] = [];
  const endRow = (end: number, next: number) => {
    if (text.slice(start, end).trim() !== '') rows.push({ line: rowLine, start, end, cells: [...cells, [cell, end]] });
    [start, cell, cells, rowLine] = [next, next, [], line];
  };
  for (let i = 0; i < text.length; i++) {
    const sign = text[i];
    if (sign === '"') quoted = !quoted;
    const breaks = sign === '\n' || (sign === '\r' && text[i + 1] !== '\n');
    if (breaks) line++;
    if (quoted) continue;
    if (sign === ',') {
      cells.push([cell, i]);
      cell = i + 1;
    } else if (breaks) {
      endRow(text[i - 1] === '\r' && sign === '\n' ? i - 1 : i, i + 1);
    }
  }
  endRow(text.length, text.length);
  return rows;
}

/** A cell's text, quotes and surrounding blanks taken off. */
export function cellText(text: string, row: CsvRow, index: number): string {
  const [start, end] = row.cells[index] ?? [0, 0];
  return text
    .slice(start, end)
    .replace(/^\uFEFF/, '')
    .trim()
    .replace(/^"(.*)"$/s, '$1');
}

/** Another content for one cell; its column stays where it is. */
export function cellEdit(row: CsvRow, index: number, content: string): TextEdit {
  const [start, end] = row.cells[index] ?? [row.end, row.end];
  return { start, end, text: content };
}

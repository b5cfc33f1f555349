/** Tables that can be put in another order by a button in each column's header. */
import type { Order } from './state.ts';

export interface Sortable {
  /** Puts the rows in that order, or back as printed. */
  readonly sort: (order: Order | undefined) => void;
}

/** A row, or in the shortlist a pair of rows that stay together. */
interface Line {
  readonly element: Element;
  /** What it shows in a column, one text a row. */
  readonly cells: (column: number) => readonly string[];
}

export function sortable(table: HTMLTableElement, onOrder: (order: Order | undefined) => void): Sortable {
  const headers = [...table.querySelectorAll<HTMLTableCellElement>('thead th')];
  const lines = linesOf(table);
  let current: Order | undefined;
  for (const [column, header] of headers.entries()) {
    makeButton(header).addEventListener('click', () => onOrder(next(current, column)));
  }
  return {
    sort: (order) => {
      if (isSame(order, current)) return;
      current = order;
      for (const line of sortLines(lines, order)) line.element.parentElement?.append(line.element);
      for (const sum of table.querySelectorAll('tr.sum')) sum.parentElement?.append(sum);
      showOrder(table, headers, order);
    },
  };
}

function isSame(a: Order | undefined, b: Order | undefined): boolean {
  return a?.column === b?.column && a?.falling === b?.falling;
}

/** Rising, falling, as printed. */
function next(current: Order | undefined, column: number): Order | undefined {
  if (current?.column !== column) return { column, falling: false };
  return current.falling ? undefined : { column, falling: true };
}

function sortLines(lines: readonly Line[], order: Order | undefined): Line[] {
  if (!order) return [...lines];
  const { column, falling } = order;
  const keyed = lines.map((line) => ({ line, cells: line.cells(column) }));
  keyed.sort((a, b) => {
    for (const [k, cell] of a.cells.entries()) {
      const difference = compareCells(cell, b.cells[k] ?? '', falling);
      if (difference !== 0) return difference;
    }
    return 0;
  });
  return keyed.map(({ line }) => line);
}

function linesOf(table: HTMLTableElement): Line[] {
  const bodies = [...table.tBodies];
  if (bodies.length > 1) return bodies.map(pairedLine);
  return [...table.querySelectorAll<HTMLTableRowElement>('tbody tr:not(.sum)')].map((row) => ({
    element: row,
    cells: (column) => [cellText(row.cells[column])],
  }));
}

/** The second row lacks the cells that the first one's reach down to. */
function pairedLine(body: HTMLTableSectionElement): Line {
  const [first, second] = [...body.rows];
  const reaching = [...(first?.cells ?? [])].filter((cell) => cell.rowSpan > 1).length;
  return {
    element: body,
    cells: (column) => {
      const cells = [first?.cells[column]];
      if (column >= reaching) cells.push(second?.cells[column - reaching]);
      return cells.map(cellText);
    },
  };
}

/** A cell's own text, without the smaller one below it. */
function cellText(cell: HTMLTableCellElement | undefined): string {
  const copy = cell?.cloneNode(true);
  if (!(copy instanceof Element)) return '';
  for (const small of copy.querySelectorAll('small')) small.remove();
  return (copy.textContent ?? '').trim();
}

function makeButton(header: HTMLTableCellElement): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'sorter';
  button.append(...header.childNodes);
  header.append(button);
  return button;
}

/** By the headers for those who hear the page, and in words wherever the table says how it is ordered. */
function showOrder(table: HTMLTableElement, headers: readonly HTMLElement[], order: Order | undefined): void {
  for (const [column, header] of headers.entries()) {
    if (order?.column === column) header.ariaSort = order.falling ? 'descending' : 'ascending';
    else header.removeAttribute('aria-sort');
  }
  const name = cellText(headers[order?.column ?? -1] as HTMLTableCellElement | undefined);
  for (const place of table
    .closest('.setup, section')
    ?.querySelectorAll<HTMLElement>(`[data-order="${table.dataset.sort}"]`) ?? []) {
    place.dataset.printed ??= place.textContent ?? '';
    place.textContent = order ? `by ${name}, ${order.falling ? 'falling' : 'rising'}` : place.dataset.printed;
  }
}

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
  const [x, y] = [numberOf(a), numberOf(b)];
  if (x === null && y === null) return words.compare(a, b);
  if (x === null || y === null) return x === null ? 1 : -1;
  return x - y;
}

function isNothing(text: string): boolean {
  return /^[\u2013\s]*$/.test(text);
}

/** A cell's leading figure, `6 676` in groups and with a true minus too; null where it doesn't begin with one. */
export function numberOf(text: string): number | null {
  const match = /^[\u2212-]?\d[\d\u202f]*(?:\.\d+)?/.exec(text.trim());
  return match ? Number(match[0].replace('\u2212', '-').replace(/\u202f/g, '')) : null;
}

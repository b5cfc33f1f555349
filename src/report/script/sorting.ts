/** Tables that can be put in another order by a button in each column's head. */
import { compareCells } from './cells.ts';
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

export function sortable(table: HTMLTableElement, wished: (order: Order | undefined) => void): Sortable {
  const heads = [...table.querySelectorAll<HTMLTableCellElement>('thead th')];
  const lines = linesOf(table);
  let current: Order | undefined;
  for (const [column, head] of heads.entries()) {
    makeButton(head).addEventListener('click', () => wished(next(current, column)));
  }
  return {
    sort: (order) => {
      if (isSame(order, current)) return;
      current = order;
      for (const line of ordered(lines, order)) line.element.parentElement?.append(line.element);
      for (const sum of table.querySelectorAll('tr.sum')) sum.parentElement?.append(sum);
      tell(table, heads, order);
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

function ordered(lines: readonly Line[], order: Order | undefined): Line[] {
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
    cells: (column) => [shown(row.cells[column])],
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
      return cells.map(shown);
    },
  };
}

/** A cell's own text, without the smaller one below it. */
function shown(cell: HTMLTableCellElement | undefined): string {
  const copy = cell?.cloneNode(true);
  if (!(copy instanceof Element)) return '';
  for (const small of copy.querySelectorAll('small')) small.remove();
  return (copy.textContent ?? '').trim();
}

function makeButton(head: HTMLTableCellElement): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'sorter';
  button.append(...head.childNodes);
  head.append(button);
  return button;
}

/** By the heads for those who hear the page, and in words wherever the table says how it is ordered. */
function tell(table: HTMLTableElement, heads: readonly HTMLElement[], order: Order | undefined): void {
  for (const [column, head] of heads.entries()) {
    if (order?.column === column) head.ariaSort = order.falling ? 'descending' : 'ascending';
    else head.removeAttribute('aria-sort');
  }
  const name = shown(heads[order?.column ?? -1] as HTMLTableCellElement | undefined);
  for (const place of table
    .closest('.setup, section')
    ?.querySelectorAll<HTMLElement>(`[data-order="${table.dataset.sort}"]`) ?? []) {
    place.dataset.printed ??= place.textContent ?? '';
    place.textContent = order ? `by ${name}, ${order.falling ? 'falling' : 'rising'}` : place.dataset.printed;
  }
}

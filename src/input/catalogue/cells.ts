/** What to enter into a catalogue by hand where one of its springs was measured. */
import { parse } from 'csv-parse/sync';
import type { InputFile } from '../../domain/result.ts';
import { fromInner, type Unit } from '../../domain/units.ts';
import { withoutMark } from '../files.ts';
import { type ColumnName, newColumn, readHeader } from './columns.ts';
import type { LoadedCatalogue } from './loadCatalogues.ts';
import type { CatalogueSpring } from './row.ts';

/** A value of a catalogue that was measured. */
export interface CellToEnter {
  readonly file: string;
  /** As a spreadsheet counts them, from 1. */
  readonly row: number;
  readonly spring: string;
  /** The column's head. */
  readonly column: string;
  readonly isNewColumn: boolean;
  /** As written; '' where nothing stands. */
  readonly before: string;
  readonly after: string;
}

export interface MeasuredRow {
  readonly spring: CatalogueSpring;
  /** By column, in inner units. */
  readonly values: Readonly<Record<string, number>>;
}

export interface Entered {
  readonly cells: readonly CellToEnter[];
  /** The catalogue once they are entered. */
  readonly file: Pick<InputFile, 'path' | 'text'>;
}

/** @param catalogue one without a problem */
export function cellsToEnter({ file, springs }: LoadedCatalogue, measured: readonly MeasuredRow[]): Entered {
  const rows: string[][] = parse(withoutMark(file.text), { relax_column_count: true });
  const full = rows.filter((row) => row.some((cell) => cell.trim() !== ''));
  const [header = []] = full;
  const cells: CellToEnter[] = [];
  for (const { spring, values } of measured.filter((each) => springs.includes(each.spring))) {
    const row = full[springs.indexOf(spring) + 1] as string[];
    for (const [name, value] of Object.entries(values)) {
      const known = readHeader(header).columns.get(name as ColumnName);
      const { index, header: head, unit } = known ?? newColumn(name as ColumnName, header.length);
      if (known === undefined) for (const each of full) each.push(each === header ? head : '');
      const [before = '', after] = [row[index]?.trim(), numberIn(value, unit as Unit)];
      const place = { file: file.path, row: rows.indexOf(row) + 1, spring: spring.name, column: header[index] ?? '' };
      // Both axles may have measured the same.
      if (before !== after) cells.push({ ...place, isNewColumn: known === undefined, before, after });
      row[index] = after;
    }
  }
  return { cells, file: { path: file.path, text: rows.map((row) => row.map(quoted).join(',')).join('\n') } };
}

/** With enough digits that reading it back gives the same number to a part in 1e12. */
export function numberIn(value: number, unit: Unit): string {
  return String(Number(fromInner(value, unit).toPrecision(13)));
}

function quoted(cell: string): string {
  return `"${cell.replaceAll('"', '""')}"`;
}

/** A spring catalogue, row by row: CSV text to springs in inner units, or all its problems. */
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { CsvError, type Info, parse } from 'csv-parse';
import { withoutMark } from '../files.ts';
import * as say from '../messages/catalogue.ts';
import { FILE_START, type PlacedComplaint } from '../problems.ts';
import { columnOfCell } from './columnOfCell.ts';
import { type Header, readHeader } from './columns.ts';
import { type CatalogueSpring, type CellComplaint, readRow } from './row.ts';

/** A catalogue with one wrong column could have as many problems as rows; more than these are only counted. */
const MOST_PROBLEMS = 200;
/** Rows that are read. A part family holds fewer alternatives anyway, and a slip could have made millions. */
const MOST_ROWS = 200_000;
const CHUNK = 65_536;
/** Signs of a row. Only the parser sees where a row ends, but a line longer than this is part of no row. */
const LONGEST_ROW = CHUNK;

export interface Catalogue {
  readonly columns: Header['columns'];
  readonly springs: readonly CatalogueSpring[];
  readonly problems: readonly PlacedComplaint[];
}

interface CsvRow {
  readonly record: readonly string[];
  readonly raw: string;
  readonly info: Info;
}

/** What has been read so far. */
interface Reading {
  header: Header | null;
  width: number;
  rows: number;
  /** The line the next row starts in. */
  line: number;
  /** How many lines the parser has counted too many: it takes a CRLF within quotes for two. */
  drift: number;
  readonly springs: CatalogueSpring[];
  readonly problems: PlacedComplaint[];
  /** The line each spring was first seen in, by its data. */
  readonly seen: Map<string, number>;
}

export async function readCatalogue(withMark: string): Promise<Catalogue> {
  const text = withoutMark(withMark);
  const separator = otherSeparator(text);
  if (separator !== null) return refused({ ...FILE_START, ...say.otherSeparator(separator) });
  const tooLong = firstLongLine(text);
  if (tooLong !== null) {
    return refused({ line: tooLong, column: 1, ...say.csvError('CSV_MAX_RECORD_SIZE') });
  }
  const reading: Reading = {
    header: null,
    width: 0,
    rows: 0,
    line: 1,
    drift: 0,
    springs: [],
    problems: [],
    seen: new Map(),
  };
  try {
    await eachRow(
      text,
      (row) => takeRow(row, reading),
      () => reading.rows > MOST_ROWS,
    );
    if (reading.rows === 0 && reading.problems.length === 0) {
      reading.problems.push({ ...FILE_START, ...say.headerOnly() });
    }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    // Reading ended in the middle of a row on purpose.
    if (reading.rows > MOST_ROWS) return catalogueOf(reading);
    // A quote that stays open is only noticed at the end of the file: the row after the last whole one opens it.
    const isRow = error.code === 'CSV_QUOTE_NOT_CLOSED' || error.code === 'CSV_MAX_RECORD_SIZE';
    const line = isRow ? reading.line : Number(error.lines ?? 1) - reading.drift;
    reading.problems.push({ line, column: 1, ...say.csvError(error.code) });
  }
  return catalogueOf(reading);
}

function refused(problem: PlacedComplaint): Catalogue {
  return { columns: new Map(), springs: [], problems: [problem] };
}

function catalogueOf({ header, springs, problems }: Reading): Catalogue {
  return { columns: header?.columns ?? new Map(), springs, problems: shortened(problems) };
}

/** Found before the parser makes cells of it: millions of commas in one line would be as many cells. */
function firstLongLine(text: string): number | null {
  let line = 1;
  for (let from = 0; from < text.length; line++) {
    const end = lineEndFrom(text, from);
    if (end - from > LONGEST_ROW) return line;
    from = end + (text.startsWith('\r\n', end) ? 2 : 1);
  }
  return null;
}

function lineEndFrom(text: string, from: number): number {
  LINE_END.lastIndex = from;
  return LINE_END.exec(text)?.index ?? text.length;
}

const LINE_END = /[\r\n]/g;

/** Hands over row by row while the text streams through; rows before an error are handed over too. */
async function eachRow(text: string, take: (row: CsvRow) => void, isEnough: () => boolean): Promise<void> {
  const parser = parse({
    info: true,
    raw: true,
    relax_column_count: true,
    skip_empty_lines: true,
    max_record_size: LONGEST_ROW,
    // Rows are taken here, not from the stream: an error would throw away those still waiting in it.
    on_record: (row) => {
      // With `info` and `raw` a row comes as a record of all three, which the package's types do not say.
      take(row as unknown as CsvRow);
      return null;
    },
  });
  parser.resume();
  await pipeline(Readable.from(chunks(text, isEnough)), parser);
}

function* chunks(text: string, isEnough: () => boolean): Generator<string> {
  for (let i = 0; i < text.length && !isEnough(); i += CHUNK) yield text.slice(i, i + CHUNK);
}

function takeRow({ record, raw, info }: CsvRow, reading: Reading): void {
  const [, blank = '', row = ''] = /^([\r\n]*)(.*?)[\r\n]*$/s.exec(raw) ?? [];
  const line = reading.line + lineEnds(blank);
  reading.line += lineEnds(raw);
  reading.drift = info.lines + 1 - reading.line;
  // Spreadsheets like to export rows of nothing but commas.
  if (record.every((cell) => cell.trim() === '')) return;
  if (reading.rows > MOST_ROWS) return;
  if (reading.rows === MOST_ROWS) {
    reading.rows++;
    reading.problems.push({ line, column: 1, ...say.tooManyRows(MOST_ROWS) });
    return;
  }
  const faults = reading.header === null ? takeHeader(record, reading) : takeCells(record, line, reading);
  reading.problems.push(...faults.map(({ index, complaint }) => placed(line, row, index, complaint)));
}

function lineEnds(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}

function takeHeader(cells: readonly string[], reading: Reading): readonly CellComplaint[] {
  reading.header = readHeader(cells);
  reading.width = cells.length;
  return reading.header.complaints;
}

function takeCells(cells: readonly string[], line: number, reading: Reading): readonly CellComplaint[] {
  const { header, width, seen } = reading;
  reading.rows++;
  // Under a header that can't be read no cell means anything.
  if (header === null || header.complaints.length > 0) return [];
  if (cells.length !== width) return [{ index: 0, complaint: say.wrongCellCount(cells.length, width) }];
  const read = readRow(cells, header.columns, line);
  if ('complaints' in read) return read.complaints;
  const key = JSON.stringify({ ...read.spring, line: 0 });
  const first = seen.get(key);
  if (first !== undefined) return [{ index: 0, complaint: say.repeatedRow(first) }];
  seen.set(key, line);
  reading.springs.push(read.spring);
  return [];
}

function placed(line: number, row: string, index: number, complaint: Omit<PlacedComplaint, 'line' | 'column'>) {
  const at = columnOfCell(row, index);
  return { line: line + at.line, column: at.column, ...complaint };
}

/** `;` or a tab when the header is split by it instead of commas. */
function otherSeparator(text: string): string | null {
  const header = text.trimStart().split(/[\r\n]/, 1)[0] ?? '';
  const count = (sign: string) => header.split(sign).length - 1;
  return [';', '\t'].find((sign) => count(sign) > count(',')) ?? null;
}

function shortened(problems: readonly PlacedComplaint[]): readonly PlacedComplaint[] {
  const [shown, rest] = [problems.slice(0, MOST_PROBLEMS), problems.slice(MOST_PROBLEMS)];
  const [next] = rest;
  if (next === undefined) return shown;
  return [...shown, { line: next.line, column: next.column, ...say.furtherProblems(rest.length) }];
}

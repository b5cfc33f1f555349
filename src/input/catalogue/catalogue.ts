/** Reads every catalogue a scenario names, each once, whatever else is wrong with the scenario. */

import { posix } from 'node:path';
import { CsvError, type Info, parse } from 'csv-parse/sync';
import type { InputFile } from '../../result/result.ts';
import * as say from '../problems/file.ts';
import { CATALOGUE, furtherProblems, outsideFolder } from '../problems/file.ts';
import { type Complaint, FILE_START, type Place, type PlacedComplaint } from '../problems/problems.ts';
import { type PathComplaint, valueAt } from '../schema/issues.ts';
import { complaintOf, type FileReader, readText, withoutMark } from '../source/files.ts';
import type { PathKey } from '../source/yaml.ts';
import {
  type CatalogueSpring,
  type CellComplaint,
  type CellDoubt,
  type ColumnName,
  columnOfCell,
  type Header,
  readHeader,
  readRow,
  type Separator,
  separatorOf,
  spellings,
} from './row.ts';

const MOST_BYTES = 50_000_000;

export interface LoadedCatalogue extends Catalogue {
  readonly file: InputFile;
}

export interface LoadedCatalogues {
  /** By the path relative to the scenario's folder, `springs.csv` for `./springs.csv` too. */
  readonly byName: ReadonlyMap<string, LoadedCatalogue>;
  /** Complaints about the references themselves. */
  readonly complaints: readonly PathComplaint[];
}

export async function loadCatalogues(data: unknown, read: FileReader, folder: string): Promise<LoadedCatalogues> {
  const results = new Map<string, LoadedCatalogue | { readonly complaint: Complaint }>();
  const complaints: PathComplaint[] = [];
  for (const { path, name } of findReferences(data)) {
    const result = results.get(name) ?? (await load(name, read, folder));
    results.set(name, result);
    if ('complaint' in result) complaints.push({ path, at: 'value', complaint: result.complaint });
  }
  const loaded = [...results].flatMap(([name, result]) => ('file' in result ? [[name, result] as const] : []));
  return { byName: new Map(loaded), complaints };
}

/** The path as a catalogue is known by: without `./` and doubled slashes. */
export function catalogueName(written: string): string {
  return posix.normalize(written);
}

function findReferences(data: unknown): readonly { readonly path: readonly PathKey[]; readonly name: string }[] {
  return ['front', 'rear'].flatMap((axle) => {
    const list = valueAt(data, ['axles', axle, 'springs']);
    if (!Array.isArray(list)) return [];
    return list.flatMap((_, index) => {
      const path = ['axles', axle, 'springs', index, 'catalogue'];
      const written = valueAt(data, path);
      // What is no usable path at all is the schema's to complain about.
      return typeof written === 'string' && /^[^\p{Cc}]{1,400}$/u.test(written)
        ? [{ path, name: catalogueName(written) }]
        : [];
    });
  });
}

async function load(
  name: string,
  read: FileReader,
  folder: string,
): Promise<LoadedCatalogue | { readonly complaint: Complaint }> {
  const path = posix.isAbsolute(name) ? name : posix.join(folder, name);
  const outside = read.anywhere ? null : await refuseOutside(folder, path, name, read);
  if (outside !== null) return { complaint: outside };
  const text = await readText(read, path, name, CATALOGUE, MOST_BYTES);
  if ('complaint' in text) return text;
  return { file: text.file, ...readCatalogue(text.file.text) };
}

/** A complaint when the file lies outside the scenario's folder, as written or through a symbolic link. */
async function refuseOutside(folder: string, path: string, name: string, read: FileReader): Promise<Complaint | null> {
  if (posix.isAbsolute(name) || name === '..' || name.startsWith('../')) return outsideFolder(name);
  try {
    const [realFolder, realPath] = [await read.realPath(folder), await read.realPath(path)];
    const inside = realPath.startsWith(realFolder.endsWith('/') ? realFolder : `${realFolder}/`);
    return inside ? null : outsideFolder(name);
  } catch (error) {
    return complaintOf(error, CATALOGUE, MOST_BYTES);
  }
}

// A spring catalogue, row by row: CSV text to springs in inner units, or all its problems.

/** A catalogue with one wrong column could have as many problems as rows; more than these are only counted. */
const MOST_PROBLEMS = 200;
/** Rows that are read. A part family holds fewer alternatives anyway, and a slip could have made millions. */
const MOST_ROWS = 200_000;
/** Signs of a row. Only the parser sees where a row ends, but a line longer than this is part of no row. */
const LONGEST_ROW = 65_536;

interface Catalogue {
  readonly separator: Separator;
  /** Its numbers have decimal commas: then a point may stand between thousands. */
  readonly hasCommas: boolean;
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
  readonly separator: Separator;
  header: Header | null;
  /** Where the cells of the header stand. */
  headerPlace: (index: number) => Place;
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
  /** Cells that are wrong if others are of another kind, which is known at the end. */
  readonly doubts: (CellDoubt & { readonly place: () => Place })[];
  readonly withUnit: Set<ColumnName>;
  hasCommas: boolean;
}

export function readCatalogue(withMark: string): Catalogue {
  const text = withoutMark(withMark);
  const tooLong = findLongLine(text);
  if (tooLong !== null) {
    return refuse({ line: tooLong, column: 1, ...say.csvError('CSV_MAX_RECORD_SIZE') });
  }
  const reading: Reading = {
    separator: separatorOf(text.trimStart().split(/[\r\n]/, 1)[0] ?? ''),
    header: null,
    headerPlace: () => FILE_START,
    width: 0,
    rows: 0,
    line: 1,
    drift: 0,
    springs: [],
    problems: [],
    seen: new Map(),
    doubts: [],
    withUnit: new Set(),
    hasCommas: false,
  };
  try {
    eachRow(text, reading);
    if (reading.rows === 0 && reading.problems.length === 0) {
      reading.problems.push({ ...FILE_START, ...say.headerOnly() });
    }
  } catch (error) {
    if (error instanceof EnoughRows) return catalogueOf(reading);
    if (!(error instanceof CsvError)) throw error;
    // A quote that stays open is only noticed at the end of the file: the row after the last whole one opens it.
    const isRow = error.code === 'CSV_QUOTE_NOT_CLOSED' || error.code === 'CSV_MAX_RECORD_SIZE';
    const line = isRow ? reading.line : Number(error.lines ?? 1) - reading.drift;
    reading.problems.push({ line, column: 1, ...say.csvError(error.code) });
  }
  return catalogueOf(reading);
}

function refuse(problem: PlacedComplaint): Catalogue {
  return { separator: ',', hasCommas: false, columns: new Map(), springs: [], problems: [problem] };
}

function catalogueOf(reading: Reading): Catalogue {
  const { separator, hasCommas, header, springs } = reading;
  const problems = [...reading.problems, ...foundedDoubts(reading)];
  const [next, ...others] = problems.slice(MOST_PROBLEMS);
  const further = next && {
    line: next.line,
    column: next.column,
    ...furtherProblems(others.length + 1, 'a catalogue'),
  };
  const shown = [...problems.slice(0, MOST_PROBLEMS), ...(further ? [further] : [])];
  return { separator, hasCommas, columns: header?.columns ?? new Map(), springs, problems: shown };
}

/** A point where other numbers have decimal commas; a number without a unit, said once where a whole column has none. */
function foundedDoubts({ doubts, withUnit, hasCommas, headerPlace }: Reading): readonly PlacedComplaint[] {
  const unitless = new Map<ColumnName, PlacedComplaint>();
  const cells = doubts.flatMap(({ column, about, place, complaint }) => {
    if (about === 'point') return hasCommas ? [{ ...place(), ...complaint() }] : [];
    if (withUnit.has(column.name)) return [{ ...place(), ...complaint() }];
    unitless.set(column.name, {
      ...headerPlace(column.index),
      ...say.columnWithoutUnit(column.header, spellings(column.name)),
    });
    return [];
  });
  return [...unitless.values(), ...cells];
}

/** Found before the parser makes cells of it: millions of commas in one line would be as many cells. */
function findLongLine(text: string): number | null {
  const lineEnd = /\r\n|\r|\n|$/g;
  for (let [line, from] = [1, 0]; from < text.length; line++) {
    lineEnd.lastIndex = from;
    const { index, 0: end } = lineEnd.exec(text) as RegExpExecArray;
    if (index - from > LONGEST_ROW) return line;
    from = index + end.length;
  }
  return null;
}

/** Thrown out of the parser, which then reads no further. */
class EnoughRows extends Error {}

/** Takes row by row; rows before an error are taken too. */
function eachRow(text: string, reading: Reading): void {
  parse(text, {
    delimiter: reading.separator,
    info: true,
    raw: true,
    relax_column_count: true,
    skip_empty_lines: true,
    max_record_size: LONGEST_ROW,
    on_record: (row) => {
      // With `info` and `raw` a row comes as a record of all three, which the package's types do not say.
      takeRow(row as unknown as CsvRow, reading);
      if (reading.rows > MOST_ROWS) throw new EnoughRows();
      return null;
    },
  });
}

function takeRow({ record, raw, info }: CsvRow, reading: Reading): void {
  const [, blank = '', row = ''] = /^([\r\n]*)(.*?)[\r\n]*$/s.exec(raw) ?? [];
  const line = reading.line + countLineEnds(blank);
  reading.line += countLineEnds(raw);
  reading.drift = info.lines + 1 - reading.line;
  // Spreadsheets like to export rows of nothing but commas.
  if (record.every((cell) => cell.trim() === '')) return;
  if (reading.rows === MOST_ROWS) {
    reading.rows++;
    reading.problems.push({ line, column: 1, ...say.tooManyRows(MOST_ROWS) });
    return;
  }
  const place = (index: number): Place => {
    const at = columnOfCell(row, index, reading.separator);
    return { line: line + at.line, column: at.column };
  };
  const faults = reading.header === null ? takeHeader(record, place, reading) : takeCells(record, line, place, reading);
  for (const { index, complaint } of faults) reading.problems.push({ ...place(index), ...complaint });
}

function countLineEnds(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}

function takeHeader(
  cells: readonly string[],
  place: (index: number) => Place,
  reading: Reading,
): readonly CellComplaint[] {
  reading.header = readHeader(cells);
  reading.headerPlace = place;
  reading.width = cells.length;
  return reading.header.complaints;
}

function takeCells(
  cells: readonly string[],
  line: number,
  place: (index: number) => Place,
  reading: Reading,
): readonly CellComplaint[] {
  const { header, width, seen, separator } = reading;
  reading.rows++;
  // Under a header that can't be read no cell means anything.
  if (header === null || header.complaints.length > 0) return [];
  // Spreadsheets like to end rows with empty cells.
  if (cells.length < width || cells.slice(width).some((cell) => cell.trim() !== '')) {
    return [{ index: 0, complaint: say.wrongCellCount(cells.length, width, separator) }];
  }
  const { spring, complaints, doubts, withUnit, signs } = readRow(cells, header, line);
  reading.doubts.push(...doubts.map((doubt) => ({ ...doubt, place: () => place(doubt.column.index) })));
  for (const name of withUnit) reading.withUnit.add(name);
  reading.hasCommas ||= signs.includes(',');
  if (spring === null) return complaints;
  const key = JSON.stringify({ ...spring, line: 0, notes: [] });
  const first = seen.get(key);
  if (first !== undefined) return [{ index: 0, complaint: say.repeatedRow(first) }];
  seen.set(key, line);
  reading.springs.push(spring);
  return [];
}

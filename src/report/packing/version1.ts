/**
 * Reads packing version 1, in which pages were written until brotli came: those with a result of version 1, and the
 * first with a result of version 2. Nothing writes it any more. Each different text, list and record stands there once:
 *
 *   { "root": 2,
 *     "texts":  ["coil bind", "mm"],                        entries 0 and 1
 *     "lists":  [{ "at": [3, 4] }],                         entry 2
 *     "tables": [{ "keys": ["check", "shortfall", "unit"],  entries 3 and 4: the rows, counted on from table to table
 *                  "columns": [{ "at": [0, 0] }, [3.2, 4.1], { "at": [1, 1] }] }] }
 *
 * A column or list is a series of values (`[1.5, null, true]`), or `at` of numbers of entries, in which a number in
 * brackets is itself. `"x3"`: the cell before it stands there three times in all; `"+3"`: the next three entries follow.
 */
import { NotPacked } from './faults.ts';

/** Limits that no result comes near: what a page holds, and what it unfolds to once what is shared stands apart. */
const MOST_CELLS = 3_000_000;
const MOST_SIGNS = 80_000_000;
/** Signs that a list or record counts for besides its values, by the memory it takes. */
const NESTED_SIGNS = 20;
const MOST_DEPTH = 200;

type Fields = Readonly<Record<string, unknown>>;

interface Series {
  readonly cells: readonly unknown[];
  /** Whether numbers among them are those of entries. */
  readonly isAt: boolean;
}

interface Row {
  readonly keys: readonly string[];
  readonly columns: readonly Series[];
  readonly row: number;
}

/** A value and how many signs it takes, about. */
interface Sized {
  readonly value: unknown;
  readonly size: number;
}

interface Reading {
  readonly entries: readonly (string | Series | Row)[];
  /** Each entry is put together once and then shared. */
  readonly done: Map<number, Sized>;
}

interface Budget {
  left: number;
}

/** What is equal comes back as one and the same object: the value is to be read only. */
export function unpackVersion1({ root, texts, lists, tables }: Fields): unknown {
  const budget = { left: MOST_CELLS };
  const entries: (string | Series | Row)[] = arrayAt(texts, 'texts').map((text, k) => textAt(text, `texts[${k}]`));
  for (const [k, list] of arrayAt(lists, 'lists').entries()) entries.push(readSeries(list, `lists[${k}]`, budget));
  for (const [k, table] of arrayAt(tables, 'tables').entries()) {
    for (const row of readRows(table, `tables[${k}]`, budget)) entries.push(row);
  }
  return readCell(root, true, { entries, done: new Map() }, 0).value;
}

function readRows(table: unknown, where: string, budget: Budget): Row[] {
  const fields = recordAt(table, where);
  const keys = arrayAt(fields.keys, `${where}.keys`).map((key, k) => textAt(key, `${where}.keys[${k}]`));
  if (new Set(keys).size < keys.length) throw new NotPacked(`${where}.keys`, 'a key stands twice');
  const columns = arrayAt(fields.columns, `${where}.columns`).map((column, k) =>
    readSeries(column, `${where}.columns[${k}]`, budget),
  );
  if (columns.length !== keys.length) throw new NotPacked(`${where}.columns`, 'not one for each key');
  const length = columns[0]?.cells.length ?? 1;
  const odd = columns.findIndex(({ cells }) => cells.length !== length);
  if (odd >= 0) throw new NotPacked(`${where}.columns[${odd}]`, 'not as long as the first');
  return Array.from({ length }, (_, row) => ({ keys, columns, row }));
}

/** A series with its repeats written out. */
function readSeries(series: unknown, where: string, budget: Budget): Series {
  const isAt = !Array.isArray(series);
  const written = isAt ? arrayAt(recordAt(series, where).at, `${where}.at`) : series;
  const cells: unknown[] = [];
  for (const [k, cell] of written.entries()) {
    const last = cells.at(-1);
    const { count, step } = typeof cell === 'string' ? repeatIn(cell, last, isAt) : { count: 1, step: null };
    budget.left -= count;
    if (budget.left < 0) throw new NotPacked(`${where}[${k}]`, 'a repeat that repeats nothing, or too much');
    for (let n = 1; n <= count; n++) cells.push(step === null ? cell : step === 0 ? last : Number(last) + n);
  }
  return { cells, isAt };
}

/** How many more cells follow the last, and by how much each is higher than the one before; endless where it says none. */
function repeatIn(text: string, last: unknown, isAt: boolean): { readonly count: number; readonly step: 0 | 1 } {
  const [, sign, digits] = /^([x+])([1-9]\d*)$/.exec(text) ?? [];
  if (sign === 'x' && last !== undefined) return { count: Number(digits) - 1, step: 0 };
  const isRun = sign === '+' && isAt && typeof last === 'number';
  return { count: isRun ? Number(digits) : Number.POSITIVE_INFINITY, step: 1 };
}

function readCell(cell: unknown, isAt: boolean, reading: Reading, depth: number): Sized {
  if (isAt && typeof cell === 'number') return readEntry(cell, reading, depth);
  const value = isAt && Array.isArray(cell) && cell.length === 1 ? cell[0] : cell;
  if (value === null || typeof value === 'boolean' || typeof value === 'number') return { value, size: 1 };
  throw new NotPacked('a cell', 'no value');
}

function readEntry(index: number, reading: Reading, depth: number): Sized {
  const known = reading.done.get(index);
  if (known !== undefined) return known;
  const entry = reading.entries[index];
  if (entry === undefined) throw new NotPacked(`entry ${index}`, 'there is none');
  // An entry that holds itself goes on for ever, and so goes too deep.
  if (depth > MOST_DEPTH) throw new NotPacked(`entry ${index}`, 'nested too deeply, or in itself');
  const read =
    typeof entry === 'string' ? { value: entry, size: entry.length + 1 } : readNested(entry, reading, depth + 1);
  if (read.size > MOST_SIGNS) throw new NotPacked(`entry ${index}`, 'too large');
  reading.done.set(index, read);
  return read;
}

function readNested(entry: Series | Row, reading: Reading, depth: number): Sized {
  const isList = 'cells' in entry;
  const cells = isList
    ? entry.cells.map((cell) => readCell(cell, entry.isAt, reading, depth))
    : entry.columns.map(({ cells, isAt }) => readCell(cells[entry.row], isAt, reading, depth));
  const values = cells.map(({ value }) => value);
  // Made from pairs, so that a key such as `__proto__` is a key like any other.
  const value = isList ? values : Object.fromEntries(entry.keys.map((key, k) => [key, values[k]]));
  const keys = isList ? 0 : entry.keys.join().length;
  return { value, size: cells.reduce((sum, { size }) => sum + size, keys + NESTED_SIGNS) };
}

export function recordAt(value: unknown, where: string): Fields {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Fields;
  throw new NotPacked(where, 'not a record');
}

function arrayAt(value: unknown, where: string): readonly unknown[] {
  if (Array.isArray(value)) return value;
  throw new NotPacked(where, 'not a list');
}

export function textAt(value: unknown, where: string): string {
  if (typeof value === 'string') return value;
  throw new NotPacked(where, 'not a text');
}

/** From the packed form back to the value it was; `format.ts` says what it looks like. */
import { type Json, PACKED_SCHEMA, PACKED_VERSION, type Plain } from './format.ts';

/** What is read is not what `pack` writes; `where` names the part, e.g. `tables[3].columns[0]`. */
export class NotPacked extends Error {
  readonly where: string;

  constructor(where: string, what: string) {
    super(what);
    this.where = where;
  }
}

/** Written by a later program, in a form this one does not know. */
export class NewerPacking extends Error {
  readonly version: number;

  constructor(version: number) {
    super(`version ${version}`);
    this.version = version;
  }
}

/** Limits that no result comes near, and that what was made up to exhaust the machine does not pass. */
const MOST_CELLS = 20_000_000;
const MOST_DEPTH = 200;

type Cell = Plain | readonly unknown[];
/** Cells, and whether a number among them is an entry's. */
interface Cells {
  readonly cells: readonly Cell[];
  readonly ofEntries: boolean;
}

interface Row {
  readonly keys: readonly string[];
  readonly columns: readonly Cells[];
  readonly row: number;
}

type Entry = string | Cells | Row;

interface Unpacking {
  readonly entries: readonly Entry[];
  /** What is known already: each entry is put together once and then shared. */
  readonly done: (Json | undefined)[];
  /** Values in an entry, those of its own entries counted in. */
  readonly sizes: number[];
}

/**
 * Gives back what `pack` packed. What is equal comes back as one and the same object: the value is to be read only.
 * @throws NotPacked, NewerPacking
 */
export function unpack(packed: unknown): Json {
  const { root, texts, lists, tables } = header(packed);
  const budget = { left: MOST_CELLS };
  const entries: Entry[] = [
    ...arrayAt(texts, 'texts').map((text, k) => textAt(text, `texts[${k}]`)),
    ...arrayAt(lists, 'lists').map((list, k) => cellsAt(list, `lists[${k}]`, budget)),
  ];
  for (const [k, table] of arrayAt(tables, 'tables').entries()) {
    for (const row of rowsAt(table, `tables[${k}]`, budget)) entries.push(row);
  }
  const unpacking = { entries, done: new Array(entries.length), sizes: new Array(entries.length).fill(0) };
  return valueIn({ cells: [root as Cell], ofEntries: true }, 0, unpacking, 0).value;
}

function header(packed: unknown): Readonly<Record<'root' | 'texts' | 'lists' | 'tables', unknown>> {
  const { schema, version, ...rest } = recordAt(packed, 'the whole');
  if (schema !== PACKED_SCHEMA) throw new NotPacked('schema', `not ${PACKED_SCHEMA}`);
  if (typeof version === 'number' && version > PACKED_VERSION) throw new NewerPacking(version);
  if (version !== PACKED_VERSION) throw new NotPacked('version', `not ${PACKED_VERSION}`);
  return { root: rest.root, texts: rest.texts, lists: rest.lists, tables: rest.tables };
}

function rowsAt(table: unknown, where: string, budget: { left: number }): readonly Row[] {
  const fields = recordAt(table, where);
  const keys = arrayAt(fields.keys, `${where}.keys`).map((key, k) => textAt(key, `${where}.keys[${k}]`));
  if (new Set(keys).size < keys.length) throw new NotPacked(`${where}.keys`, 'a key stands twice');
  const columns = arrayAt(fields.columns, `${where}.columns`).map((column, k) =>
    cellsAt(column, `${where}.columns[${k}]`, budget),
  );
  if (columns.length !== keys.length) throw new NotPacked(`${where}.columns`, 'not one for each key');
  const rows = columns[0]?.cells.length ?? 1;
  const odd = columns.findIndex(({ cells }) => cells.length !== rows);
  if (odd >= 0) throw new NotPacked(`${where}.columns[${odd}]`, 'not as long as the first');
  return Array.from({ length: rows }, (_, row) => ({ keys, columns, row }));
}

/** A series with its repeats and runs written out. */
function cellsAt(series: unknown, where: string, budget: { left: number }): Cells {
  const ofEntries = !Array.isArray(series);
  const written = ofEntries ? arrayAt(recordAt(series, where).at, `${where}.at`) : series;
  const cells: Cell[] = [];
  for (const [k, cell] of written.entries()) {
    const more = typeof cell === 'string' ? moreOf(cell, cells.at(-1), ofEntries) : { count: 1, step: 0 };
    if (more !== null) budget.left -= more.count;
    if (more === null || budget.left < 0) {
      throw new NotPacked(`${where}[${k}]`, 'a repeat that repeats nothing, or too much');
    }
    if (typeof cell !== 'string') cells.push(cell as Cell);
    else for (let n = 0; n < more.count; n++) cells.push(next(cells.at(-1) as Cell, more.step));
  }
  return { cells, ofEntries };
}

/** How many more cells follow the last one, and by how much each is higher; null where it says no such thing. */
function moreOf(text: string, last: Cell | undefined, ofEntries: boolean): { count: number; step: number } | null {
  if (last === undefined) return null;
  if (/^x[1-9]\d*$/.test(text)) return { count: Number(text.slice(1)) - 1, step: 0 };
  const isRun = ofEntries && typeof last === 'number' && /^\+[1-9]\d*$/.test(text);
  return isRun ? { count: Number(text.slice(1)), step: 1 } : null;
}

function next(cell: Cell, step: number): Cell {
  return typeof cell === 'number' ? cell + step : cell;
}

interface Valued {
  readonly value: Json;
  readonly size: number;
}

function valueIn({ cells, ofEntries }: Cells, index: number, unpacking: Unpacking, depth: number): Valued {
  const cell = cells[index];
  if (cell === null || typeof cell === 'boolean') return { value: cell, size: 1 };
  if (typeof cell === 'number' && ofEntries) return entryAt(cell, unpacking, depth);
  const value = ofEntries && Array.isArray(cell) && cell.length === 1 ? cell[0] : cell;
  if (typeof value !== 'number') throw new NotPacked('a cell', `${JSON.stringify(value)} is no value`);
  return { value, size: 1 };
}

function entryAt(index: number, unpacking: Unpacking, depth: number): Valued {
  const { entries, done, sizes } = unpacking;
  const known = done[index];
  if (known !== undefined) return { value: known, size: sizes[index] ?? 1 };
  const entry = entries[index];
  if (entry === undefined) throw new NotPacked(`entry ${index}`, 'there is none');
  // An entry that holds itself goes on for ever, and so goes too deep.
  if (depth > MOST_DEPTH) throw new NotPacked(`entry ${index}`, 'nested too deeply, or in itself');
  const built = typeof entry === 'string' ? { value: entry, size: 1 } : nested(entry, unpacking, depth + 1);
  if (built.size > MOST_CELLS) throw new NotPacked(`entry ${index}`, 'too large');
  done[index] = built.value;
  sizes[index] = built.size;
  return built;
}

function nested(entry: Cells | Row, unpacking: Unpacking, depth: number): Valued {
  if ('cells' in entry) {
    const parts = entry.cells.map((_, k) => valueIn(entry, k, unpacking, depth));
    return { value: parts.map(({ value }) => value), size: sizeOf(parts) };
  }
  const parts = entry.columns.map((column) => valueIn(column, entry.row, unpacking, depth));
  // Made from pairs, so that a key such as `__proto__` is a key like any other.
  const pairs = entry.keys.map((key, k) => [key, (parts[k] as Valued).value] as const);
  return { value: Object.fromEntries(pairs), size: sizeOf(parts) };
}

function sizeOf(parts: readonly Valued[]): number {
  return parts.reduce((sum, { size }) => sum + size, 1);
}

function recordAt(value: unknown, where: string): Readonly<Record<string, unknown>> {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Record<string, unknown>;
  throw new NotPacked(where, 'not a record');
}

function arrayAt(value: unknown, where: string): readonly unknown[] {
  if (Array.isArray(value)) return value;
  throw new NotPacked(where, 'not a list');
}

function textAt(value: unknown, where: string): string {
  if (typeof value === 'string') return value;
  throw new NotPacked(where, 'not a text');
}

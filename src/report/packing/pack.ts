/** From a plain value to its packed form; `format.ts` says what that looks like. */
import {
  type EntryCell,
  type Json,
  PACKED_SCHEMA,
  PACKED_VERSION,
  type Packed,
  type Plain,
  type Series,
  type Table,
  type Times,
  type Upward,
} from './format.ts';

/** A text, list or record, kept once. */
interface Entry {
  readonly id: number;
  /** Where it will stand: among the texts, the lists, or the rows of a table. */
  readonly group: Group;
  readonly place: number;
}

interface Group {
  /** Number of its first entry; known when everything has been seen. */
  first: number;
  readonly cells: (readonly Cell[])[];
}

interface TableGroup extends Group {
  readonly keys: readonly string[];
}

type Cell = Plain | Entry;

interface Store {
  /** By content, so that what is equal is the same entry. */
  readonly entries: Map<string, Entry>;
  readonly texts: Group & { readonly words: string[] };
  readonly lists: Group;
  /** By their keys, in the order in which they are first met. */
  readonly tables: Map<string, TableGroup>;
}

/**
 * Packs plain data. What `JSON.stringify` would not write comes back as it would: fields that are undefined are left
 * out, -0 is 0, a number that is not finite is null.
 */
export function pack(data: unknown): Packed {
  const store: Store = {
    entries: new Map(),
    texts: { first: 0, cells: [], words: [] },
    lists: { first: 0, cells: [] },
    tables: new Map(),
  };
  const root = cellOf(JSON.parse(JSON.stringify(data)) as Json, store);
  number(store);
  return {
    schema: PACKED_SCHEMA,
    version: PACKED_VERSION,
    root: placed(root),
    texts: store.texts.words,
    lists: store.lists.cells.map(seriesOf),
    tables: [...store.tables.values()].map(tableOf),
  };
}

function cellOf(value: Json, store: Store): Cell {
  if (typeof value === 'string') return textEntry(value, store);
  if (value === null || typeof value !== 'object') return value;
  if (isList(value)) return entryOf(store, 'list', store.lists, cellsOf(value, store));
  const keys = Object.keys(value);
  const cells = cellsOf(Object.values(value), store);
  const shape = JSON.stringify(keys);
  const table: TableGroup = store.tables.get(shape) ?? { first: 0, cells: [], keys };
  store.tables.set(shape, table);
  return entryOf(store, shape, table, cells);
}

function cellsOf(values: readonly Json[], store: Store): readonly Cell[] {
  return values.map((value) => cellOf(value, store));
}

function textEntry(text: string, { entries, texts }: Store): Entry {
  const key = `text ${text}`;
  const known = entries.get(key);
  if (known) return known;
  const entry = { id: entries.size, group: texts, place: texts.words.length };
  texts.words.push(text);
  entries.set(key, entry);
  return entry;
}

function entryOf({ entries }: Store, kind: string, group: Group, cells: readonly Cell[]): Entry {
  const key = `${kind} ${cells.map((cell) => (isEntry(cell) ? `#${cell.id}` : String(cell))).join()}`;
  const known = entries.get(key);
  if (known) return known;
  const entry = { id: entries.size, group, place: group.cells.length };
  group.cells.push(cells);
  entries.set(key, entry);
  return entry;
}

/** Texts first, then lists, then the rows of each table. */
function number({ texts, lists, tables }: Store): void {
  lists.first = texts.words.length;
  let next = lists.first + lists.cells.length;
  for (const table of tables.values()) {
    table.first = next;
    next += table.cells.length;
  }
}

function tableOf({ keys, cells }: TableGroup): Table {
  return { keys, columns: keys.map((_, k) => seriesOf(cells.map((row) => row[k] as Cell))) };
}

function seriesOf(cells: readonly Cell[]): Series {
  const plain = cells.filter(isPlain);
  return plain.length === cells.length ? shortened(plain) : { at: upward(shortened(cells.map(placed))) };
}

function placed(cell: Cell): EntryCell {
  if (isEntry(cell)) return cell.group.first + cell.place;
  return typeof cell === 'number' ? [cell] : cell;
}

/** Repeats counted, where that is shorter. */
function shortened<T>(cells: readonly T[]): (T | Times)[] {
  const written: (T | Times)[] = [];
  for (let k = 0; k < cells.length; ) {
    const cell = cells[k] as T;
    const text = JSON.stringify(cell);
    let end = k + 1;
    while (end < cells.length && JSON.stringify(cells[end]) === text) end++;
    const times: Times = `x${end - k}`;
    const isShorter = times.length + 2 < (end - k - 1) * (text.length + 1) - 1;
    written.push(...(isShorter ? [cell, times] : cells.slice(k, end)));
    k = end;
  }
  return written;
}

/** Numbers of entries that go up by one, counted where that is shorter. */
function upward(cells: readonly (EntryCell | Times)[]): (EntryCell | Times | Upward)[] {
  const written: (EntryCell | Times | Upward)[] = [];
  for (let k = 0; k < cells.length; ) {
    const first = cells[k] as EntryCell | Times;
    let end = k + 1;
    while (typeof first === 'number' && end < cells.length && cells[end] === first + end - k) end++;
    written.push(...(end - k > 3 ? [first, `+${end - k - 1}` as const] : cells.slice(k, end)));
    k = end;
  }
  return written;
}

function isEntry(cell: Cell): cell is Entry {
  return typeof cell === 'object' && cell !== null;
}

function isPlain(cell: Cell): cell is Plain {
  return !isEntry(cell);
}

function isList(value: Json): value is readonly Json[] {
  return Array.isArray(value);
}

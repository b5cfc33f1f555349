/**
 * A plain JSON value written in little room. A result repeats itself: thousands of records with the same keys, the same
 * sentence under each of them, the same number down a column. So each different text, list and record is kept once, and
 * records with the same keys stand together as one table, column by column.
 *
 *   { "schema": "springsift-packed", "version": 1, "root": 2,
 *     "texts":  ["coil bind", "mm"],                        entries 0 and 1
 *     "lists":  [{ "at": [3, 4] }],                         entry 2
 *     "tables": [{ "keys": ["check", "shortfall", "unit"],  entries 3 and 4: the rows, counted on from table to table
 *                  "columns": [{ "at": [0, 0] }, [3.2, 4.1], { "at": [1, 1] }] }] }
 *
 * is
 *
 *   [{ "check": "coil bind", "shortfall": 3.2, "unit": "mm" }, { "check": "coil bind", "shortfall": 4.1, "unit": "mm" }]
 *
 * Entries are counted through texts, lists and rows, from 0. A column or list is a series of cells of one of two forms:
 *
 *   [1.5, null, true]       the values themselves: numbers, true, false, null
 *   { "at": [5, 4, [2]] }   numbers of entries; true, false and null are themselves, a number in brackets is itself
 *
 * In both, `"x3"` says that the cell before it stands there three times in all; among numbers of entries `"+3"` says
 * that the next three go up by one each. A table without keys is the empty
 * record. Keys keep their order, so the value read back gives the same JSON, byte for byte.
 */

export const PACKED_SCHEMA = 'springsift-packed';
export const PACKED_VERSION = 1;

export type Plain = null | boolean | number;
export type Json = Plain | string | readonly Json[] | { readonly [key: string]: Json };

/** `x3`: the cell before stands three times in all. */
export type Times = `x${number}`;
export type PlainSeries = readonly (Plain | Times)[];
/** `+3`: three more, each by one higher than the one before. */
export type Upward = `+${number}`;
/** What names an entry, or stands for itself. */
export type EntryCell = Plain | readonly [number];
export type EntrySeries = { readonly at: readonly (EntryCell | Times | Upward)[] };
export type Series = PlainSeries | EntrySeries;

export interface Table {
  readonly keys: readonly string[];
  /** One a key, all of one length once the repeats are written out. */
  readonly columns: readonly Series[];
}

export interface Packed {
  readonly schema: typeof PACKED_SCHEMA;
  readonly version: typeof PACKED_VERSION;
  /** The whole, as a cell of a series of entries. */
  readonly root: EntryCell;
  readonly texts: readonly string[];
  readonly lists: readonly Series[];
  readonly tables: readonly Table[];
}

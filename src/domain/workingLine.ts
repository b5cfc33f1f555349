/** One line of a working: a quantity with its formula in symbols and in numbers. */
import type { Dimension } from './units.ts';

export interface WorkingLine {
  readonly symbol: string;
  readonly label: string;
  /** In symbols; null where the value is given or read off a curve (then `source` says which). */
  readonly expression: string | null;
  /** The same with numbers put in. */
  readonly filled: string | null;
  /** Inner units of `dimension`; null: not known, and `source` says why. */
  readonly value: number | null;
  readonly dimension: Dimension;
  readonly source: string;
  readonly group: string;
}

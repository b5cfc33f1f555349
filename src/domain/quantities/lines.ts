/** Quantities as lines of a working: each formula in symbols, then with its numbers put in. */
import { STANDARD_ATMOSPHERE, STANDARD_GRAVITY } from '../constants.ts';
import type { WorkingLine } from '../explanation.ts';
import type { Quantity } from './quantity.ts';

/** Constants that expressions may name beside quantities. */
export const EXPRESSION_CONSTANTS: Readonly<Record<string, number>> = {
  g_n: STANDARD_GRAVITY,
  p_a: STANDARD_ATMOSPHERE,
  pi: Math.PI,
};

const FUNCTIONS = new Set(['min', 'max', 'sqrt']);

/** Lines of all quantities that exist, in their order. */
export function workingLines<T>(quantities: readonly Quantity<T>[], from: T): WorkingLine[] {
  const values = new Map(Object.entries(EXPRESSION_CONSTANTS));
  for (const q of quantities) values.set(q.symbol, q.read(from) ?? Number.NaN);
  return quantities.flatMap((q) => {
    const value = q.read(from);
    if (value === null) return unknownLine(q);
    const expression = q.expression(from);
    const { symbol, label, dimension, group } = q;
    const filled = expression === null ? null : fillIn(expression, values);
    return [{ symbol, label, expression, filled, value, dimension, source: q.source(from), group }];
  });
}

/** A quantity whose value is not known says so where others say their source. */
function unknownLine<T>({ symbol, label, dimension, group, unknown }: Quantity<T>): WorkingLine[] {
  if (unknown === null) return [];
  return [{ symbol, label, expression: null, filled: null, value: null, dimension, source: unknown, group }];
}

/** Puts numbers in place of symbols, six significant digits; what is negative goes into brackets. */
export function fillIn(expression: string, values: ReadonlyMap<string, number>): string {
  return expression.replace(/[A-Za-z_][A-Za-z_0-9]*/g, (name) => {
    if (FUNCTIONS.has(name)) return name;
    const value = values.get(name);
    if (value === undefined) return name;
    const text = shortNumber(value);
    return value < 0 ? `(${text})` : text;
  });
}

function shortNumber(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toPrecision(6))) : String(value);
}

/** A number before and after, and its difference, in both worlds. */
import type { Dimension } from '../../domain/units.ts';
import { imperialUnit, innerUnit } from '../../domain/units.ts';
import { fixed, inImperial, inInner, PAGE, unitSymbol } from '../numbers.ts';

export interface AmountView {
  readonly label: string;
  readonly unit: string;
  readonly imperialUnit: string | null;
  readonly before: ValueView;
  readonly after: ValueView;
  readonly difference: ValueView;
  /** The figures as shown differ. */
  readonly changed: boolean;
}

export interface ValueView {
  readonly metric: string;
  readonly imperial: string | null;
}

type Value = number | null | undefined;

export function amountView(label: string, dimension: Dimension, before: Value, after: Value): AmountView {
  const imperial = imperialUnit(dimension);
  const values = { before: valueView(before, dimension), after: valueView(after, dimension) };
  return {
    label,
    unit: unitSymbol(innerUnit(dimension), PAGE),
    imperialUnit: imperial === null ? null : unitSymbol(imperial, PAGE),
    ...values,
    difference: {
      metric: gain(values.before.metric, values.after.metric),
      imperial: values.before.imperial === null ? null : gain(values.before.imperial, values.after.imperial ?? ''),
    },
    changed: values.before.metric !== values.after.metric,
  };
}

function valueView(value: Value, dimension: Dimension): ValueView {
  return { metric: inInner(value, dimension, PAGE), imperial: inImperial(value, dimension, PAGE) };
}

/** The difference of two figures as shown, with its sign: the reader's own subtraction gives the same. */
export function gain(before: string, after: string): string {
  if (before === PAGE.none || after === PAGE.none) return before === after ? '' : PAGE.none;
  const [was, is] = [numberIn(before), numberIn(after)];
  const decimals = Math.max(decimalsOf(before), decimalsOf(after));
  const text = fixed(is - was, decimals, PAGE);
  if (before === after) return '=';
  return is > was ? `+${text}` : text;
}

function numberIn(shown: string): number {
  return Number(shown.replaceAll(PAGE.group, '').replace(PAGE.minus, '-'));
}

function decimalsOf(shown: string): number {
  return shown.split('.')[1]?.length ?? 0;
}

/** A number before and after, and its difference, in both worlds. */
import { type Dimension, imperialUnit, innerUnit } from '../model/units.ts';
import { fixed, inImperial, inInner, PAGE, unitSymbol } from '../report/text/numbers.ts';

type Value = number | null | undefined;

export function amountView(label: string, dimension: Dimension, before: Value, after: Value) {
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
    /** The figures as shown differ. */
    changed: values.before.metric !== values.after.metric,
  };
}

function valueView(value: Value, dimension: Dimension) {
  return { metric: inInner(value, dimension, PAGE), imperial: inImperial(value, dimension, PAGE) };
}

/** The difference of two figures as shown, with its sign: the reader's own subtraction gives the same. */
export function gain(before: string, after: string): string {
  if (before === PAGE.none || after === PAGE.none) return before === after ? '' : PAGE.none;
  const [was, is] = [numberIn(before), numberIn(after)];
  const decimals = Math.max(...[before, after].map((shown) => shown.split('.')[1]?.length ?? 0));
  const text = fixed(is - was, decimals, PAGE);
  if (before === after) return '=';
  return is > was ? `+${text}` : text;
}

function numberIn(shown: string): number {
  return Number(shown.replaceAll(PAGE.group, '').replace(PAGE.minus, '-'));
}

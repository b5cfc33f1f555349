/** A chosen part in one line of plain text: its name, then the dimensions that were picked among. */
import type { PartChoice } from '../domain/result.ts';
import { type Dimension, findUnitByKey, UNITS } from '../domain/units.ts';
import { type NumberStyle, withUnits } from './numbers.ts';
import { nameOf } from './read.ts';

export function choiceText(part: PartChoice, style: NumberStyle): string {
  const name = nameOf(part);
  if (name === null) return 'none';
  const choices = Object.entries(part.choice).map(([key, value]) => {
    const { stem, dimension } = splitKey(key);
    return `${stem} ${withUnits(value, dimension, style)}`;
  });
  return choices.length > 0 ? `${name}: ${choices.join(', ')}` : name;
}

/** `rate_n_per_mm` is a rate called `rate`: the longest unit key that ends it tells. */
export function splitKey(key: string): { readonly stem: string; readonly dimension: Dimension } {
  const words = key.split('_');
  for (let k = 1; k < words.length; k++) {
    const unit = words.slice(k).join('_');
    const dimension = (Object.keys(UNITS) as Dimension[]).find((d) => findUnitByKey(d, unit) !== null);
    if (dimension !== undefined) return { stem: words.slice(0, k).join(' '), dimension };
  }
  return { stem: words.join(' '), dimension: 'ratio' };
}

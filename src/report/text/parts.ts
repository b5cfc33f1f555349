/** A chosen part in one line of plain text: its name, then the dimensions that were picked among. */
import { type Dimension, findUnitByKey, imperialUnit, innerUnit, UNITS } from '../../model/units.ts';
import type { Values } from '../../result/quantities/quantity.ts';
import type { Combination, CornerReport, Flag, PartChoice } from '../../result/result.ts';
import { inImperial, inInner, type NumberStyle, PAGE, unitSymbol, withUnits } from './numbers.ts';

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

// Reading the result object's keyed values. A key that is not there is a mistake of the program, never a blank.

/** A value in both worlds, ready for a page. */
export interface Measure {
  readonly metric: string;
  readonly unit: string;
  /** Null where both worlds share the unit. */
  readonly imperial: string | null;
  readonly imperialUnit: string | null;
}

export function measure(value: number | null, dimension: Dimension): Measure {
  const imperial = imperialUnit(dimension);
  return {
    metric: inInner(value, dimension, PAGE),
    unit: unitSymbol(innerUnit(dimension), PAGE),
    imperial: inImperial(value, dimension, PAGE),
    imperialUnit: imperial === null ? null : unitSymbol(imperial, PAGE),
  };
}

export function quantityOf<V extends Values<never>>(values: V, key: keyof V & string): number | null {
  const value = (values as Values<string>)[key];
  if (value === undefined) throw new Error(`The result has no quantity “${key}”.`);
  return value;
}

export function wordOf(corner: CornerReport, key: string): string {
  const word = corner.words[key];
  if (word === undefined) throw new Error(`The result has no word “${key}”.`);
  return word;
}

/** A chosen dimension of a part, 0 where the part has none. */
export function choiceOf(part: PartChoice, key: string): number {
  return part.choice[key] ?? 0;
}

/** The part's name, or null where the family's choice is to have none. */
export function nameOf(part: PartChoice): string | null {
  return part.name === 'none' && Object.keys(part.choice).length === 0 ? null : part.name;
}

/** The clearance of a corner or a side with the stop fully closed; null where full bump is that, or in an older record. */
export function closedClearance(values: CornerReport['values'], id: 'thinnest_clearance'): Measure | null {
  const closed = values[`${id}_closed_mm`] ?? null;
  return closed === null ? null : measure(closed, 'length');
}

/** Each sentence once, in the order front, rear, pair; what is true of both axles stands once for both. */
export function messagesOf(
  { axles, flags }: Combination,
  kind: Flag['kind'],
  wanted: (flag: Flag) => boolean = () => true,
): string[] {
  const all = [...axles.front.flags, ...axles.rear.flags, ...flags];
  const messages = new Set(all.filter((flag) => flag.kind === kind && wanted(flag)).map((flag) => flag.message));
  return [...messages].flatMap((message) => {
    const [axle, text] = partsOf(message);
    if (!messages.has(`${axle === 'Front' ? 'Rear' : 'Front'}: ${text}`)) return [message];
    return axle === 'Front' ? [`Front and rear: ${text}`] : [];
  });
}

/** `Front: the stop ...` is about an axle; other sentences are about none. */
function partsOf(message: string): readonly [axle: string | null, text: string] {
  const [, axle = null, text = message] = /^(Front|Rear): (.*)$/s.exec(message) ?? [];
  return [axle, text];
}

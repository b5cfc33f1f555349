/** Reading the result object's keyed values. A key that is not there is a mistake of the program, never a blank. */
import type { CornerReport, PartChoice } from '../domain/result.ts';
import type { Dimension } from '../domain/units.ts';
import { imperialUnit, innerUnit } from '../domain/units.ts';
import { inImperial, inInner, PAGE, unitSymbol } from './numbers.ts';

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

export function quantityOf(values: Readonly<Record<string, number | null>>, key: string): number | null {
  const value = values[key];
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

/** The clearance nearest its margin; with the stop fully closed where full bump is judged under a load, else null. */
export interface Thinnest {
  readonly name: string;
  readonly clearance: Measure;
  readonly spare: Measure;
  readonly closed: Measure | null;
}

/** The clearance of a corner or a side with the stop fully closed; null where full bump is that, or in an older record. */
export function closedClearance(values: CornerReport['values'], id: string): Measure | null {
  const closed = values[`${id}_closed_mm`] ?? null;
  return closed === null ? null : measure(closed, 'length');
}

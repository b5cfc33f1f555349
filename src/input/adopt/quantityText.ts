/** A number in inner units as it is written into a file, in the unit that stands there already. */
import { type Dimension, findUnit, fromInner, innerUnit, type Unit } from '../../domain/units.ts';

/** Enough digits that reading it back gives the same number to a part in 1e12. */
export function numberText(value: number): string {
  return String(Number(value.toPrecision(13)));
}

export function inUnit(value: number, unit: Unit): string {
  const number = numberText(fromInner(value, unit));
  return unit.symbol === '' ? number : `${number} ${unit.symbol}`;
}

/** `value` in the first unit found in what stands there, else in the inner unit. */
export function likeWritten(value: number, dimension: Dimension, written: string): string {
  const units = [...written.matchAll(/\d\s*([A-Za-z/"%][A-Za-z0-9/"]*(?: [A-Za-z/]+)?)/g)];
  const unit = units.map((match) => findUnit(dimension, match[1] ?? '')).find((found) => found !== null);
  return inUnit(value, unit ?? innerUnit(dimension));
}

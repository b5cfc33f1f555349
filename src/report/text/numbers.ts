/** Numbers as people read them: decimals by dimension, the same on every machine whatever its locale. */
import { type Dimension, fromInner, imperialUnit, innerUnit, type Unit } from '../../model/units.ts';

export interface NumberStyle {
  readonly minus: string;
  /** Stands where a value does not exist. */
  readonly none: string;
  /** Between groups of three digits of a count. */
  readonly group: string;
  readonly symbols: Readonly<Record<string, string>>;
}

/** For a terminal. */
export const PLAIN: NumberStyle = { minus: '-', none: 'none', group: ',', symbols: {} };

/** For a page: a true minus, a dash for nothing, thin spaces, raised exponents. */
export const PAGE: NumberStyle = {
  minus: '\u2212',
  none: '\u2013',
  group: '\u202f',
  symbols: { mm2: 'mm²', mm3: 'mm³', degC: '°C', 'N s/m': 'N·s/m', 'lbf s/in': 'lbf·s/in', 'N m/deg': 'N·m/°' },
};

/** Decimals in the inner unit and in the imperial one: about the last digit a careful person can measure. */
const DECIMALS: Readonly<Record<Dimension, readonly [inner: number, imperial: number]>> = {
  length: [1, 2],
  area: [1, 2],
  volume: [0, 1],
  force: [1, 1],
  mass: [1, 1],
  rate: [2, 1],
  stress: [1, 0],
  frequency: [2, 2],
  temperature: [0, 0],
  velocity: [2, 1],
  damping: [0, 2],
  speed: [0, 0],
  angularRate: [1, 1],
  angle: [1, 1],
  ratioSlope: [3, 4],
  ratio: [3, 3],
  share: [1, 1],
  count: [0, 0],
  money: [2, 2],
};

type Value = number | null | undefined;

export function fixed(value: Value, decimals: number, style: NumberStyle): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return style.none;
  const digits = Math.abs(value).toFixed(decimals);
  // What rounds to zero has no sign.
  return value < 0 && Number(digits) !== 0 ? style.minus + digits : digits;
}

/** In the inner unit, without it. */
export function inInner(value: Value, dimension: Dimension, style: NumberStyle): string {
  return fixed(value, DECIMALS[dimension][0], style);
}

/** In the imperial partner unit, without it; null where both worlds share the unit. */
export function inImperial(value: Value, dimension: Dimension, style: NumberStyle): string | null {
  const unit = imperialUnit(dimension);
  if (unit === null) return null;
  return fixed(value === null || value === undefined ? null : fromInner(value, unit), DECIMALS[dimension][1], style);
}

/** `214.3 mm (8.44 in)` */
export function withUnits(value: Value, dimension: Dimension, style: NumberStyle): string {
  const number = inInner(value, dimension, style);
  if (number === style.none) return number;
  const metric = join(number, unitSymbol(innerUnit(dimension), style));
  const unit = imperialUnit(dimension);
  return unit === null
    ? metric
    : `${metric} (${join(inImperial(value, dimension, style) ?? '', unitSymbol(unit, style))})`;
}

/** `12,345` */
export function count(value: number, style: NumberStyle): string {
  return fixed(value, 0, style).replace(/\B(?=(\d{3})+$)/g, style.group);
}

/** `37.2 %` of a whole that may be 0. */
export function percent(part: number, whole: number, style: NumberStyle): string {
  return whole > 0 ? `${fixed((100 * part) / whole, 1, style)} %` : style.none;
}

export function unitSymbol(unit: Unit, style: NumberStyle): string {
  return style.symbols[unit.symbol] ?? unit.symbol;
}

function join(number: string, unit: string): string {
  return unit === '' ? number : `${number} ${unit}`;
}

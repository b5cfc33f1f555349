/** A number as people write it: a point or a comma as decimal sign, marks between thousands, a fraction. */

/** Between thousands: no decimal sign in any country. */
const SPACES = "'’ \u00a0\u2009\u202f";
const GROUPED = new RegExp(`^[+-]?\\d+(?:[.,${SPACES}]\\d+)+$`, 'u');
const SPLIT = new RegExp(`^([\\d.,+\\-/\\s${SPACES}]*)(.*)$`, 'su');
const PLAIN = /^[+-]?(?:\d+\.?|\.\d+|(?:\d+\.?\d*|\.\d+)e[+-]?\d+)$/i;
const FRACTION = /^(?:(\d+)[\s-]+)?(\d+) ?\/ ?(\d+)$/;

export type DecimalSign = '.' | ',';

export interface Digits {
  readonly value: number;
  /** The decimal sign of whoever wrote this, where it tells. */
  readonly sign: DecimalSign | null;
  /** The value if its only mark is no decimal sign but stands between thousands, as in `1,250`; null: it can't. */
  readonly asThousands: number | null;
}

/** Null for what is no number. */
export function readDigits(written: string): Digits | null {
  const text = written.trim();
  if (PLAIN.test(text)) return digits(Number(text), text.includes('.') ? '.' : null);
  if (/^[+-]?,\d+$/.test(text)) return digits(Number(text.replace(',', '.')), ',');
  const [, whole = '0', over = '0', under = ''] = FRACTION.exec(text) ?? [];
  if (under !== '') return Number(under) === 0 ? null : digits(Number(whole) + Number(over) / Number(under), null);
  return GROUPED.test(text) ? readGroups(text) : null;
}

function digits(value: number, sign: DecimalSign | null, asThousands: number | null = null): Digits {
  return { value, sign, asThousands };
}

function readGroups(text: string): Digits | null {
  const groups = text.split(/\D/).filter((group) => group !== '');
  const marks = [...text.slice(1)].filter((sign) => /\D/.test(sign));
  const [first = '', ...others] = marks;
  const last = others.at(-1) ?? first;
  const isDecimal = (last === '.' || last === ',') && (marks.length === 1 || last !== first);
  const inThousands = isThousands(groups, others.length === 0 ? [first] : marks.slice(0, isDecimal ? -1 : undefined));
  const negative = text.startsWith('-') ? -1 : 1;
  const all = negative * Number(groups.join(''));
  if (!isDecimal) return inThousands ? digits(all, otherSign(first)) : null;
  const value = negative * Number(`${groups.slice(0, -1).join('')}.${groups.at(-1)}`);
  if (marks.length === 1) return digits(value, inThousands ? null : last, inThousands ? all : null);
  return inThousands ? digits(value, last) : null;
}

/** One mark throughout, three digits behind each, and no 0 in front. */
function isThousands(groups: readonly string[], marks: readonly string[]): boolean {
  const [first = '', ...rest] = groups.slice(0, marks.length + 1);
  return (
    /^[1-9]\d{0,2}$/.test(first) &&
    rest.every((group) => group.length === 3) &&
    marks.every((mark) => mark === marks[0])
  );
}

function otherSign(mark: string): DecimalSign | null {
  if (mark === ',') return '.';
  return mark === '.' ? ',' : null;
}

/** A decimal number that nobody takes for thousands: `9.525` as `9.5250`. */
export function clearly(number: string): string {
  return /^[+-]?[1-9]\d{0,2}\.\d{3}$/.test(number) ? `${number}0` : number;
}

/** `5½` as `5 1/2`. */
export function withPlainFractions(text: string): string {
  return text.replace(/[¼½¾⅐-⅞]/g, (sign) => ` ${sign.normalize('NFKC').replace('⁄', '/')}`).trim();
}

/** What stands in front of a unit, and the unit. */
export function splitUnit(text: string): readonly [number: string, unit: string] {
  const [, power = '', behind = ''] = /^([+-]?(?:\d+\.?\d*|\.\d+)e[+-]?\d+(?![a-z\d]))(.*)$/isu.exec(text) ?? [];
  if (power !== '') return [power, behind.trim()];
  const [, number = '', unit = ''] = SPLIT.exec(text) ?? [];
  return [number.trim(), unit.trim()];
}

/**
 * The one table of units. Inside the program every quantity is in the first unit of its dimension; the others
 * exist only where text is read or written. Factors are exact by definition (NIST SP 811 App. B.8):
 * inch 25.4 mm, lb 0.45359237 kg, g_n 9.80665 m/s^2.
 */
const INCH = 25.4;
const POUND = 0.45359237;
const GN = 9.80665;
const LBF = POUND * GN;
const PSI_IN_MPA = LBF / (INCH * INCH);

export interface Unit {
  /** As people write it and as it is printed. */
  readonly symbol: string;
  /** As it stands in CSV headers and JSON keys. */
  readonly key: string;
  /** value in inner units = factor x value + offset */
  readonly factor: number;
  readonly offset?: number;
}

const plain = <const K extends string>(symbol: string, key: K) => ({ symbol, key, factor: 1 });

/** Each dimension's units, the inner one first. */
export const UNITS = {
  length: [
    plain('mm', 'mm'),
    { symbol: 'cm', key: 'cm', factor: 10 },
    { symbol: 'm', key: 'm', factor: 1000 },
    { symbol: 'in', key: 'in', factor: INCH },
    { symbol: 'ft', key: 'ft', factor: 12 * INCH },
  ],
  area: [
    plain('mm2', 'mm2'),
    { symbol: 'cm2', key: 'cm2', factor: 100 },
    { symbol: 'in2', key: 'in2', factor: INCH * INCH },
  ],
  volume: [
    plain('mm3', 'mm3'),
    { symbol: 'cm3', key: 'cm3', factor: 1000 },
    { symbol: 'in3', key: 'in3', factor: INCH ** 3 },
  ],
  force: [
    plain('N', 'n'),
    { symbol: 'kN', key: 'kn', factor: 1000 },
    { symbol: 'lbf', key: 'lbf', factor: LBF },
    { symbol: 'kgf', key: 'kgf', factor: GN },
  ],
  mass: [plain('kg', 'kg'), { symbol: 'g', key: 'g', factor: 0.001 }, { symbol: 'lb', key: 'lb', factor: POUND }],
  rate: [
    plain('N/mm', 'n_per_mm'),
    { symbol: 'kN/m', key: 'kn_per_m', factor: 1 },
    { symbol: 'N/m', key: 'n_per_m', factor: 0.001 },
    { symbol: 'lbf/in', key: 'lbf_per_in', factor: LBF / INCH },
    { symbol: 'kgf/mm', key: 'kgf_per_mm', factor: GN },
  ],
  stress: [
    plain('MPa', 'mpa'),
    { symbol: 'GPa', key: 'gpa', factor: 1000 },
    { symbol: 'bar', key: 'bar', factor: 0.1 },
    { symbol: 'psi', key: 'psi', factor: PSI_IN_MPA },
    { symbol: 'kPa', key: 'kpa', factor: 0.001 },
  ],
  frequency: [plain('Hz', 'hz'), { symbol: '1/min', key: 'per_min', factor: 1 / 60 }],
  temperature: [plain('degC', 'deg_c'), { symbol: 'degF', key: 'deg_f', factor: 5 / 9, offset: -160 / 9 }],
  velocity: [
    plain('m/s', 'm_per_s'),
    { symbol: 'mm/s', key: 'mm_per_s', factor: 0.001 },
    { symbol: 'in/s', key: 'in_per_s', factor: INCH / 1000 },
  ],
  damping: [plain('N s/m', 'n_s_per_m'), { symbol: 'lbf s/in', key: 'lbf_s_per_in', factor: (LBF / INCH) * 1000 }],
  speed: [plain('km/h', 'km_per_h'), { symbol: 'mph', key: 'mph', factor: 1.609344 }],
  angularRate: [
    plain('N m/deg', 'n_m_per_deg'),
    { symbol: 'lbf ft/deg', key: 'lbf_ft_per_deg', factor: (LBF * 12 * INCH) / 1000 },
  ],
  angle: [plain('deg', 'deg')],
  ratioSlope: [plain('1/m', 'per_m'), { symbol: '1/in', key: 'per_in', factor: 1000 / INCH }],
  ratio: [plain('', '')],
  share: [plain('%', 'pct')],
  count: [plain('', '')],
  money: [plain('', '')],
} as const satisfies Record<string, readonly Unit[]>;

export type Dimension = keyof typeof UNITS;

/** How many. @asType integer @minimum 0 */
export type Count = number;
/** A whole number from 1. @asType integer @minimum 1 */
export type FromOne = number;
/** Of all or of the best, 0 to 1. @minimum 0 @maximum 1 */
export type Share = number;

/** The unit used beside the inner one where a person measures, e.g. inches beside mm. */
const IMPERIAL: Partial<Record<Dimension, string>> = {
  length: 'in',
  force: 'lbf',
  mass: 'lb',
  rate: 'lbf/in',
  stress: 'psi',
  velocity: 'in/s',
  damping: 'lbf s/in',
  speed: 'mph',
  angularRate: 'lbf ft/deg',
  ratioSlope: '1/in',
};

export function innerUnit(dimension: Dimension): Unit {
  return UNITS[dimension][0];
}

/** The imperial partner of a dimension's inner unit, or null where both worlds share the unit. */
export function imperialUnit(dimension: Dimension): Unit | null {
  const symbol = IMPERIAL[dimension];
  const units: readonly Unit[] = UNITS[dimension];
  return units.find((unit) => unit.symbol === symbol) ?? null;
}

/** Other spellings accepted when reading; apart, so that no page carries them that reads no units. */
export const ALSO: Partial<Record<Dimension, Readonly<Record<string, readonly string[]>>>> = {
  length: { in: ['inch', 'inches', '"', '″', '”', 'in.'] },
  area: { mm2: ['mm²'], cm2: ['cm²'], in2: ['in²'] },
  volume: { mm3: ['mm³'], cm3: ['cm³', 'cc', 'ml'], in3: ['in³'] },
  force: { lbf: ['lb', 'lbs'], kgf: ['kg'] },
  mass: { lb: ['lbs'] },
  rate: { 'lbf/in': ['lb/in', 'lbs/in', 'lb/inch', 'lbs/inch'], 'kgf/mm': ['kg/mm'] },
  frequency: { '1/min': ['cpm'] },
  temperature: { degC: ['°C'], degF: ['°F'] },
};

/** The unit a person wrote; spelling matters, case does not where no other unit differs by case alone. */
export function findUnit(dimension: Dimension, written: string): Unit | null {
  const units: readonly Unit[] = UNITS[dimension];
  const exact = units.find((u) => u.symbol === written || ALSO[dimension]?.[u.symbol]?.includes(written));
  if (exact) return exact;
  const lower = written.toLowerCase();
  return units.find((u) => u.symbol.toLowerCase() === lower) ?? null;
}

/** A CSV header's unit, e.g. `lbf_per_in`. */
export function findUnitByKey(dimension: Dimension, key: string): Unit | null {
  const units: readonly Unit[] = UNITS[dimension];
  return units.find((u) => u.key === key) ?? null;
}

export function toInner(value: number, unit: Unit): number {
  return value * unit.factor + (unit.offset ?? 0);
}

export function fromInner(value: number, unit: Unit): number {
  return (value - (unit.offset ?? 0)) / unit.factor;
}

/** Standard acceleration of free fall, m/s^2, exact (CGPM 1901; NIST SP 811 App. B.8). */
export const STANDARD_GRAVITY = 9.80665;

/** Standard atmosphere, MPa, exact (NIST SP 811 App. B.8: 101 325 Pa). */
export const STANDARD_ATMOSPHERE = 0.101325;

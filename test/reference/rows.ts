/**
 * The published values as a table: one row a value, with what goes in, what the source prints, how far off it may be,
 * and where it is printed. Units are turned with factors of this file, not with the program's own.
 */

import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';

export interface Row {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Inputs;
  /** As printed, in `unit`. */
  readonly expected: number;
  readonly unit: string;
  /** Half-width, in `unit`; shares of the printed value are already turned. */
  readonly tolerance: number;
  readonly convention: string;
  readonly source: string;
  readonly edition: string;
  readonly page: string;
  /** How closely the source's own data give its value, found when the value was taken down. */
  readonly reproduces: string;
}

const POUND_FORCE = 4.4482216152605;
const PSI = 0.006894757293168361;

/** To mm, N, kg, N/mm, MPa, s; NIST SP 811 (2008), App. B.8. */
const FACTORS: Readonly<Record<string, number>> = {
  '': 1,
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  N: 1,
  lbf: POUND_FORCE,
  kg: 1,
  'N/mm': 1,
  'kN/m': 1,
  'N/m': 0.001,
  'lbf/in': POUND_FORCE / 25.4,
  MPa: 1,
  GPa: 1000,
  bar: 0.1,
  psi: PSI,
  kpsi: 1000 * PSI,
  Mpsi: 1e6 * PSI,
  'lbf/in3': POUND_FORCE / 25.4 ** 3,
  'lb/in3': 0.45359237 / 25.4 ** 3,
  'm/s2': 1,
  'in/s2': 0.0254,
  Hz: 1,
  '1/min': 1,
  'rad/s': 1,
  s: 1,
  'N s/m': 1,
  '1/m': 0.001,
};

export function factorOf(unit: string): number {
  const factor = FACTORS[unit];
  if (factor === undefined) throw new Error(`no factor for the unit ${unit}`);
  return factor;
}

/** What goes in: numbers in inner units, or words. */
export class Inputs {
  readonly #values: ReadonlyMap<string, string>;
  readonly #used = new Set<string>();

  constructor(written: string) {
    const pairs = written === '' ? [] : written.split(';').map((pair) => pair.split('=') as [string, string]);
    this.#values = new Map(pairs);
  }

  text(key: string): string {
    const value = this.#values.get(key);
    if (value === undefined) throw new Error(`no input ${key}`);
    this.#used.add(key);
    return value;
  }

  number(key: string): number {
    const [value = '', ...unit] = this.text(key).split(' ');
    return Number(value) * factorOf(unit.join(' '));
  }

  /** Inputs nobody asked for: a row that means more than its quantity computes. */
  unused(): string[] {
    return [...this.#values.keys()].filter((key) => !this.#used.has(key));
  }
}

export function readRows(path: string): Row[] {
  const records: Record<string, string>[] = parse(readFileSync(path, 'utf8'), { columns: true });
  return records.map((record) => {
    const field = (name: string) => record[name] ?? '';
    const expected = Number(field('expected'));
    return {
      id: field('id'),
      quantity: field('quantity'),
      inputs: new Inputs(field('inputs')),
      expected,
      unit: field('unit'),
      tolerance: halfWidth(field('tolerance'), expected),
      convention: field('convention'),
      source: field('source'),
      edition: field('edition'),
      page: field('page'),
      reproduces: field('reproduces'),
    };
  });
}

function halfWidth(written: string, expected: number): number {
  return written.endsWith('%') ? (Number(written.slice(0, -1)) / 100) * Math.abs(expected) : Number(written);
}

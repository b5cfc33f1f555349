/**
 * The product of an axle's options. The index of a combination is a mixed-radix number: one digit per part family,
 * families in the order of `FAMILIES`, the first one slowest, the last one (spring) fastest. Option lists keep the
 * order of the scenario file.
 */
import { type AxleOptions, FAMILIES, type Family } from '../scenario.ts';
import type { Corner } from './site.ts';

/** Which option of each family a combination takes, from 0. */
export type Digits = Readonly<Record<Family, number>>;

/** Damper, mount, isolator, bump stop and rod end: the slowest digits. */
export const ASSEMBLY_FAMILIES: readonly Family[] = FAMILIES.slice(0, FAMILIES.indexOf('sleeve'));
/** Helper and spring: the fastest digits. */
export const STACK_FAMILIES: readonly Family[] = FAMILIES.slice(FAMILIES.indexOf('helper'));

/** Number of combinations of some families of one axle; exact up to 2^53. */
export function combinationCount(options: AxleOptions, families: readonly Family[] = FAMILIES): number {
  return families.reduce((product, family) => product * options[family].length, 1);
}

export function digitsOf(options: AxleOptions, index: number): Digits {
  let rest = index;
  const digits = FAMILIES.toReversed().map((family) => {
    const size = options[family].length;
    const digit = rest % size;
    rest = Math.floor(rest / size);
    return [family, digit] as const;
  });
  return Object.fromEntries(digits) as Digits;
}

/** The inverse of `digitsOf`. */
export function indexOf(options: AxleOptions, digits: Digits): number {
  return FAMILIES.reduce((index, family) => index * options[family].length + digits[family], 0);
}

/**
 * The combination at an index.
 * @param index 0 to `combinationCount(options) - 1`
 * @throws RangeError outside of that
 */
export function cornerAt(options: AxleOptions, index: number): Corner {
  if (!Number.isInteger(index) || index < 0 || index >= combinationCount(options)) {
    throw new RangeError(`no combination ${index}: there are ${combinationCount(options)}`);
  }
  const digits = digitsOf(options, index);
  return Object.fromEntries(FAMILIES.map((family) => [family, options[family][digits[family]]])) as unknown as Corner;
}

/** The stack of a combination, helpers slower than springs. @param stacks how many the axle has */
export function stackOf(index: number, stacks: number): number {
  return index % stacks;
}

/** The product of some of an axle's families, the others left as they are. */
export interface SubProduct {
  readonly count: number;
  /** The number made of these families' digits. */
  numberOf(index: number): number;
  /** What these digits add to an index. */
  partOf(index: number): number;
  /** Every combination that differs from one in these families alone, itself among them. */
  variantsOf(index: number): number[];
}

export function subProduct(options: AxleOptions, families: readonly Family[]): SubProduct {
  const places = FAMILIES.map((family, k) => ({
    family,
    size: options[family].length,
    /** How much one step of this digit changes the index. */
    step: combinationCount(options, FAMILIES.slice(k + 1)),
  })).filter(({ family, size }) => families.includes(family) && size > 1);
  const digit = (index: number, { step, size }: (typeof places)[number]) => Math.floor(index / step) % size;
  const partOf = (index: number) => places.reduce((sum, place) => sum + digit(index, place) * place.step, 0);
  return {
    count: combinationCount(options, families),
    numberOf: (index) => places.reduce((number, place) => number * place.size + digit(index, place), 0),
    partOf,
    variantsOf: (index) =>
      places.reduce(
        (found, { size, step }) => found.flatMap((start) => Array.from({ length: size }, (_, k) => start + k * step)),
        [index - partOf(index)],
      ),
  };
}

/**
 * The product of options and its order. A combination is a mixed-radix number: one digit per part family, families
 * in the order of `FAMILIES`, the first one slowest, the last one (spring) fastest. Option lists keep the order of
 * the scenario file.
 */
import type { Corner } from '../domain/corner/site.ts';
import { type AxleOptions, FAMILIES, type Family } from '../domain/scenario.ts';

/** Number of options per family. */
export function optionCounts(options: AxleOptions): Record<Family, number> {
  return Object.fromEntries(FAMILIES.map((family) => [family, options[family].length])) as Record<Family, number>;
}

/** Number of combinations of one axle; exact up to 2^53. */
export function combinationCount(options: AxleOptions): number {
  return FAMILIES.reduce((product, family) => product * options[family].length, 1);
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
  const chosen: Record<string, unknown> = {};
  let rest = index;
  for (const family of FAMILIES.toReversed()) {
    const size = options[family].length;
    chosen[family] = options[family][rest % size];
    rest = Math.floor(rest / size);
  }
  return chosen as unknown as Corner;
}

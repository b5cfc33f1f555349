/** Which parts a plan shares: the key of a combination is the number made of its shared families' digits. */
import { type AxleOptions, FAMILIES, type Family } from '../../domain/scenario.ts';

export interface KeyReader {
  /** Key of the combination at an index. */
  readonly keyOf: (index: number) => number;
  /** What is left of an index with its shared digits set to 0. */
  readonly freePartOf: (index: number) => number;
  /** Every combination with the key of the one at an index, itself among them, rising. */
  readonly siblingsOf: (index: number) => number[];
  /** How many that are. */
  readonly siblings: number;
}

export function keyReader(options: AxleOptions, swapped: readonly Family[]): KeyReader {
  const places = FAMILIES.map((family, k) => ({
    size: options[family].length,
    /** How much one step of this digit changes the index. */
    step: FAMILIES.slice(k + 1).reduce((product, inner) => product * options[inner].length, 1),
    isSwapped: swapped.includes(family),
  }));
  const digit = (index: number, { step, size }: (typeof places)[number]) => Math.floor(index / step) % size;
  const shared = places.filter((p) => !p.isSwapped);
  const free = places.filter((p) => p.isSwapped);
  const freePartOf = (index: number) => free.reduce((sum, place) => sum + digit(index, place) * place.step, 0);
  return {
    keyOf: (index) => shared.reduce((key, place) => key * place.size + digit(index, place), 0),
    freePartOf,
    siblingsOf: (index) => {
      const base = index - freePartOf(index);
      return free.reduce(
        (found, { size, step }) => found.flatMap((start) => Array.from({ length: size }, (_, k) => start + k * step)),
        [base],
      );
    },
    siblings: free.reduce((product, { size }) => product * size, 1),
  };
}

/** Random draws for properties that hold whatever the numbers are. */
import fc from 'fast-check';

type Arbitraries<T extends unknown[]> = [...{ [K in keyof T]: fc.Arbitrary<T[K]> }];
type Check<T extends unknown[]> = (...drawn: T) => void;
type Runs<T> = number | fc.Parameters<T>;

export const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A list with one entry at least. */
export const few = <T>(one: fc.Arbitrary<T>, most: number) => fc.array(one, { minLength: 1, maxLength: most });

/** Checks draws of the arbitraries: as many as usual, or as `runs` says. */
export function forAny<T extends unknown[]>(arbitraries: Arbitraries<T>, check: Check<T>): void;
export function forAny<T extends unknown[]>(arbitraries: Arbitraries<T>, runs: Runs<T>, check: Check<T>): void;
export function forAny<T extends unknown[]>(arbitraries: Arbitraries<T>, ...rest: [Check<T>] | [Runs<T>, Check<T>]) {
  const [runs, check] = rest.length === 2 ? rest : [{}, rest[0]];
  const property = fc.property as unknown as (...all: unknown[]) => fc.IProperty<T>;
  fc.assert(property(...arbitraries, check), typeof runs === 'number' ? { numRuns: runs } : runs);
}

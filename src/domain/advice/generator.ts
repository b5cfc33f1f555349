/**
 * The minimal standard generator: x' = 16807 x mod (2^31 - 1).
 * Source: Park & Miller (1988), "Random number generators: good ones are hard to find", Communications of the ACM
 * 31(10), pp. 1192-1201. Its test: from x = 1 the 10,000th value after it is 1043618065.
 * Valid: seeds from 1 to 2^31 - 2. Every product stays below 2^46, so doubles carry it exactly.
 */
export const GENERATOR = 'Park & Miller 1988, minimal standard';
const MULTIPLIER = 16807;
const MODULUS = 2 ** 31 - 1;

export function nextState(state: number): number {
  return (MULTIPLIER * state) % MODULUS;
}

/** Numbers spread evenly over -1 to 1, the same for the same seed. */
export function symmetricDraws(seed: number): () => number {
  let state = seed;
  return () => {
    state = nextState(state);
    return (2 * state) / MODULUS - 1;
  };
}

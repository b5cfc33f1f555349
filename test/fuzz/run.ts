/** A run of the fuzzer: batches of mutants, each with its own seed, on a thread that is watched. */
import fc from 'fast-check';
import { SEEDS } from './corpus.ts';
import { judge, type Verdict } from './judge.ts';
import { inputOf, type Mutant, mutants } from './mutants.ts';
import { pick } from './mutateTree.ts';

export interface Batch {
  readonly seed: number;
  readonly runs: number;
  /** One in so many of the clean mutants with few options is swept and drawn. */
  readonly sweepEach: number;
}

export type Counts = Record<Verdict, number>;

export interface BatchOutcome {
  readonly counts: Counts;
  readonly slowest: number;
  /** What failed, shrunk, with all that is needed to see it again; null when nothing did. */
  readonly failure: string | null;
}

/** @param onStart told before each mutant which one it is, so that a hang can be named */
export async function runBatch(
  { seed, runs, sweepEach }: Batch,
  onStart: (number: number) => void,
): Promise<BatchOutcome> {
  const counts: Counts = { refused: 0, clean: 0, swept: 0 };
  let number = 0;
  let slowest = 0;
  const one = async (mutant: Mutant) => {
    onStart(++number);
    const start = performance.now();
    // Not every "0th": small seeds come up far more often than their share.
    const isSwept = pick(SEEDS, mutant.seed).small && (mutant.seed >> 5) % sweepEach === sweepEach - 1;
    const verdict = await judge(inputOf(mutant), isSwept);
    slowest = Math.max(slowest, performance.now() - start);
    counts[verdict]++;
  };
  const details = await fc.check(fc.asyncProperty(mutants, one), { seed, numRuns: runs, endOnFailure: false });
  if (!details.failed) return { counts, slowest, failure: null };
  const [mutant] = details.counterexample ?? [];
  const error = details.errorInstance instanceof Error ? details.errorInstance.stack : String(details.errorInstance);
  return {
    counts,
    slowest,
    failure: `seed ${seed}, path ${details.counterexamplePath}\n${JSON.stringify(mutant)}\n${error}`,
  };
}

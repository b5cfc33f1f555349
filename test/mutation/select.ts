/** Which tests a mutant is tried with: those that run its code, the nearest and quickest first, as the budget allows. */
import type { Selection } from './judge.ts';
import type { Ran } from './warm.ts';

/** A test file run by itself, without any mutant. */
export interface FileRun {
  readonly file: string;
  /** Whole time; what the tests do not use goes into loading. */
  readonly seconds: number;
  readonly tests: readonly Ran[];
  /** False where the file had to run without marks: then each of its tests may run any mutant. */
  readonly marked: boolean;
}

/** Starting a run costs about this much, whatever it runs; it is no part of loading a file. */
const START = 0.15;

interface Candidate {
  readonly run: FileRun;
  /** Steps of imports to the mutated file: 0 for its mirror test. */
  readonly steps: number;
  readonly loading: number;
  readonly reaching: readonly Ran[];
}

/** A test file that gets at the mutated file in another way than by imports comes last. */
const FAR = 9;

/**
 * @param mark number of the mutant's mark; null where it could not be marked
 * @param distance steps of imports from a test file to the mutated one; undefined where it cannot see it
 */
export function selectionFor(
  runs: readonly FileRun[],
  mark: number | null,
  distance: (file: string) => number | undefined,
  budget: number,
): Selection {
  const candidates = runs
    .flatMap((run) => candidate(run, mark, distance(run.file)) ?? [])
    .sort((a, b) => keyOf(a) - keyOf(b) || (a.run.file < b.run.file ? -1 : 1));
  let left = budget;
  const chosen = candidates.flatMap((one) => {
    // What mirrors the file is its judge: each such file has a budget of its own.
    const part = affordable(one, one.steps === 0 ? one.loading + budget : left);
    if (one.steps > 0) left -= part?.cost ?? 0;
    return part ?? [];
  });
  return {
    tests: chosen.map(({ file, ids }) => ({ file, ids })),
    seconds: chosen.reduce((sum, { cost }) => sum + cost, 0),
    reaching: candidates.reduce((sum, { reaching }) => sum + reaching.length, 0),
    allowed: chosen.reduce((sum, { ids }) => sum + ids.length, 0),
  };
}

function candidate(run: FileRun, mark: number | null, steps: number | undefined): Candidate | null {
  const known = run.marked && mark !== null;
  if (!known && steps === undefined) return null;
  const reaching = known ? run.tests.filter(({ reached }) => reached.includes(mark)) : run.tests;
  const inTests = run.tests.reduce((sum, { seconds }) => sum + seconds, 0);
  const loading = Math.max(0, run.seconds - inTests - START);
  return reaching.length === 0 ? null : { run, steps: steps ?? FAR, loading, reaching };
}

/** Near and quick ones first. */
function keyOf({ steps, loading, reaching }: Candidate): number {
  const seconds = reaching.reduce((sum, test) => sum + test.seconds, loading);
  return steps + 2 * Math.log2(1 + seconds);
}

/** The tests of a file that `left` seconds allow, quick ones first, and what they cost; null for none. */
function affordable({ run, loading, reaching }: Candidate, left: number) {
  let cost = loading;
  const ids: string[] = [];
  for (const { id, seconds } of reaching.toSorted((a, b) => a.seconds - b.seconds)) {
    if (cost + seconds > left) break;
    cost += seconds;
    ids.push(id);
  }
  return ids.length > 0 ? { file: run.file, ids, cost } : null;
}

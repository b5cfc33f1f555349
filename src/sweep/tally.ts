/**
 * What a sweep counts and keeps, whatever the number of combinations: falls per check and spring, how often each
 * frequency works, and the best candidate of each class.
 *
 * A class holds the candidates that are bought and paired alike: same spring stack, same frequency and, where price
 * is ranked, same price. Of one class only the best can stand for its purchase. Everything merges, in any order.
 */
import { CHECKS } from '../model/corner/checks.ts';
import type { Candidate } from '../model/corner/score.ts';

/** Verdict codes: the place of the failed check in `CHECKS`, or `PASS`. */
export const PASS = CHECKS.length;
export const VERDICTS = PASS + 1;

export interface CandidateClass {
  readonly frequency: number;
  readonly price: number | null;
  /** The least log score that is kept. */
  readonly floor: number;
  /** Highest score, equal scores to the lower index; null before the first. */
  best: Candidate | null;
}

export interface Tally {
  /** Combinations per spring and verdict: `cells[spring * VERDICTS + verdict]`. */
  readonly cells: Float64Array;
  /** Workable combinations per frequency. */
  readonly frequencies: Map<number, number>;
  /** Per stack its classes: few, so that they are found by looking along. */
  readonly classes: readonly CandidateClass[][];
}

/** What is sought: lower scores need not be found. */
export interface Floor {
  /** The least log score. */
  readonly anywhere: number;
  /** The same of what has a frequency. */
  readonly at: (frequency: number) => number;
}

export const NO_FLOOR: Floor = { anywhere: Number.NEGATIVE_INFINITY, at: () => Number.NEGATIVE_INFINITY };

export function emptyTally(springs: number, stacks: number): Tally {
  return {
    cells: new Float64Array(springs * VERDICTS),
    frequencies: new Map(),
    classes: Array.from({ length: stacks }, () => []),
  };
}

/** Adds combinations of one spring with one verdict. */
export function count(tally: Tally, spring: number, verdict: number, times: number): void {
  const cell = spring * VERDICTS + verdict;
  tally.cells[cell] = (tally.cells[cell] as number) + times;
}

/** The class of a stack, frequency and price, made when it is new. */
export function classOf(
  tally: Tally,
  stack: number,
  frequency: number,
  price: number | null,
  floor = NO_FLOOR.anywhere,
): CandidateClass {
  const ofStack = tally.classes[stack] as CandidateClass[];
  for (const known of ofStack) if (known.frequency === frequency && known.price === price) return known;
  const made: CandidateClass = { frequency, price, floor, best: null };
  ofStack.push(made);
  return made;
}

/** Whether a candidate of at most this score and this index could still be the best of its class. */
export function couldEnter({ best, floor }: CandidateClass, logScore: number, index: number): boolean {
  if (best === null) return logScore >= floor;
  return logScore > best.logScore || (logScore === best.logScore && index < best.index);
}

export function enter(entered: CandidateClass, candidate: Candidate): void {
  if (couldEnter(entered, candidate.logScore, candidate.index)) entered.best = candidate;
}

export function countFrequency(tally: Tally, frequency: number, count: number): void {
  tally.frequencies.set(frequency, (tally.frequencies.get(frequency) ?? 0) + count);
}

/** Adds another tally of the same axle and setup. */
export function mergeInto(tally: Tally, other: Tally): void {
  for (let k = 0; k < tally.cells.length; k++) tally.cells[k] = (tally.cells[k] as number) + (other.cells[k] as number);
  for (const [frequency, count] of other.frequencies) countFrequency(tally, frequency, count);
  for (const [stack, classes] of other.classes.entries()) {
    for (const { frequency, price, best } of classes) {
      if (best !== null) enter(classOf(tally, stack, frequency, price), best);
    }
  }
}

/** Tallies of the same axle and setup, at least one, joined; they themselves stay as they are. */
export function mergeTallies(tallies: readonly Tally[]): Tally {
  const [{ cells, classes }] = tallies as readonly [Tally];
  const whole = emptyTally(cells.length / VERDICTS, classes.length);
  for (const tally of tallies) mergeInto(whole, tally);
  return whole;
}

/** The best of every class, in index order. */
export function candidatesOf(tally: Tally): Candidate[] {
  const all = tally.classes.flatMap((classes) => classes.flatMap(({ best }) => best ?? []));
  return all.sort((a, b) => a.index - b.index);
}

/** The best log score of the classes of some stacks; -Infinity where nothing works. */
export function bestLogScore(stacks: readonly (readonly CandidateClass[])[]): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const classes of stacks) for (const { best } of classes) most = Math.max(most, best?.logScore ?? most);
  return most;
}

/** Combinations per verdict over all springs. */
export function totals(tally: Tally): number[] {
  const sums = new Array<number>(VERDICTS).fill(0);
  for (let k = 0; k < tally.cells.length; k++) {
    sums[k % VERDICTS] = (sums[k % VERDICTS] as number) + (tally.cells[k] as number);
  }
  return sums;
}

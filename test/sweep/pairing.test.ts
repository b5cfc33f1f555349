import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Candidate, isBalanced, pairLogScore } from '../../src/domain/ranking/criteria.ts';
import type { Ranking, Setup } from '../../src/domain/scenario.ts';
import { comparePairs, countBalanced, pairUp, type ScoredPair } from '../../src/sweep/pairing.ts';

const STACKS = 5;
const setup = { name: 'low', balance: { target: 1.1, from: 1, to: 1.2 } } as Setup;
/** Limits at the wanted window, around it, and on one side only. */
const SETUPS = [undefined, { from: 0.8, to: 1.4 }, { from: 1, to: 1.4 }].map((limits) => {
  return { ...setup, balance: { ...setup.balance, ...(limits ? { limits } : {}) } } as Setup;
});
const rankingOf = (keep: number, price: boolean): Ranking => ({
  weights: { bump_travel: 3, height_coverage: 2, balance: 2, front_frequency: 1, price: price ? 1 : 0, clearance: 0 },
  price: price ? { good: 400, worst: 900 } : null,
  goodClearance: null,
  keep,
});

// Few distinct values, so that ties, zero desirabilities and prices beyond the worst all happen often.
const candidates = fc
  .array(
    fc.record({
      frequency: fc.constantFrom(1.5, 1.6, 1.7, 1.75, 1.8, 1.9, 2.1),
      price: fc.constantFrom(100, 150, 260, 300),
      logScore: fc.constantFrom(Number.NEGATIVE_INFINITY, -3, -1.5, -0.25, -0.125, 0),
    }),
    { maxLength: 14 },
  )
  .map((list): Candidate[] => list.map((c, index) => ({ index, ...c })));

/** A side whose candidates stand for a few stacks, several each. */
function sideOf(candidates: Candidate[]) {
  const frequencies = new Map<number, number>();
  for (const { frequency } of candidates) frequencies.set(frequency, (frequencies.get(frequency) ?? 0) + 1);
  return { candidates, frequencies, stacks: STACKS };
}

function bruteForce(fronts: Candidate[], rears: Candidate[], ranking: Ranking, setup: Setup): ScoredPair[] {
  const all = fronts.flatMap((front) =>
    rears
      .filter((rear) => isBalanced(front, rear, setup))
      .map((rear) => ({ front, rear, logScore: pairLogScore(front, rear, setup, ranking) })),
  );
  const purchase = (p: ScoredPair) => (p.front.index % STACKS) * STACKS + (p.rear.index % STACKS);
  const sorted = all.sort(comparePairs);
  return sorted.filter((p, k) => sorted.findIndex((q) => purchase(q) === purchase(p)) === k).slice(0, ranking.keep);
}

test('the best purchases are those of all pairs formed and sorted, ties to the lower index', () => {
  let ties = 0;
  fc.assert(
    fc.property(
      candidates,
      candidates,
      fc.integer({ min: 1, max: 9 }),
      fc.boolean(),
      fc.constantFrom(...SETUPS),
      (...p) => {
        const [fronts, rears, keep, price, setup] = p;
        const ranking = rankingOf(keep, price);
        const expected = bruteForce(fronts, rears, ranking, setup);
        if (expected.some((p, k) => p.logScore === expected[k + 1]?.logScore)) ties++;
        const { best, tally } = pairUp(sideOf(fronts), sideOf(rears), setup, ranking);
        expect(best).toEqual(expected);
        expect(tally.considered).toBe(fronts.length * rears.length);
        expect(tally.workable + tally.rejected_by_balance).toBe(tally.considered);
      },
    ),
    { numRuns: 2000 },
  );
  expect(ties).toBeGreaterThan(100);
});

test('balanced pairs are counted as if each were looked at', () => {
  fc.assert(
    fc.property(candidates, candidates, (fronts, rears) => {
      const looked = fronts.flatMap((f) => rears.filter((r) => isBalanced(f, r, setup))).length;
      expect(countBalanced(sideOf(fronts).frequencies, sideOf(rears).frequencies, setup)).toBe(looked);
    }),
  );
});

test('a side without candidates gives no pair', () => {
  expect(pairUp(sideOf([]), sideOf([]), setup, rankingOf(5, false))).toEqual({
    best: [],
    tally: { considered: 0, workable: 0, rejected_by_balance: 0 },
  });
});

test('hundreds of candidates a side, in many bands, still give the best purchases', () => {
  const random = (k: number) => Math.abs(Math.sin(k * 12.9898) * 43758.5453) % 1;
  const many = (seed: number) =>
    Array.from({ length: 700 }, (_, index): Candidate => {
      const frequency = 1.4 + random(seed + index);
      return { index, frequency, price: 100, logScore: -Math.round(8 * random(seed + 1000 + index)) / 4 };
    });
  const [fronts, rears] = [many(1), many(7)];
  const ranking = rankingOf(8, false);
  expect(pairUp(sideOf(fronts), sideOf(rears), setup, ranking).best).toEqual(bruteForce(fronts, rears, ranking, setup));
});

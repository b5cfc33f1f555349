import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Candidate } from '../../../src/domain/ranking/criteria.ts';
import type { Ranking, Setup } from '../../../src/domain/scenario.ts';
import { type AxleClass, type AxlePlan, enterClass } from '../../../src/sweep/plans/axlePlan.ts';
import { comparePlans, type JoinedPlan, joinAxles, planOf } from '../../../src/sweep/plans/join.ts';
import { planSetupOf, worthOf } from '../../../src/sweep/plans/worth.ts';

const STACKS = 3;
const rankingOf = (price: boolean): Ranking => ({
  weights: { bump_travel: 3, height_coverage: 2, balance: 2, front_frequency: 1, price: price ? 1 : 0, clearance: 0 },
  price: price ? { good: 400, worst: 900 } : null,
  goodClearance: null,
  keep: 1,
});
const setupsOf = (ranking: Ranking) => {
  const setup = (wantedFrequency: number | null, to: number) => {
    const front = { wantedFrequency };
    return { axles: { front, rear: front }, balance: { target: 1.1, from: 1, to } } as unknown as Setup;
  };
  // Different total weights: one of the setups has no wanted frequency.
  return [planSetupOf(setup(1.8, 1.2), ranking), planSetupOf(setup(null, 1.25), ranking)];
};

// Few distinct values, so that ties, zero desirabilities and prices beyond the worst all happen often.
const corner = fc.record({
  frequency: fc.constantFrom(1.5, 1.6, 1.7, 1.75, 1.8, 1.9, 2.1),
  logScore: fc.constantFrom(Number.NEGATIVE_INFINITY, -3, -1.5, -0.25, -0.125, 0),
});
const axlePlans = (setups: ReturnType<typeof setupsOf>) =>
  fc
    .array(fc.record({ corners: fc.tuple(corner, corner), price: fc.constantFrom(100, 150, 260, 300) }), {
      maxLength: 12,
    })
    .map((list) =>
      list.map(({ corners, price }, index): AxlePlan => {
        const judged = corners.map((c): Candidate => ({ index, price, ...c }));
        return {
          corners: judged,
          worth: judged.reduce((sum, c, s) => sum + worthOf(c.logScore, setups[s] ?? never()), 0),
        };
      }),
    );
const never = (): never => {
  throw new Error('two setups');
};

function classesOf(plans: readonly AxlePlan[], isPriced: boolean): AxleClass[] {
  const classes = new Map<string, AxleClass>();
  for (const plan of plans) enterClass(classes, STACKS, plan, isPriced);
  return [...classes.values()];
}

function bruteForce(
  fronts: readonly AxlePlan[],
  rears: readonly AxlePlan[],
  setups: ReturnType<typeof setupsOf>,
  keep: number,
): JoinedPlan[] {
  const purchase = ({ corners }: AxlePlan) => ({ purchase: corners.map((c) => c.index % STACKS).join(' ') });
  const all = fronts.flatMap((f) => rears.flatMap((r) => planOf(purchase(f), purchase(r), f, r, setups) ?? []));
  const sorted = all.sort(comparePlans);
  return sorted.filter((p, k) => sorted.findIndex((q) => q.purchase === p.purchase) === k).slice(0, keep);
}

const brief = ({ front, rear, worth }: JoinedPlan) => [front.corners[0]?.index, rear.corners[0]?.index, worth];

test('the best plans are those of all axle plans paired and sorted; ties and zeros go to the lower indices', () => {
  const seen = { ties: 0, zeros: 0 };
  fc.assert(
    fc.property(
      fc.boolean().chain((price) => {
        const setups = setupsOf(rankingOf(price));
        return fc.record({ price: fc.constant(price), fronts: axlePlans(setups), rears: axlePlans(setups) });
      }),
      fc.integer({ min: 1, max: 9 }),
      ({ price, fronts, rears }, keep) => {
        const setups = setupsOf(rankingOf(price));
        const found = joinAxles(classesOf(fronts, price), classesOf(rears, price), setups, keep);
        const expected = bruteForce(fronts, rears, setups, keep);
        expect(found.map(brief)).toEqual(expected.map(brief));
        if (expected.some((p, k) => p.worth === expected[k + 1]?.worth)) seen.ties++;
        if (expected.some((p) => p.worth === Number.NEGATIVE_INFINITY)) seen.zeros++;
      },
    ),
    { numRuns: 3000 },
  );
  expect(Math.min(seen.ties, seen.zeros)).toBeGreaterThan(100);
});

test('hundreds of classes a side, in many boxes, still give the best plans', () => {
  const setups = setupsOf(rankingOf(false));
  const random = (k: number) => Math.abs(Math.sin(k * 12.9898) * 43758.5453) % 1;
  const many = (seed: number) =>
    Array.from({ length: 600 }, (_, index): AxlePlan => {
      const corners = [0, 1].map((s): Candidate => {
        const frequency = 1.4 + random(seed + 2 * index + s);
        return { index, price: 100, frequency, logScore: -Math.round(8 * random(seed + 3000 + index)) / 4 };
      });
      return { corners, worth: corners.reduce((sum, c, s) => sum + worthOf(c.logScore, setups[s] ?? never()), 0) };
    });
  const [fronts, rears] = [many(1), many(7)];
  const found = joinAxles(classesOf(fronts, false), classesOf(rears, false), setups, 8);
  expect(found.map(brief)).toEqual(bruteForce(fronts, rears, setups, 8).map(brief));
});

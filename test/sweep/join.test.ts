import fc from 'fast-check';
import { expect, test } from 'vitest';
import { stackOf } from '../../src/model/corner/options.ts';
import { type Candidate, isBalanced, logSum, pairCriteria } from '../../src/model/corner/score.ts';
import type { Ranking, Setup } from '../../src/model/scenario.ts';
import {
  type AxleClass,
  type AxlePlan,
  axlePlanOf,
  compareAxlePlans,
  compareIndices,
  type PlanSetup,
  planSetupOf,
} from '../../src/sweep/axlePlan.ts';
import {
  comparePlans,
  countBalanced,
  type JoinedPlan,
  joinAxles,
  PlanList,
  pairUp,
  planOf,
  type ScoredPair,
} from '../../src/sweep/join.ts';
import { EVERY_WEIGHT, NO_WEIGHT } from '../setup/corners.ts';
import { forAny } from '../setup/random.ts';

const STACKS = 5;
const setup = { name: 'low', balance: { target: 1.1, from: 1, to: 1.2 } } as Setup;
/** Limits at the wanted window, around it, and on one side only. */
const SETUPS = [undefined, { from: 0.8, to: 1.4 }, { from: 1, to: 1.4 }].map((limits) => {
  return { ...setup, balance: { ...setup.balance, ...(limits ? { limits } : {}) } } as Setup;
});
const rankingOf = (keep: number, price: boolean): Ranking => ({
  weights: { ...EVERY_WEIGHT, bump_travel: 3, height_coverage: 2, balance: 2, price: price ? 1 : 0, clearance: 0 },
  price: price ? { good: 400, worst: 900 } : null,
  goodClearance: null,
  keep,
});

// Few distinct values, so that ties, zero desirabilities and prices beyond the worst all happen often.
const price = fc.constantFrom(100, 150, 260, 300);
const corner = fc.record({
  frequency: fc.constantFrom(1.5, 1.6, 1.7, 1.75, 1.8, 1.9, 2.1),
  logScore: fc.constantFrom(Number.NEGATIVE_INFINITY, -3, -1.5, -0.25, -0.125, 0),
});
const random = (k: number) => Math.abs(Math.sin(k * 12.9898) * 43758.5453) % 1;
const candidates = fc
  .array(
    fc.tuple(corner, price).map(([c, price]) => ({ ...c, price })),
    { maxLength: 14 },
  )
  .map((list): Candidate[] => list.map((c, index) => ({ index, ...c })));

/** A side whose candidates stand for a few stacks, several each. */
function sideOf(candidates: Candidate[]) {
  const frequencies = new Map<number, number>();
  for (const { frequency } of candidates) frequencies.set(frequency, (frequencies.get(frequency) ?? 0) + 1);
  return { candidates, frequencies, stacks: STACKS };
}

/** By score, then by what the corners score, then the lower front index, then the lower rear index. */
function comparePairs(a: ScoredPair, b: ScoredPair): number {
  if (a.logScore !== b.logScore) return a.logScore > b.logScore ? -1 : 1;
  const [ofA, ofB] = [a.front.logScore + a.rear.logScore, b.front.logScore + b.rear.logScore];
  if (ofA !== ofB) return ofA > ofB ? -1 : 1;
  return a.front.index - b.front.index || a.rear.index - b.rear.index;
}

function bruteForce(fronts: Candidate[], rears: Candidate[], ranking: Ranking, setup: Setup): ScoredPair[] {
  const all = fronts.flatMap((front) =>
    rears
      .filter((rear) => isBalanced(front, rear, setup))
      .map((rear) => {
        const ofPair = logSum(pairCriteria(front, rear, setup, ranking));
        return { front, rear, logScore: front.logScore + rear.logScore + ofPair };
      }),
  );
  const purchase = (p: ScoredPair) => (p.front.index % STACKS) * STACKS + (p.rear.index % STACKS);
  const sorted = all.sort(comparePairs);
  return sorted.filter((p, k) => sorted.findIndex((q) => purchase(q) === purchase(p)) === k).slice(0, ranking.keep);
}

test('the best purchases are those of all pairs formed and sorted, ties to the lower index', () => {
  let ties = 0;
  forAny(
    [candidates, candidates, fc.integer({ min: 1, max: 9 }), fc.boolean(), fc.constantFrom(...SETUPS)],
    2000,
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
  );
  expect(ties).toBeGreaterThan(100);
});

test('balanced pairs are counted as if each were looked at', () => {
  forAny([candidates, candidates], (fronts, rears) => {
    const looked = fronts.flatMap((f) => rears.filter((r) => isBalanced(f, r, setup))).length;
    expect(countBalanced(sideOf(fronts).frequencies, sideOf(rears).frequencies, setup)).toBe(looked);
  });
});

test('a side without candidates gives no pair', () => {
  expect(pairUp(sideOf([]), sideOf([]), setup, rankingOf(5, false))).toEqual({
    best: [],
    tally: { considered: 0, workable: 0, rejected_by_balance: 0 },
  });
});

test('hundreds of candidates a side, in many bands, still give the best purchases', () => {
  const many = (seed: number) =>
    Array.from({ length: 700 }, (_, index): Candidate => {
      const frequency = 1.4 + random(seed + index);
      return { index, frequency, price: 100, logScore: -Math.round(8 * random(seed + 1000 + index)) / 4 };
    });
  const [fronts, rears] = [many(1), many(7)];
  const ranking = rankingOf(8, false);
  expect(pairUp(sideOf(fronts), sideOf(rears), setup, ranking).best).toEqual(bruteForce(fronts, rears, ranking, setup));
});

/** Enough of them that boxes are halved many times, of few values, so that most of them tie. */
const crowd = fc
  .array(
    fc.tuple(corner, price).map(([c, price]) => ({ ...c, price })),
    { minLength: 30, maxLength: 60 },
  )
  .map((list): Candidate[] => list.map((c, index) => ({ index, ...c })));

test('a crowd of ties, zeros and prices is halved to the same best purchases', () => {
  const seen = { zeros: 0, ties: 0 };
  const draws = [crowd, crowd, fc.integer({ min: 1, max: 30 }), fc.boolean(), fc.boolean(), fc.constantFrom(...SETUPS)];
  forAny(draws as never, 150, (...drawn: unknown[]) => {
    const [fronts, rears, keep, price, dear, setup] = drawn as [
      Candidate[],
      Candidate[],
      number,
      boolean,
      boolean,
      Setup,
    ];
    // Beyond the worst price every pair scores 0.
    const ranking = { ...rankingOf(keep, price), ...(price && dear ? { price: { good: 1, worst: 2 } } : {}) };
    const expected = bruteForce(fronts, rears, ranking, setup);
    expect(pairUp(sideOf(fronts), sideOf(rears), setup, ranking).best).toEqual(expected);
    if (expected.at(-1)?.logScore === Number.NEGATIVE_INFINITY) seen.zeros++;
    if (expected.some((p, k) => p.logScore === expected[k + 1]?.logScore)) seen.ties++;
  });
  expect(Math.min(seen.zeros, seen.ties)).toBeGreaterThan(20);
});

const PLAN_STACKS = 3;
const setupsOf = (ranking: Ranking) => {
  const setup = (wantedFrequency: number | null, to: number) => {
    const front = { wantedFrequency };
    return { axles: { front, rear: front }, balance: { target: 1.1, from: 1, to } } as unknown as Setup;
  };
  // Different total weights: one of the setups has no wanted frequency.
  return [planSetupOf(setup(1.8, 1.2), ranking), planSetupOf(setup(null, 1.25), ranking)];
};

const axlePlans = (setups: ReturnType<typeof setupsOf>) =>
  fc
    .array(fc.record({ corners: fc.tuple(corner, corner), price }), {
      maxLength: 12,
    })
    .map((list) =>
      list.map(({ corners, price }, index): AxlePlan => {
        return axlePlanOf(
          corners.map((c): Candidate => ({ index, price, ...c })),
          setups,
        );
      }),
    );
function enterClass(classes: Map<string, AxleClass>, stacks: number, plan: AxlePlan, isPriced: boolean): void {
  const key = plan.corners
    .map(({ index, frequency, price }) => `${stackOf(index, stacks)} ${frequency} ${isPriced ? price : ''}`)
    .join('|');
  const known = classes.get(key);
  if (known === undefined) {
    classes.set(key, { best: plan, first: plan });
    return;
  }
  if (compareAxlePlans(plan, known.best) < 0) known.best = plan;
  if (compareIndices(plan, known.first) < 0) known.first = plan;
}

function classesOf(plans: readonly AxlePlan[], isPriced: boolean): AxleClass[] {
  const classes = new Map<string, AxleClass>();
  for (const plan of plans) enterClass(classes, PLAN_STACKS, plan, isPriced);
  return [...classes.values()];
}

function join(fronts: readonly AxleClass[], rears: readonly AxleClass[], setups: readonly PlanSetup[], keep: number) {
  const list = new PlanList(keep, { front: PLAN_STACKS, rear: PLAN_STACKS });
  joinAxles(fronts, rears, setups, 'indices', list);
  return list.plans;
}

function bruteForcePlans(
  fronts: readonly AxlePlan[],
  rears: readonly AxlePlan[],
  setups: ReturnType<typeof setupsOf>,
  keep: number,
): JoinedPlan[] {
  const stacks = ({ corners }: AxlePlan) => corners.map((c) => c.index % PLAN_STACKS).join(' ');
  const purchase = ({ front, rear }: JoinedPlan) => `${stacks(front)}|${stacks(rear)}`;
  const all = fronts.flatMap((f) => rears.flatMap((r) => planOf(f, r, setups, 'indices') ?? []));
  const sorted = all.sort(comparePlans);
  return sorted.filter((p, k) => sorted.findIndex((q) => purchase(q) === purchase(p)) === k).slice(0, keep);
}

const brief = ({ front, rear, worth }: JoinedPlan) => [front.corners[0]?.index, rear.corners[0]?.index, worth];

test('the best plans are those of all axle plans paired and sorted; ties and zeros go to the lower indices', () => {
  const seen = { ties: 0, zeros: 0 };
  forAny(
    [
      fc.boolean().chain((price) => {
        const setups = setupsOf(rankingOf(1, price));
        return fc.record({ price: fc.constant(price), fronts: axlePlans(setups), rears: axlePlans(setups) });
      }),
      fc.integer({ min: 1, max: 9 }),
    ],
    3000,
    ({ price, fronts, rears }, keep) => {
      const setups = setupsOf(rankingOf(1, price));
      const found = join(classesOf(fronts, price), classesOf(rears, price), setups, keep);
      const expected = bruteForcePlans(fronts, rears, setups, keep);
      expect(found.map(brief)).toEqual(expected.map(brief));
      if (expected.some((p, k) => p.worth === expected[k + 1]?.worth)) seen.ties++;
      if (expected.some((p) => p.worth === Number.NEGATIVE_INFINITY)) seen.zeros++;
    },
  );
  expect(Math.min(seen.ties, seen.zeros)).toBeGreaterThan(100);
});

test('hundreds of classes a side, in many boxes, still give the best plans', () => {
  const setups = setupsOf(rankingOf(1, false));
  const many = (seed: number) =>
    Array.from({ length: 600 }, (_, index): AxlePlan => {
      const corners = [0, 1].map((s): Candidate => {
        const frequency = 1.4 + random(seed + 2 * index + s);
        return { index, price: 100, frequency, logScore: -Math.round(8 * random(seed + 3000 + index)) / 4 };
      });
      return axlePlanOf(corners, setups);
    });
  const [fronts, rears] = [many(1), many(7)];
  const found = join(classesOf(fronts, false), classesOf(rears, false), setups, 8);
  expect(found.map(brief)).toEqual(bruteForcePlans(fronts, rears, setups, 8).map(brief));
});

const wished = { axles: { front: { wantedFrequency: 1.8 }, rear: {} } } as unknown as Setup;
const weights = { bump_travel: 1, height_coverage: 2, balance: 3, front_frequency: 4, price: 5, clearance: 6 };
const ranking = { weights, price: { good: 1, worst: 2 }, goodClearance: 12, keep: 1 } as Ranking;

test('a setup weighs what its criteria weigh, those left out that it has no use for', () => {
  expect(planSetupOf(wished, ranking).weight).toBe(21);
  expect(planSetupOf(wished, { ...ranking, price: null }).weight).toBe(16);
  expect(planSetupOf(wished, { ...ranking, goodClearance: null }).weight).toBe(15);
  const unwanted = { axles: { front: { wantedFrequency: null }, rear: {} } } as unknown as Setup;
  expect(planSetupOf(unwanted, ranking).weight).toBe(17);
});

test('without any weight every score is 1, whatever it is divided by', () => {
  expect(planSetupOf(wished, { ...ranking, weights: NO_WEIGHT }).weight).toBe(1);
});

/**
 * The purchases of a setup by the score that is expected of them: measured on the bench, cut, built, and judged on the
 * whole truth, a build that fails counted 0.
 */
import { DRAWS } from '../advice/cars.ts';
import { expectedScorer } from '../advice/randomBuilds.ts';
import { stackOf } from '../model/corner/options.ts';
import { type Candidate, isBalanced, totalWeight } from '../model/corner/score.ts';
import type { AxleName, Ranking, Scenario, Setup } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import type { BenchBuilds, Considered } from '../result/advice.ts';
import type { Choice } from './choice.ts';
import type { Side } from './join.ts';
import { buildCorners, type CornerBuilds, pairBuilder } from './policy.ts';

/** Of more purchases an axle only these are built on every car, the best on paper. */
const MOST = 60;

export interface ExpectedPairs {
  /** Best first. */
  readonly pairs: readonly { readonly choice: Choice; readonly builds: BenchBuilds }[];
  readonly considered: Readonly<Record<AxleName, Considered>>;
}

/** How much is tried: purchases an axle, each built on so many cars. */
export interface Effort {
  readonly most: number;
  readonly cars: number;
}

/** As many pairs as the shortlist keeps, of those that are balanced as planned. */
export function* bestExpected(
  scenario: Scenario,
  setup: Setup,
  sides: Readonly<Record<AxleName, Side>>,
  effort: Effort = { most: MOST, cars: DRAWS.count },
): Steps<ExpectedPairs> {
  const { ranking } = scenario;
  const front = yield* purchasesOn(scenario, setup, 'front', sides.front, effort);
  const rear = yield* purchasesOn(scenario, setup, 'rear', sides.rear, effort);
  const expected = expectedScorer(setup, ranking);
  const kept: ScoredPurchase[] = [];
  for (const pair of boundedPairs(front.built, rear.built, setup, ranking)) {
    const worst = kept.length < ranking.keep ? 0 : (kept.at(-1) as ScoredPurchase).score;
    if (pair.bound < worst - HAIR) break;
    const score = expected(pair.front.builds.measured, pair.rear.builds.measured);
    kept.push({ ...pair, score });
    kept.sort(compare);
    kept.splice(ranking.keep);
  }
  const build = pairBuilder(scenario, setup);
  return {
    pairs: kept.map(({ front: one, rear: other }) => ({
      choice: { front: one.planned.index, rear: other.planned.index },
      builds: build(one.builds, other.builds),
    })),
    considered: { front: front.considered, rear: rear.considered },
  };
}

/** Far above rounding, far below any difference that matters. */
const HAIR = 1e-9;

interface BoundedPair {
  readonly front: Purchased;
  readonly rear: Purchased;
  /** What it is expected to score at most. */
  readonly bound: number;
}

interface ScoredPurchase extends BoundedPair {
  readonly score: number;
}

/** The higher expectation first, of equal ones the lower index. */
function compare(one: ScoredPurchase, other: ScoredPurchase): number {
  const [a, b] = [one, other].map(({ front, rear }) => [front.planned.index, rear.planned.index] as const) as [
    readonly [number, number],
    readonly [number, number],
  ];
  return other.score - one.score || a[0] - b[0] || a[1] - b[1];
}

/**
 * Balanced pairs, those that could score most first. A score is exp(sum of logarithms / sum of weights): no criterion of
 * the pair adds to the logarithms, and a weight that falls away makes it less.
 */
function boundedPairs(
  fronts: readonly Purchased[],
  rears: readonly Purchased[],
  setup: Setup,
  ranking: Ranking,
): BoundedPair[] {
  const total = totalWeight(setup, ranking);
  const partsOf = ({ builds }: Purchased) =>
    Float64Array.from(builds.measured.builds, ({ logScore }) => (total === 0 ? 1 : Math.exp(logScore / total)));
  const ofRears = rears.map(partsOf);
  const pairs = fronts.flatMap((front) => {
    const ofFront = partsOf(front);
    return rears.flatMap((rear, r) => {
      if (!isBalanced(front.planned, rear.planned, setup)) return [];
      const sum = ofFront.reduce((all, part, k) => all + part * ((ofRears[r] as Float64Array)[k] as number), 0);
      return [{ front, rear, bound: sum / ofFront.length }];
    });
  });
  return pairs.sort((one, other) => other.bound - one.bound);
}

interface Purchased {
  readonly planned: Candidate;
  readonly builds: CornerBuilds;
}

/** Each stack that works on an axle, planned as it scores best. */
function* purchasesOn(
  scenario: Scenario,
  setup: Setup,
  axle: AxleName,
  { candidates, stacks }: Side,
  { most, cars }: Effort,
): Steps<{ readonly built: Purchased[]; readonly considered: Considered }> {
  const byStack = new Map<number, Candidate>();
  for (const one of [...candidates].sort((a, b) => b.logScore - a.logScore || a.index - b.index)) {
    const stack = stackOf(one.index, stacks);
    if (!byStack.has(stack)) byStack.set(stack, one);
  }
  const best = [...byStack.values()].slice(0, most);
  const indices = best.map(({ index }) => index);
  const builds = yield* buildCorners(scenario, setup, axle, indices, cars);
  return {
    built: best.map((planned) => ({ planned, builds: builds.get(planned.index) as CornerBuilds })),
    considered: { built: best.length, of: byStack.size },
  };
}

/** The best by what is expected of them, against all purchases built and paired one by one. */
import { expect, test } from 'vitest';
import { expectedScorer } from '../../src/advice/randomBuilds.ts';
import { stackOf } from '../../src/model/corner/options.ts';
import { type Candidate, isBalanced } from '../../src/model/corner/score.ts';
import type { Ranking, Scenario, Setup } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { bestExpected, expectedOfPair } from '../../src/sweep/expected.ts';
import { type SetupOutcome, sweepScenario } from '../../src/sweep/outcome.ts';
import { buildCorners, type CornerBuilds } from '../../src/sweep/policy.ts';
import { NAMES } from '../advice/scenarios.ts';
import { smallScenario } from '../advice/small.ts';

const CARS = 12;
const weights = { bump_travel: 0, height_coverage: 0, balance: 0, front_frequency: 0, price: 0, clearance: 0 };
const ranked = (scenario: Scenario, ranking: Partial<Ranking>): Scenario => ({
  ...scenario,
  ranking: { ...scenario.ranking, ...ranking },
});
const withSetup = (scenario: Scenario, change: (setup: Setup) => Setup): Scenario => ({
  ...scenario,
  setups: scenario.setups.map(change),
});

const EDITS: Readonly<Record<string, (scenario: Scenario) => Scenario>> = {
  'as it is': (scenario) => scenario,
  'three kept': (scenario) => ranked(scenario, { keep: 3 }),
  'balance alone': (scenario) => ranked(scenario, { keep: 4, weights: { ...weights, balance: 1 } }),
  'few pairs in balance': (scenario) => {
    const [{ pairs }] = sweepScenario(scenario) as [SetupOutcome];
    const { front, rear } = pairs.best[0] as (typeof pairs.best)[number];
    const ratio = rear.frequency / front.frequency;
    const limits = { from: ratio * 0.999, to: ratio * 1.001 };
    return withSetup(scenario, (setup) => ({ ...setup, balance: { ...setup.balance, limits } }));
  },
  'a criterion that nobody has a use for': (scenario) => {
    const asked = ranked(scenario, { keep: 4, weights: { ...weights, front_frequency: 1 } });
    return withSetup(asked, ({ axles: { front, rear }, ...setup }) => ({
      ...setup,
      axles: { front: { ...front, wantedFrequency: null }, rear },
    }));
  },
};

/** The best that works of each stack, on paper. */
function purchasesOf({ candidates, stacks }: SetupOutcome['axles']['front']): Candidate[] {
  const found = new Map<number, Candidate>();
  for (const one of candidates) {
    const known = found.get(stackOf(one.index, stacks));
    if (known === undefined || one.logScore > known.logScore) found.set(stackOf(one.index, stacks), one);
  }
  return [...found.values()];
}

function oneByOne(scenario: Scenario, { setup, axles }: SetupOutcome) {
  const [front, rear] = (['front', 'rear'] as const).map((axle) => {
    const planned = purchasesOf(axles[axle]);
    const wanted = planned.map(({ index }) => index);
    return { planned, builds: finish(buildCorners(scenario, setup, axle, wanted, CARS)) };
  }) as unknown as [Built, Built];
  const scorer = expectedScorer(setup, scenario.ranking);
  const pairs = front.planned.flatMap((one) =>
    rear.planned.flatMap((other) => {
      const [a, b] = [front.builds.get(one.index), rear.builds.get(other.index)] as [CornerBuilds, CornerBuilds];
      if (!isBalanced(one, other, setup)) return [];
      return [{ front: one.index, rear: other.index, score: scorer(a.measured, b.measured) }];
    }),
  );
  return pairs.sort((one, other) => other.score - one.score || one.front - other.front || one.rear - other.rear);
}

interface Built {
  readonly planned: readonly Candidate[];
  readonly builds: ReadonlyMap<number, CornerBuilds>;
}

test.each(NAMES.flatMap((name) => Object.keys(EDITS).map((edit) => ({ name, edit }))))(
  '$name, $edit: the same pairs in the same order',
  async ({ name, edit }) => {
    const scenario = (EDITS[edit] as (typeof EDITS)[string])(await smallScenario(name, 3));
    const [outcome] = sweepScenario(scenario) as [SetupOutcome];
    const all = oneByOne(scenario, outcome);
    const { pairs, considered } = finish(
      bestExpected(scenario, outcome.setup, outcome.axles, { most: 60, cars: CARS }),
    );
    const best = all.slice(0, scenario.ranking.keep);
    expect(pairs.map(({ choice }) => choice)).toEqual(best.map(({ front, rear }) => ({ front, rear })));
    expect(pairs.map(({ builds }) => builds.measured_first.expected_score)).toEqual(best.map(({ score }) => score));
    for (const axle of ['front', 'rear'] as const) {
      const count = purchasesOf(outcome.axles[axle]).length;
      expect(considered[axle]).toEqual({ built: count, of: count });
    }
  },
);

test('of more purchases than may be built the best on paper are, and how many there were is told', async () => {
  const scenario = await smallScenario('kit-two-seater', 4);
  const [outcome] = sweepScenario(scenario) as [SetupOutcome];
  const { pairs, considered } = finish(bestExpected(scenario, outcome.setup, outcome.axles, { most: 1, cars: CARS }));
  const [front, rear] = (['front', 'rear'] as const).map(
    (axle) => purchasesOf(outcome.axles[axle]).sort((a, b) => b.logScore - a.logScore)[0],
  );
  expect(pairs.map(({ choice }) => choice)).toEqual([{ front: front?.index, rear: rear?.index }]);
  expect(considered.front).toEqual({ built: 1, of: purchasesOf(outcome.axles.front).length });
  expect(considered.front.of + considered.rear.of).toBeGreaterThan(4);
});

test('a pair by itself comes to the same as among others', async () => {
  const scenario = await smallScenario('hill-hatch', 2);
  const [outcome] = sweepScenario(scenario) as [SetupOutcome];
  const { pairs } = finish(bestExpected(scenario, outcome.setup, outcome.axles));
  const [best] = pairs as [(typeof pairs)[number]];
  expect(finish(expectedOfPair(scenario, outcome.setup, best.choice))).toEqual(best.builds);
  expect(best.builds.measured_first.expected_score).toBeLessThanOrEqual(best.builds.measured_first.share);
});

/** The best by what is expected of them, against all purchases built and paired one by one. */
import { expect, test } from 'vitest';
import { expectedScorer } from '../../src/advice/randomBuilds.ts';
import { stackOf } from '../../src/model/corner/options.ts';
import { type Candidate, isBalanced } from '../../src/model/corner/score.ts';
import type { Scenario } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { bestExpected } from '../../src/sweep/expected.ts';
import { type SetupOutcome, sweepScenario } from '../../src/sweep/outcome.ts';
import { buildCorners, type CornerBuilds } from '../../src/sweep/policy.ts';
import { NAMES } from '../advice/scenarios.ts';
import { fewInBalance, ranked, smallScenario, withSetup } from '../advice/small.ts';

const CARS = 12;
const weights = { bump_travel: 0, height_coverage: 0, balance: 0, front_frequency: 0, price: 0, clearance: 0 };
const EDITS: Readonly<Record<string, (scenario: Scenario) => Scenario>> = {
  'as it is': (scenario) => scenario,
  'three kept': (scenario) => ranked(scenario, { keep: 3 }),
  'balance alone': (scenario) => ranked(scenario, { keep: 4, weights: { ...weights, balance: 1 } }),
  'few pairs in balance': fewInBalance,
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

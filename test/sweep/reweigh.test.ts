/** Who wins with other weights, against the sweep of everything with these weights. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Ranking, Scenario } from '../../src/model/scenario.ts';
import { resweepOf } from '../../src/sweep/choice.ts';
import { type SetupOutcome, sweepScenario } from '../../src/sweep/outcome.ts';
import { reweighOf } from '../../src/sweep/reweigh.ts';
import { NAMES, type Name } from '../advice/scenarios.ts';
import { fewInBalance, ranked, smallScenario, withSetup } from '../advice/small.ts';

const small = {
  'hill-hatch': await smallScenario('hill-hatch', 4),
  'kit-two-seater': await smallScenario('kit-two-seater', 3),
  'loaded-estate': await smallScenario('loaded-estate', 3),
};

type Edit = (scenario: Scenario) => Scenario;
const onlyBalance = { bump_travel: 0, height_coverage: 0, balance: 2, front_frequency: 0, price: 0, clearance: 0 };
/** Heights that no car of these has: the wanted ones are never covered, and every corner scores 0. */
const beyond = { wantedFrom: 1, wantedTo: 2 };

const EDITS: Readonly<Record<string, Edit>> = {
  'as it is': (scenario) => scenario,
  'one pair kept': (scenario) => ranked(scenario, { keep: 1 }),
  'balance alone': (scenario) => ranked(scenario, { weights: onlyBalance }),
  'few pairs in balance': fewInBalance,
  'every pair too dear': (scenario) =>
    ranked(scenario, { price: { good: 0.1, worst: 0.2 }, weights: { ...scenario.ranking.weights, price: 1 } }),
  'every corner at 0': (scenario) =>
    withSetup(scenario, ({ axles: { front, rear }, ...setup }) => ({
      ...setup,
      axles: { front: { ...front, ...beyond }, rear: { ...rear, ...beyond } },
    })),
};

test.each(NAMES.flatMap((name) => Object.keys(EDITS).map((edit) => ({ name, edit }))))(
  '$name, $edit: it is the winner of the whole sweep, whatever the weights',
  ({ name, edit }: { name: Name; edit: string }) => {
    const scenario = (EDITS[edit] as Edit)(small[name]);
    const [swept] = sweepScenario(scenario) as [SetupOutcome];
    expect(swept.pairs.best.length).toBeGreaterThan(0);
    const reweigh = reweighOf(scenario, swept, 'print');
    const resweep = resweepOf('print');
    const { weights } = scenario.ranking;
    const factor = fc.constantFrom(0.1, 0.5, 1, 1, 1, 2, 7);
    const changed = fc.array(factor, { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(changed, (factors) => {
        const others = Object.fromEntries(
          Object.entries(weights).map(([criterion, weight], k) => [criterion, weight * (factors[k] as number)]),
        ) as Ranking['weights'];
        expect(reweigh(others)).toEqual(resweep(ranked(scenario, { weights: others }), swept.setup));
      }),
      { numRuns: 25, seed: 1 },
    );
  },
);

test('where nothing works nobody wins', () => {
  const scenario = withSetup(small['hill-hatch'], (setup) => ({
    ...setup,
    balance: { ...setup.balance, limits: { from: 9, to: 9.1 } },
  }));
  const [swept] = sweepScenario(scenario) as [SetupOutcome];
  expect(reweighOf(scenario, swept, 'print')(scenario.ranking.weights)).toBeNull();
});

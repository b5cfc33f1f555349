import { expect, test } from 'vitest';
import { subProduct } from '../../../src/model/corner/options.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Scenario } from '../../../src/model/scenario.ts';
import { planSetupOf } from '../../../src/sweep/axlePlan.ts';
import { PlanList, type ScoredPair } from '../../../src/sweep/join.ts';
import { layoutOf } from '../../../src/sweep/layout.ts';
import { sweepScenario } from '../../../src/sweep/outcome.ts';
import { offerStarts, type SetupBests } from '../../../src/sweep/plans/starts.ts';
import { realScenario } from '../../setup/scenarios.ts';

const hatch = await realScenario('hill-hatch');
const scenario = { ...hatch, setups: hatch.setups.slice(0, 1) };

function offered(tried: Scenario): number {
  const [outcome] = sweepScenario(tried);
  if (outcome === undefined) throw new Error('no setup');
  const { setup } = outcome;
  const layoutsOf = (axle: AxleName) => [layoutOf(tried, setup, axle)];
  const split = (axle: AxleName) => {
    const { options } = tried.axles[axle];
    const others = FAMILIES.filter((family) => family !== 'spring');
    return { shared: subProduct(options, others), swapped: subProduct(options, ['spring']) };
  };
  const [front, rear] = AXLE_NAMES.map((axle) => layoutsOf(axle)[0]?.stacks.count ?? 0) as [number, number];
  const list = new PlanList(3, { front, rear });
  const [best] = outcome.pairs.best as readonly [ScoredPair];
  const twice: SetupBests = { axles: outcome.axles, pairs: { best: [best, best] } };
  const layouts = { front: layoutsOf('front'), rear: layoutsOf('rear') };
  const keys = { front: split('front'), rear: split('rear') };
  offerStarts(list, 3, [twice], layouts, keys, [planSetupOf(setup, tried.ranking)]);
  // As good as what the setup alone would choose, and no better.
  expect(list.plans[0]?.worth).toBeCloseTo(best.logScore / planSetupOf(setup, tried.ranking).weight, 9);
  return list.plans.length;
}

test('a start brings plans with its shared parts, the same start twice no more', () => {
  expect(offered(scenario)).toBe(3);
});

test('where the swapped parts are very many, the most promising of them are tried', () => {
  const { front } = scenario.axles;
  const { spring } = front.options;
  const many = Array.from({ length: 1001 }, (_, k) => spring[k % spring.length] as (typeof spring)[number]);
  const axles = { ...scenario.axles, front: { ...front, options: { ...front.options, spring: many } } };
  expect(offered({ ...scenario, axles })).toBe(3);
});

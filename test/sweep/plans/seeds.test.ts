import { expect, test } from 'vitest';
import { siteOf } from '../../../src/domain/corner/site.ts';
import { AXLE_NAMES, type AxleName, type AxleOptions, type Setup } from '../../../src/domain/scenario.ts';
import { axleLayout } from '../../../src/sweep/layout.ts';
import { PlanList } from '../../../src/sweep/plans/join.ts';
import { keyReader } from '../../../src/sweep/plans/keys.ts';
import { offerSeeds } from '../../../src/sweep/plans/seeds.ts';
import { planSetupOf } from '../../../src/sweep/plans/worth.ts';
import { sweepScenario } from '../../../src/sweep/sweep.ts';
import { realScenario } from '../../setup/scenarios.ts';

const scenario = await realScenario('hill-hatch');
const [outcome] = sweepScenario(scenario);
const setup = scenario.setups[0] as Setup;
const start = outcome?.pairs.best[0];

function offered(options: Readonly<Record<AxleName, AxleOptions>>): number {
  const layouts = Object.fromEntries(
    AXLE_NAMES.map((axle) => [axle, [axleLayout(siteOf(scenario, setup, axle), options[axle], scenario.ranking)]]),
  ) as unknown as Parameters<typeof offerSeeds>[3];
  const keys = {
    front: keyReader(options.front, ['spring']),
    rear: keyReader(options.rear, ['spring']),
  };
  const list = new PlanList(3);
  const starts = [{ front: start?.front.index ?? 0, rear: start?.rear.index ?? 0 }];
  offerSeeds(list, 3, [...starts, ...starts], layouts, keys, [planSetupOf(setup, scenario.ranking)]);
  return list.plans.length;
}

const options = { front: scenario.axles.front.options, rear: scenario.axles.rear.options };

test('a start brings plans with its shared parts, the same start twice no more', () => {
  expect(offered(options)).toBeGreaterThan(0);
});

test('where the swapped parts are very many, no start is worked out', () => {
  const { spring } = options.front;
  const many = Array.from({ length: 1001 }, (_, k) => spring[k % spring.length] as (typeof spring)[number]);
  expect(offered({ ...options, front: { ...options.front, spring: many } })).toBe(0);
});

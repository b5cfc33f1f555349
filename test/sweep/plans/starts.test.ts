import { expect, test } from 'vitest';
import { subProduct } from '../../../src/model/corner/options.ts';
import { siteOf } from '../../../src/model/corner/site.ts';
import { AXLE_NAMES, type AxleName, type AxleOptions, FAMILIES, type Setup } from '../../../src/model/scenario.ts';
import { PlanList, planSetupOf } from '../../../src/sweep/join.ts';
import { axleLayout } from '../../../src/sweep/layout.ts';
import { offerStarts } from '../../../src/sweep/plans/starts.ts';
import { sweepScenario } from '../../../src/sweep/sweep.ts';
import { realScenario } from '../../setup/scenarios.ts';

const scenario = await realScenario('hill-hatch');
const [outcome] = sweepScenario(scenario);
const setup = scenario.setups[0] as Setup;
const start = outcome?.pairs.best[0];

function offered(options: Readonly<Record<AxleName, AxleOptions>>): number {
  const layouts = Object.fromEntries(
    AXLE_NAMES.map((axle) => [axle, [axleLayout(siteOf(scenario, setup, axle), options[axle], scenario.ranking)]]),
  ) as unknown as Parameters<typeof offerStarts>[3];
  const split = (axle: AxleName) => ({
    shared: subProduct(
      options[axle],
      FAMILIES.filter((family) => family !== 'spring'),
    ),
    swapped: subProduct(options[axle], ['spring']),
  });
  const keys = { front: split('front'), rear: split('rear') };
  const list = new PlanList(3, {
    front: options.front.helper.length * options.front.spring.length,
    rear: options.rear.helper.length * options.rear.spring.length,
  });
  const starts = [{ front: start?.front.index ?? 0, rear: start?.rear.index ?? 0 }];
  offerStarts(list, 3, [...starts, ...starts], layouts, keys, [planSetupOf(setup, scenario.ranking)]);
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

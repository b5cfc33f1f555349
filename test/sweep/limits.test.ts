import { expect, test } from 'vitest';
import type { AxleOptions, Family, Scenario } from '../../src/model/scenario.ts';
import { limitFault, MOST_COMBINATIONS } from '../../src/sweep/limits.ts';
import { realScenario } from '../setup/scenarios.ts';

/** The scenario with some front lists repeated: only their lengths count here. */
async function repeated(times: Partial<Record<Family, number>>): Promise<Scenario> {
  const scenario = await realScenario('kit-two-seater');
  const { front } = scenario.axles;
  const lists = Object.entries(front.options).map(([family, list]: [string, readonly unknown[]]) => {
    return [family, Array.from({ length: times[family as Family] ?? 1 }, () => list[0])];
  });
  const options = Object.fromEntries(lists) as unknown as AxleOptions;
  return { ...scenario, axles: { ...scenario.axles, front: { ...front, options } } };
}

test('what the scenarios hold is no fault', async () => {
  expect(limitFault(await realScenario('hill-hatch'))).toBeNull();
});

test('more combinations than usual are refused with their count and the longest lists, unless asked for', async () => {
  const scenario = await repeated({ sleeve: 100_000, spring: 20_000, mount: 1_000 });
  expect(limitFault(scenario)).toMatchObject({
    kind: 'combinations',
    most: MOST_COMBINATIONS,
    families: [
      { axle: 'front', family: 'sleeve', count: 100_000 },
      { axle: 'front', family: 'spring', count: 20_000 },
      { axle: 'front', family: 'mount', count: 1_000 },
      { axle: 'rear' },
    ],
  });
  expect(limitFault(scenario)?.count).toBeGreaterThan(2e12);
  expect(limitFault(scenario, 1e13)).toBeNull();
});

test('what memory cannot hold is refused whatever is asked for', async () => {
  const stacks = await repeated({ spring: 100_000, helper: 100 });
  expect(limitFault(stacks, Number.MAX_VALUE)).toMatchObject({ kind: 'product', count: 1e7 });
  const assemblies = await repeated({ mount: 10_000, bumpStop: 10_000 });
  expect(limitFault(assemblies, Number.MAX_VALUE)).toMatchObject({ kind: 'product', count: 1e8 });
});

test('more combinations than can be numbered are refused whatever is asked for', async () => {
  const scenario = await repeated({ mount: 10_000, sleeve: 200_000, perch: 200_000, spring: 100_000 });
  expect(limitFault(scenario, Number.MAX_VALUE)).toMatchObject({ kind: 'product', most: Number.MAX_SAFE_INTEGER });
});

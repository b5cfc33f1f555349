import { expect, test } from 'vitest';
import type { AxleTarget, Scenario } from '../../src/domain/scenario.ts';
import { finish } from '../../src/domain/steps.ts';
import { planFindings } from '../../src/sweep/planFindings.ts';
import { type Progress, QUIET_RUN, sweepAll, sweepScenario } from '../../src/sweep/sweep.ts';
import { realScenario } from '../setup/scenarios.ts';

const scenario = await realScenario('hill-hatch');
const wish = { setups: scenario.setups.map(({ name }) => name), swapped: ['spring' as const], keep: 2 };

/** The same car with more bump travel asked for than its dampers have. */
function asking(leastBumpTravel: number): Scenario {
  const target = (old: AxleTarget) => ({ ...old, leastBumpTravel });
  const setups = scenario.setups.map((setup) => ({
    ...setup,
    axles: { front: target(setup.axles.front), rear: target(setup.axles.rear) },
  }));
  return { ...scenario, setups };
}

test('where no setup has anything that works there is no plan, and nothing to hold against one', () => {
  const hopeless = asking(500);
  const found = finish(planFindings(hopeless, wish, sweepScenario(hopeless)));
  expect(found).toMatchObject({ workable: { front: 0, rear: 0 }, plans: [], oneSet: null, ownSets: null });
  expect(found.alone).toEqual(wish.setups.map(() => null));
});

test('a sweep that finds nothing reports no best score on its way', async () => {
  const seen: Progress[] = [];
  await sweepAll(asking(500), { ...QUIET_RUN, onProgress: (progress) => seen.push(progress) });
  expect(seen.at(-1)).toMatchObject({ workable: 0, best: null });
});

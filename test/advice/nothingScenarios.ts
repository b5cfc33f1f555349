/** Scenarios of which nothing works, a few options each, with what their sweep and its advice left. */
import { advise, reportPairs } from '../../src/advice/advice.ts';
import { type NothingFound, nothingWorks } from '../../src/advice/nothing.ts';
import type { AxleName, AxleOptions, AxleTarget, Scenario } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { sift } from '../../src/pipeline.ts';
import type { Result } from '../../src/result/result.ts';
import { sweepScenario } from '../../src/sweep/outcome.ts';
import { requestOf, smallScenario } from './small.ts';

/** One axle's parts and wishes changed, in every setup. */
export function changed(
  scenario: Scenario,
  axle: AxleName,
  options: (own: AxleOptions) => Partial<AxleOptions>,
  target: Partial<AxleTarget> = {},
): Scenario {
  const own = scenario.axles[axle];
  return {
    ...scenario,
    axles: { ...scenario.axles, [axle]: { ...own, options: { ...own.options, ...options(own.options) } } },
    setups: scenario.setups.map((setup) => {
      return { ...setup, axles: { ...setup.axles, [axle]: { ...setup.axles[axle], ...target } } };
    }),
  };
}

export function foundOf(scenario: Scenario): NothingFound {
  const [{ setup, axles }] = sweepScenario(scenario) as [ReturnType<typeof sweepScenario>[number]];
  const request = requestOf(scenario);
  const { advice } = finish(advise(request, finish(reportPairs(request))));
  return { scenario, setup, fingerprint: request.fingerprint, sides: axles, whyNot: advice.why_not };
}

export const nothingOf = (scenario: Scenario) => finish(nothingWorks(foundOf(scenario)));

/** Springs far too stiff for the wished frequencies. */
export const stiff = (scenario: Scenario, axle: AxleName, times = 2.5) =>
  changed(scenario, axle, ({ spring }) => ({ spring: spring.map((one) => ({ ...one, rate: one.rate * times })) }));

/** The whole result where the front’s springs are far too stiff. */
export async function failingResult(): Promise<Result> {
  return sift({ scenario: stiff(await smallScenario('hill-hatch', 3), 'front'), files: [] }, 'test');
}

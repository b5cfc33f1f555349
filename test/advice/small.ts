/** The scenarios that come with the tool, their lists cut down to a handful, so that whole sweeps take milliseconds. */
import { type AdviceRequest, type Advised, advise, reportPairs } from '../../src/advice/advice.ts';
import { digitsOf } from '../../src/model/corner/options.ts';
import { fingerprintOf, fromBase32 } from '../../src/model/ids.ts';
import {
  AXLE_NAMES,
  type AxleName,
  type AxleOptions,
  FAMILIES,
  type Ranking,
  type Scenario,
  type Setup,
} from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import type { RankBy } from '../../src/result/advice.ts';
import { judgeChoice, resweepOf } from '../../src/sweep/choice.ts';
import { type SetupOutcome, sizesOf, sweepScenario } from '../../src/sweep/outcome.ts';
import { reweighOf } from '../../src/sweep/reweigh.ts';
import { BUILT } from '../audit/fit/builds.ts';
import { type Name, scenarioOf } from './scenarios.ts';

/** A combination that works, with at most `most` options of each family: it and its neighbours; one setup. */
export async function smallScenario(name: Name, most: number): Promise<Scenario> {
  const scenario = await scenarioOf(name);
  const built = BUILT[name];
  const axles = AXLE_NAMES.map((axle) => {
    const { options } = scenario.axles[axle];
    const digits = digitsOf(options, fromBase32(built[axle]));
    const lists = FAMILIES.map((family) => [family, around<unknown>(options[family], digits[family], most)]);
    return [axle, { ...scenario.axles[axle], options: Object.fromEntries(lists) as AxleOptions }];
  });
  return {
    ...scenario,
    setups: scenario.setups.filter((setup) => setup.name === built.setup),
    axles: Object.fromEntries(axles) as Scenario['axles'],
  };
}

function around<T>(list: readonly T[], digit: number, most: number): readonly T[] {
  const first = Math.min(Math.max(0, digit - (most >> 1)), Math.max(0, list.length - most));
  return list.slice(first, first + most);
}

/** A handful of options, the rear asked for at least so much bump travel, mm. */
export async function withRearTravel(least: number): Promise<Scenario> {
  const scenario = await smallScenario('loaded-estate', 5);
  const asked = { leastBumpTravel: least, goodBumpTravel: least + 4 };
  const setups = scenario.setups.map(({ axles, ...setup }) => {
    return { ...setup, axles: { ...axles, rear: { ...axles.rear, ...asked } } };
  });
  return { ...scenario, setups };
}

/** What advice is asked for about the first setup, its sweep done. */
export function requestOf(
  scenario: Scenario,
  rankBy: RankBy = 'nominal',
  combinations = sizesOf(scenario).judged,
): AdviceRequest {
  const first = { ...scenario, setups: scenario.setups.slice(0, 1) };
  const [outcome] = sweepScenario(first) as [ReturnType<typeof sweepScenario>[number]];
  const { setup, axles, pairs } = outcome;
  const fingerprint = fingerprintOf(scenario);
  return {
    ...{ scenario, setup, fingerprint, rankBy, combinations },
    tallies: { front: axles.front.tally, rear: axles.rear.tally },
    judged: pairs.best.map((p) => judgeChoice(scenario, setup, { front: p.front.index, rear: p.rear.index })),
    resweep: resweepOf(fingerprint),
    reweigh: reweighOf(scenario, outcome, fingerprint),
  };
}

/** The same without a word on springs that never work, which takes longest. */
export function withoutDead(request: AdviceRequest): AdviceRequest {
  const alive = (axle: AxleName) => {
    const tally = request.tallies[axle];
    return { ...tally, spring_cells: tally.spring_cells.map((cell) => ({ ...cell, workable: 1 })) };
  };
  return { ...request, tallies: { front: alive('front'), rear: alive('rear') } };
}

export function adviceFor(request: AdviceRequest): Advised {
  return finish(advise(request, finish(reportPairs(request))));
}

// The same scenario, asked for something else.

export const ranked = (scenario: Scenario, ranking: Partial<Ranking>): Scenario => ({
  ...scenario,
  ranking: { ...scenario.ranking, ...ranking },
});

export const withSetup = (scenario: Scenario, change: (setup: Setup) => Setup): Scenario => ({
  ...scenario,
  setups: scenario.setups.map(change),
});

/** With limits so close about the best pair's ratio that few others lie within. */
export function fewInBalance(scenario: Scenario): Scenario {
  const [{ pairs }] = sweepScenario(scenario) as [SetupOutcome];
  const { front, rear } = pairs.best[0] as (typeof pairs.best)[number];
  const ratio = rear.frequency / front.frequency;
  const limits = { from: ratio * 0.999, to: ratio * 1.001 };
  return withSetup(scenario, (setup) => ({ ...setup, balance: { ...setup.balance, limits } }));
}

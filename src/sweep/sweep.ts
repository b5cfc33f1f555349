/** The sweep of a whole scenario: each setup's axles swept, then joined. */
import { siteOf } from '../domain/corner/site.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../domain/scenario.ts';
import { type AxleOutcome, axleOutcome } from './axle.ts';
import { sweepKernel } from './kernel.ts';
import { axleLayout } from './layout.ts';
import { combinationCount } from './options.ts';
import { type PairOutcome, pairUp } from './pairing.ts';

export interface SetupOutcome {
  readonly setup: Setup;
  readonly axles: Readonly<Record<AxleName, AxleOutcome>>;
  readonly pairs: PairOutcome;
}

export interface Plan {
  readonly combinations: Readonly<Record<AxleName, number>>;
  /** All combinations judged over all setups. */
  readonly judged: number;
  /** True when nothing is left to choose: one given build. */
  readonly isBuild: boolean;
}

export function planOf(scenario: Scenario): Plan {
  const front = combinationCount(scenario.axles.front.options);
  const rear = combinationCount(scenario.axles.rear.options);
  return {
    combinations: { front, rear },
    judged: (front + rear) * scenario.setups.length,
    isBuild: front === 1 && rear === 1,
  };
}

export function sweepScenario(scenario: Scenario): SetupOutcome[] {
  return scenario.setups.map((setup) => {
    const [front, rear] = AXLE_NAMES.map((axle) => sweepAxle(scenario, setup, axle)) as [AxleOutcome, AxleOutcome];
    return { setup, axles: { front, rear }, pairs: pairUp(front, rear, setup, scenario.ranking) };
  });
}

function sweepAxle(scenario: Scenario, setup: Setup, axle: AxleName): AxleOutcome {
  const layout = axleLayout(siteOf(scenario, setup, axle), scenario.axles[axle].options, scenario.ranking);
  return axleOutcome(layout, sweepKernel(layout, 0, layout.heads).tally);
}

/** Live records of the scenarios that come with the tool, with combinations picked by hand instead of swept. */
import { findingsOf, pairFindingsOf } from '../../../src/model/corner/findings.ts';
import { combinationCount, cornerAt } from '../../../src/model/corner/options.ts';
import { judgedFrequency } from '../../../src/model/corner/rates.ts';
import { siteOf } from '../../../src/model/corner/site.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { pairId } from '../../../src/model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../../../src/model/scenario.ts';
import { type Bench, sweptBench } from '../../../src/page/bench/bench.ts';
import type { LiveRecord } from '../../../src/result/live.ts';
import { type Indices, liveOf } from '../../../src/result/records/result.ts';
import { realScenario, type ScenarioName } from '../../setup/scenarios.ts';

export interface Recorded {
  readonly scenario: Scenario;
  readonly setup: Setup;
  /** Indices of each combination, as they were picked. */
  readonly picked: readonly Indices[];
  readonly record: LiveRecord;
}

/** What of a setup's shortlist a live record reads. */
export function foundOf(setup: Setup, chosen: readonly Indices[]) {
  const shortlist = chosen.map((indices, k) => ({ id: idOf(setup, indices), rank: k + 1 }));
  return { setup, shortlist, chosen };
}

export const idOf = ({ name }: Setup, indices: Indices) => pairId({ setup: name, ...indices }, 'test');

/** The first setup with workable corners, a stride apart, so that parts differ, paired where they balance. */
export async function recorded(name: ScenarioName, count = 3): Promise<Recorded> {
  const scenario = await realScenario(name);
  const [setup] = scenario.setups;
  if (setup === undefined) throw new Error(`Scenario ${name} has no setup.`);
  const [fronts = [], rears = []] = AXLE_NAMES.map((axle) => workable(scenario, setup, axle, LOOKED_AT));
  const balanced = fronts.flatMap((front) =>
    rears
      .filter((rear) => pairFindingsOf(front.frequency, rear.frequency, setup.balance).length === 0)
      .map((rear) => ({ front: front.index, rear: rear.index })),
  );
  const stride = Math.max(1, Math.floor(balanced.length / count));
  const picked = balanced.filter((_, k) => k % stride === 0).slice(0, count);
  const record = liveOf(scenario, [foundOf(setup, picked)]);
  if (record === null) throw new Error('A shortlist with entries has a record.');
  return { scenario, setup, picked, record };
}

/** A prime, so that the walk meets all digits. */
const STRIDE = 37;
const LOOKED_AT = 12;

function workable(scenario: Scenario, setup: Setup, axle: AxleName, count: number) {
  const { options } = scenario.axles[axle];
  const site = siteOf(scenario, setup, axle);
  const found: { readonly index: number; readonly frequency: number }[] = [];
  const all = combinationCount(options);
  for (let k = 0; k < all && found.length < count; k++) {
    const index = (k * STRIDE) % all;
    const state = cornerState(site, cornerAt(options, index));
    if (findingsOf(state).length === 0) found.push({ index, frequency: judgedFrequency(state) });
  }
  return found;
}

/** The bench with a combination of the record, as picked. */
export function benchWith(record: LiveRecord, place = 0): Bench {
  const [setup] = record.setups;
  const start = setup?.starts[place];
  if (setup === undefined || start === undefined) throw new Error('The record has no such combination.');
  return sweptBench(record, setup, start);
}

/** Chosen combinations, found by their indices: judged in full, or found anew with other weights. */
import type { Resweep } from '../advice/taste.ts';
import { cornerAt } from '../model/corner/options.ts';
import { scoreOf } from '../model/corner/score.ts';
import { siteOf } from '../model/corner/site.ts';
import { pairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../model/scenario.ts';
import { allCriteria, type ChosenCorner, type JudgedPair, judgePair } from '../result/records/combination.ts';
import { pairUp, type ScoredPair } from './join.ts';
import { sweepKernel } from './kernel.ts';
import { layoutOf } from './layout.ts';
import { candidatesOf } from './tally.ts';

/** Indices of both combinations. */
export type Choice = Readonly<Record<AxleName, number>>;

export function judgeChoice(scenario: Scenario, setup: Setup, choice: Choice): JudgedPair {
  const chosen = (axle: AxleName): ChosenCorner => ({
    index: choice[axle],
    site: siteOf(scenario, setup, axle),
    corner: cornerAt(scenario.axles[axle].options, choice[axle]),
  });
  return judgePair(scenario, setup, chosen('front'), chosen('rear'));
}

/**
 * Who wins a setup with other weights or ranges, on this thread, for advice.
 * @param fingerprint of the scenario whose option lists the ids belong to
 */
export function resweepOf(fingerprint: string): Resweep {
  return (scenario, setup) => {
    const best = bestPairOf(scenario, setup);
    if (!best) return null;
    const choice = { front: best.front.index, rear: best.rear.index };
    const pair = judgeChoice(scenario, setup, choice);
    const corners = AXLE_NAMES.map((axle) => pair.workings[axle].state.corner);
    return {
      id: pairId({ setup: setup.name, ...choice }, fingerprint),
      purchase: JSON.stringify(corners.map(({ helper, spring }) => [helper, spring])),
      score: scoreOf(allCriteria(pair)),
    };
  };
}

/** Straight through the kernel: nothing but the best pair is asked for, so nothing else is tallied or listed. */
function bestPairOf(scenario: Scenario, setup: Setup): ScoredPair | undefined {
  const ranking = { ...scenario.ranking, keep: 1 };
  const sideOf = (axle: AxleName) => {
    const layout = layoutOf(scenario, setup, axle);
    const { tally } = sweepKernel(layout, 0, layout.assemblies);
    return { candidates: candidatesOf(tally), frequencies: tally.frequencies, stacks: layout.stacks.count };
  };
  return pairUp(sideOf('front'), sideOf('rear'), setup, ranking).best[0];
}

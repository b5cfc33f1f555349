/** One setup swept again, with other weights or wishes: who wins then. On this thread, for advice. */
import type { Resweep } from '../domain/advice/taste.ts';
import { pairId } from '../domain/ids.ts';
import { scoreOf } from '../domain/ranking/criteria.ts';
import { allCriteria } from '../domain/reporting/combination.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../domain/scenario.ts';
import { judgeChoice } from './choice.ts';
import { layoutOf } from './chunk.ts';
import { sweepKernel } from './kernel.ts';
import { pairUp, type ScoredPair } from './pairing.ts';
import { candidatesOf } from './tally.ts';

/** @param fingerprint of the scenario whose option lists the ids belong to */
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
    const { tally } = sweepKernel(layout, 0, layout.heads);
    return { candidates: candidatesOf(tally), frequencies: tally.frequencies, stacks: layout.stacks.count };
  };
  return pairUp(sideOf('front'), sideOf('rear'), setup, ranking).best[0];
}

/** One setup swept again, with other weights or wishes: who wins then. On this thread, for advice. */

import type { Resweep } from '../domain/advice/taste.ts';
import { siteOf } from '../domain/corner/site.ts';
import { pairId } from '../domain/ids.ts';
import { scoreOf } from '../domain/ranking/criteria.ts';
import { allCriteria, judgePair } from '../domain/reporting/combination.ts';
import type { AxleName, Scenario, Setup } from '../domain/scenario.ts';
import { layoutOf } from './chunk.ts';
import { sweepKernel } from './kernel.ts';
import { cornerAt } from './options.ts';
import { pairUp, type ScoredPair } from './pairing.ts';
import { candidatesOf } from './tally.ts';

/** @param fingerprint of the scenario whose option lists the ids belong to */
export function resweepOf(fingerprint: string): Resweep {
  return (scenario, setup) => {
    const best = bestPairOf(scenario, setup);
    if (!best) return null;
    const [front, rear] = [
      chosen(scenario, setup, 'front', best.front.index),
      chosen(scenario, setup, 'rear', best.rear.index),
    ];
    const pair = judgePair(scenario, setup, front, rear);
    return {
      id: pairId({ setup: setup.name, front: front.index, rear: rear.index }, fingerprint),
      purchase: JSON.stringify([front, rear].map(({ corner }) => [corner.helper, corner.spring])),
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

function chosen(scenario: Scenario, setup: Setup, axle: AxleName, index: number) {
  return { index, site: siteOf(scenario, setup, axle), corner: cornerAt(scenario.axles[axle].options, index) };
}

/** One setup swept again, with other weights or wishes: who wins then. On this thread, for advice. */

import type { Resweep } from '../domain/advice/taste.ts';
import { siteOf } from '../domain/corner/site.ts';
import { pairId } from '../domain/ids.ts';
import { scoreOf } from '../domain/ranking/criteria.ts';
import { allCriteria, judgePair } from '../domain/reporting/combination.ts';
import type { AxleName, Scenario, Setup } from '../domain/scenario.ts';
import { cornerAt } from './options.ts';
import { sweepScenario } from './sweep.ts';

/** @param fingerprint of the scenario whose option lists the ids belong to */
export function resweepOf(fingerprint: string): Resweep {
  return (scenario, setup) => {
    const best = sweepScenario({ ...scenario, setups: [setup] })[0]?.pairs.best[0];
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

function chosen(scenario: Scenario, setup: Setup, axle: AxleName, index: number) {
  return { index, site: siteOf(scenario, setup, axle), corner: cornerAt(scenario.axles[axle].options, index) };
}

/** The full working of one combination. */

import type { Explanation } from '../explanation.ts';
import { workingLines } from '../quantities/lines.ts';
import { pairQuantities } from '../quantities/pair.ts';
import type { CombinationWorking } from '../result.ts';
import type { AxleName } from '../scenario.ts';
import { combinationOf, type JudgedPair, quantitiesOf } from './combination.ts';

export function explanationOf(pair: JudgedPair, fingerprint: string): Explanation {
  const combination = combinationOf(pair, 1, fingerprint);
  const { front, rear } = combination.axles;
  const working = workingOfPair(pair);
  return {
    id: combination.id,
    setup: pair.setup.name,
    scenarioName: pair.scenario.name,
    workable: combination.workable,
    failures: [...front.failures, ...rear.failures, ...combination.failures],
    flags: [...front.flags, ...rear.flags, ...combination.flags],
    axles: {
      front: { id: front.id, parts: front.parts, lines: working.axles.front },
      rear: { id: rear.id, parts: rear.parts, lines: working.axles.rear },
    },
    pair: working.pair,
    criteria: combination.criteria,
    score: combination.score,
  };
}

/** Every quantity of both corners and of the pair, as lines. */
export function workingOfPair(pair: JudgedPair): CombinationWorking {
  const lines = (axle: AxleName) => workingLines(quantitiesOf(pair, axle), pair.workings[axle]);
  return {
    axles: { front: lines('front'), rear: lines('rear') },
    pair: workingLines(pairQuantities(pair.setup), { scenario: pair.scenario, ...pair.workings }),
  };
}

/** Made-up plans for report tests, over the made-up combinations of the fixture. */
import { FAMILIES } from '../../src/model/scenario.ts';
import type { PlanPart, PlanRecord, PlansResult, Result } from '../../src/result/result.ts';
import { combination, result, setup } from './fixture.ts';

export function planPart(name: string, rank: number, score: number): PlanPart {
  const { id, axles, criteria } = combination(name, rank);
  return { setup: name, id, front: axles.front.id, rear: axles.rear.id, score, criteria };
}

/** Both setups with the same corners (rank 1), 0.5 and 0.32: 0.4 together. */
export const oneSet: PlanRecord = {
  id: 'plan-0000001',
  score: 0.4,
  price: 800,
  springs_price: 300,
  setups: [planPart('low', 1, 0.5), planPart('street', 1, 0.32)],
};

export const ownSets: PlanRecord = {
  id: 'plan-0000002',
  score: 0.6,
  price: 1100.5,
  springs_price: 600.5,
  setups: [planPart('low', 1, 0.6), planPart('street', 7, 0.6)],
};

export function plans(change: Partial<PlansResult> = {}): PlansResult {
  return {
    setups: ['low', 'street'],
    swapped: [],
    shared: [...FAMILIES],
    workable: { front: 1204, rear: 77 },
    plans: [oneSet, { ...ownSets, id: 'plan-0000003', score: 0.3 }],
    comparison: {
      one_set: oneSet,
      own_sets: ownSets,
      alone: [planPart('low', 2, 0.7), null],
    },
    combinations: [{ setup: 'street', combination: combination('street', 7, { rank: 0 }) }],
    ...change,
  };
}

export function planned(change: Partial<PlansResult> = {}): Result {
  return result({ setups: [setup('low'), setup('street')], plans: plans(change) });
}

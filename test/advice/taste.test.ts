import { expect, test } from 'vitest';
import { type Ranked, tryWeights, withWeight } from '../../src/advice/taste.ts';
import type { Scenario } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import type { Combination } from '../../src/result/result.ts';

const weights = { bump_travel: 1, height_coverage: 0, balance: 1, front_frequency: 0, price: 0, clearance: 0 };
const scenario = { ranking: { weights } } as unknown as Scenario;

function ranked(id: string, bump: number, balance: number): Ranked {
  const criteria = [
    { criterion: 'bump_travel', axle: 'front', weight: 1, desirability: bump },
    { criterion: 'balance', axle: null, weight: 1, desirability: balance },
  ];
  return { combination: { id, score: Math.sqrt(bump * balance), criteria } as unknown as Combination, purchase: id };
}

test('within a shortlist each weight is doubled and halved, and the winner is told with its place', () => {
  const list = [ranked('even', 0.7, 0.7), ranked('soft', 0.95, 0.5)];
  const table = finish(tryWeights(scenario, list, null));
  expect(table?.basis).toBe('shortlist');
  expect(table?.rows).toMatchObject([
    // 0.95^2 x 0.5 = 0.451 against 0.343, to the third root.
    { criterion: 'bump_travel', weight: 1, tried: 2, winner: 'soft', place: 2, changes: true, score: 0.767 },
    { criterion: 'bump_travel', weight: 1, tried: 0.5, winner: 'even', place: 1, changes: false, score: 0.7 },
    { criterion: 'balance', weight: 1, tried: 2, winner: 'even', place: 1, changes: false, score: 0.7 },
    { criterion: 'balance', weight: 1, tried: 0.5, winner: 'soft', place: 2, changes: true },
  ]);
});

test('however the shortlist is ordered, places are by score', () => {
  const list = [ranked('soft', 0.95, 0.5), ranked('even', 0.7, 0.7)];
  const table = finish(tryWeights(scenario, list, null));
  expect(table?.rows.map(({ winner, place, changes }) => [winner, place, changes])).toEqual([
    ['soft', 2, true],
    ['even', 1, false],
    ['even', 1, false],
    ['soft', 2, true],
  ]);
});

test('without a shortlist there is no table; a sweep that finds nothing wins nothing', () => {
  expect(finish(tryWeights(scenario, [], null))).toBeNull();
  const table = finish(tryWeights(scenario, [ranked('one', 0.5, 0.5)], () => null));
  expect(table?.basis).toBe('sweep');
  expect(table?.rows[0]).toMatchObject({ winner: '', score: 0, place: 0, changes: true });
});

test('a weight is multiplied, the others and the scenario itself stay', () => {
  expect(withWeight(scenario, 'balance', 0.5).ranking.weights).toEqual({ ...weights, balance: 0.5 });
  expect(scenario.ranking.weights).toEqual(weights);
});

import { expect, test } from 'vitest';
import { drawChart } from '../../../src/report/charts/draw.ts';
import { markUndominated, tradeOff } from '../../../src/report/charts/tradeOff.ts';

test('beaten is what another equals everywhere and exceeds somewhere; equals don’t beat each other', () => {
  expect(
    markUndominated([
      [1, 1],
      [1, 0.5],
      [0.5, 2],
      [1, 1],
      [0.4, 1.9],
    ]),
  ).toEqual([true, false, true, true, false]);
  expect(markUndominated([[1]])).toEqual([true]);
});

test('the markUndominated are filled diamonds, the others open circles', async () => {
  const points = [
    { rank: 1, bump: 40, cost: 800, isUndominated: true },
    { rank: 2, bump: 50, cost: 900, isUndominated: false },
    { rank: 3, bump: 60, cost: 860, isUndominated: true },
  ];
  const { body } = await drawChart(tradeOff({ points, costTitle: 'price', costStep: 20 }));
  expect(body.match(/<path[^>]*fill="var\(--accent\)"/g)).toHaveLength(2);
  expect(body.match(/<path[^>]*stroke="var\(--muted\)"/g)).toHaveLength(1);
});

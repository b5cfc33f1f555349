import { expect, test } from 'vitest';
import { scoreRows, shortlistView } from '../../../src/report/sections/shortlist.ts';
import { combination, setup } from '../fixture.ts';

test('combinations that are judged alike share a row of scores, under the first one’s id', () => {
  const first = combination('low', 1);
  const rows = scoreRows([first, { ...first, rank: 2, id: 'low-F9-R9-00' }, combination('low', 3)]);
  expect(rows.map(({ ranks, id }) => [ranks, id])).toEqual([
    ['1, 2', first.id],
    ['3', 'low-F4F3-R2K3-7Q'],
  ]);
});

test('a bar is as wide as its desirability, and never wider than its track', () => {
  const first = combination('low', 1);
  const over = { criterion: 'balance', axle: null, weight: 1, desirability: 1.2 } as const;
  const [row] = scoreRows([{ ...first, criteria: [...first.criteria, over] }]);
  expect(row?.bars[0]).toEqual({ width: '74.0', value: '0.74' });
  expect(row?.bars.at(-1)?.width).toBe('100.0');
});

test('a column for helpers stands only where some combination has one', () => {
  expect(shortlistView(setup('low')).hasHelper).toBe(true);
  expect(shortlistView(setup('low', { shortlist: [combination('low', 1)] })).hasHelper).toBe(false);
});

import { expect, test } from 'vitest';
import { balanceFindingsOf } from '../../../src/domain/corner/pairBalance.ts';

const window = { from: 0.9, target: 1, to: 1.25 };
const found = (rear: number, front = 2) => balanceFindingsOf(front, rear, window);

test('inside the window, its ends included, front and rear are balanced', () => {
  for (const rear of [1.8, 2, 2.3, 2.5]) expect(found(rear)).toEqual([]);
});

test('outside, what is missing to the nearer end is told', () => {
  // 1.6 Hz over 2 Hz is 0.8; 2.75 Hz over 2 Hz is 1.375.
  expect(found(1.6)).toEqual([
    { check: 'balance', detail: 'lowest', found: 0.8, needed: 0.9, shortfall: expect.closeTo(0.1, 12) },
  ]);
  expect(found(2.75)).toEqual([
    { check: 'balance', detail: 'highest', found: 1.375, needed: 1.25, shortfall: expect.closeTo(0.125, 12) },
  ]);
});

test('where a corner has no frequency there is nothing to judge', () => {
  expect(found(Number.NaN)).toEqual([]);
  expect(found(2, Number.NaN)).toEqual([]);
});

import { describe, expect, test } from 'vitest';
import { pairFindingsOf } from '../../../src/model/corner/findings.ts';
import { balanceDesirability, isWithinLimits } from '../../../src/model/corner/pairBalance.ts';

const window = { from: 0.9, target: 1, to: 1.25 };
const found = (rear: number, front = 2) => pairFindingsOf(front, rear, window);

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

describe('with limits around the wanted window', () => {
  const wide = { target: 1.1, from: 1, to: 1.2, limits: { from: 0.8, to: 1.4 } };

  test('the limits reject, the window does not', () => {
    expect(pairFindingsOf(2, 2 * 0.81, wide)).toEqual([]);
    expect(pairFindingsOf(2, 2 * 1.39, wide)).toEqual([]);
    expect(pairFindingsOf(2, 2 * 0.75, wide)).toMatchObject([{ detail: 'lowest', needed: 0.8 }]);
    expect(pairFindingsOf(2, 2 * 1.5, wide)).toMatchObject([{ detail: 'highest', needed: 1.4 }]);
    expect([0.79, 0.8, 1.4, 1.41, Number.NaN].map((ratio) => isWithinLimits(ratio, wide))).toEqual([
      ...[false, true, true, false, false],
    ]);
  });

  test('desirability goes straight from 1 at the target by one half at the window’s ends to 0 at the limits', () => {
    // Halfway between two corners of the line it is halfway between their values.
    for (const [ratio, worth] of [
      ...[[0.7, 0] as const, [0.8, 0] as const, [0.9, 0.25] as const, [1, 0.5] as const, [1.05, 0.75] as const],
      ...[[1.1, 1] as const, [1.15, 0.75] as const, [1.2, 0.5] as const, [1.3, 0.25] as const, [1.4, 0] as const],
    ]) {
      expect(balanceDesirability(ratio, wide), String(ratio)).toBeCloseTo(worth, 12);
    }
    // Where a limit is the window's end: straight from 1 to 0, the other side as before.
    const oneSided = { ...wide, limits: { from: 1, to: 1.4 } };
    expect([1, 1.05, 1.2].map((ratio) => balanceDesirability(ratio, oneSided))).toEqual([
      ...[0, expect.closeTo(0.5, 12), expect.closeTo(0.5, 12)],
    ]);
    expect(balanceDesirability(1.125, window)).toBeCloseTo(0.5, 12);
  });
});

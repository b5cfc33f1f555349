import { expect, test } from 'vitest';
import { PICK } from '../../../src/page/bench/words.ts';

test('a start is the plan, or a place on the shortlist of its setup alone', () => {
  expect(PICK.combination(PICK.plan, 'low-F1-R1-00', ['a', 'b'])).toBe('the plan: a / b (low-F1-R1-00)');
  expect(PICK.combination(PICK.alone(3), 'low-F1-R1-00', ['a', 'b'])).toBe(
    '3 for this setup alone: a / b (low-F1-R1-00)',
  );
});

import { expect, test } from 'vitest';
import { criterionLabel, rankText } from '../../../src/report/text/labels.ts';

test('three ranks in a row and more are written as a run', () => {
  expect(rankText([1, 2, 3, 5, 7, 8])).toBe('1 to 3, 5, 7, 8');
  expect(rankText([1, 2, 4])).toBe('1, 2, 4');
  expect(rankText([])).toBe('');
});

test('a criterion is named with its axle, the pair’s own without', () => {
  const judged = { weight: 1, desirability: 1 };
  expect(criterionLabel({ criterion: 'bump_travel', axle: 'rear', ...judged })).toBe('rear bump travel');
  expect(criterionLabel({ criterion: 'front_frequency', axle: 'front', ...judged })).toBe('front wanted frequency');
  expect(criterionLabel({ criterion: 'balance', axle: null, ...judged })).toBe('front-rear balance');
});

import { expect, test } from 'vitest';
import { product } from '../../../src/input/assemble/product.ts';

test('the last dimension named turns fastest', () => {
  expect(product({ a: [1, 2], b: [5, 6] })).toEqual([
    { a: 1, b: 5 },
    { a: 1, b: 6 },
    { a: 2, b: 5 },
    { a: 2, b: 6 },
  ]);
});

test('the product of no dimensions is one empty choice', () => {
  expect(product({})).toEqual([{}]);
});

import { expect, test } from 'vitest';
import { editDistance, nearestWord } from '../../src/input/nearest.ts';

test('the edit distance of the textbook pair kitten and sitting is 3', () => {
  // Wagner & Fischer (1974), "The string-to-string correction problem", J. ACM 21(1); the pair is from memory.
  expect(editDistance('kitten', 'sitting')).toBe(3);
  expect(editDistance('', 'abc')).toBe(3);
  expect(editDistance('abc', 'abc')).toBe(0);
});

test('a slip of one letter is recognised, another word is not', () => {
  const known = ['extended', 'compressed', 'body_length'];
  expect(nearestWord('extnded', known)).toBe('extended');
  expect(nearestWord('Compresed', known)).toBe('compressed');
  expect(nearestWord('colour', known)).toBeNull();
});

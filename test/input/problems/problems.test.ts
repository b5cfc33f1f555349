import { expect, test } from 'vitest';
import {
  editDistance,
  formatProblem,
  nearestWord,
  type Problem,
  sortProblems,
} from '../../../src/input/problems/problems.ts';

const problem = (file: string, line: number, column: number): Problem => ({
  ...{ file, line, column },
  ...{ found: '`5`', expected: 'a length', advice: 'write `5 mm`' },
});

test('a problem names its place first, then what to do', () => {
  expect(formatProblem(problem('a.yaml', 3, 9))).toBe(
    'a.yaml:3:9: found `5`\n  expected: a length\n  advice: write `5 mm`',
  );
});

test('problems are sorted by file, line and column, and said once', () => {
  const [a, b, c, d] = [problem('a', 2, 1), problem('a', 10, 1), problem('a', 10, 2), problem('b', 1, 1)];
  expect(sortProblems([d, c, b, a, c])).toEqual([a, b, c, d]);
});

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

/** One word for one thing in all that a user can see: the table stands in DEVELOPERS.md. */

import { expect, test } from 'vitest';
import { readFiles, withoutComments } from '../setup/source-tree.ts';

const [developers] = readFiles(['DEVELOPERS.md']);
const table = /\n## Words\n[\s\S]*?(?=\n## )/.exec(developers?.text ?? '')?.[0] ?? '';
/** Words that stand for none of the things in the table, with the word that does. */
const others = table
  .split('\n')
  .map((row) => row.split('|').map((cell) => cell.trim()))
  .filter(([, word, , not]) => word && not && word !== 'word' && !/^-+$/.test(word))
  .flatMap(([, word = '', , not = '']) => not.split(', ').map((other) => ({ word, other })));

/** What a user reads: strings and templates, scenarios, the manual, the command's help. */
const texts = [
  ...readFiles(['src'], '.ts').map(({ path, text }) => ({ path, text: withoutComments(text) })),
  ...readFiles(['src'], '.hbs'),
  ...readFiles(['src'], '.json'),
  ...readFiles(['scenarios']),
  ...readFiles(['README.md']),
];

test('the table of words was found', () => {
  expect(others.length).toBeGreaterThan(10);
});

test.each(others)('nothing says $other where $word is meant', ({ other }) => {
  const pattern = new RegExp(`\\b${other}\\b`, 'i');
  const found = texts.flatMap(({ path, text }) =>
    text.split('\n').flatMap((line) => (pattern.test(line) ? [`${path}: ${line.trim()}`] : [])),
  );
  expect(found).toEqual([]);
});

/** Names in the code are the trade's terms or plain words of programming, not words that a reader has to learn first. */

import { expect, test } from 'vitest';
import { readFiles, withoutCommentsAndStrings } from '../setup/source-tree.ts';

/** Words that once stood for something of our own, each with the names that may hold it. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  ...{ desk: [], taker: [], deal: [], easel: [], hand: [], hire: [], told: [], stage: [], look: [] },
  head: [],
  // How far a body tilts in a bend.
  lean: ['lean'],
  // A parameter in the page's address.
  care: ['care'],
  // Math.round.
  round: ['round'],
  // A field of results.json, and the failing that it counts.
  wish: ['wish', 'wish_share'],
  // The field `plan.keep` of a scenario; elsewhere a verb that begins a name.
  keep: ['keep'],
  // A field of the warnings in results.json.
  usual: ['usual'],
};

/** Words of a name in camelCase, PascalCase or SNAKE_CASE, a plural taken for its singular. */
const wordsOf = (name: string) =>
  name
    .split(/_|(?<=[a-z\d])(?=[A-Z])/)
    .map((word) => word.toLowerCase())
    .flatMap((word) => [word, word.replace(/s$/, '')]);

/** Names in the code, those inside the braces of templates too. */
function namesIn(text: string): readonly string[] {
  const code = withoutCommentsAndStrings(text).replace(/`(?:\\[\s\S]|[^`\\])*`/g, (template) =>
    [...template.matchAll(/\$\{([^}]*)\}/g)].map(([, inner = '']) => withoutCommentsAndStrings(inner)).join(';'),
  );
  return [...new Set(code.match(/[A-Za-z_$][\w$]*/g))];
}

const files = readFiles(['src'], '.ts').map(({ path, text }) => ({
  path,
  names: [...namesIn(text), ...namesIn(path.replaceAll(/[./-]/g, ' '))],
}));

const isVerb = (name: string, word: string) => word === 'keep' && /^keep[A-Z]/.test(name);

test('names are split into their words', () => {
  expect(files.length).toBeGreaterThan(100);
  expect(wordsOf('HEAD_FAMILIES')).toContain('head');
  expect(wordsOf('sameHeads')).toContain('head');
  expect(wordsOf('ahead')).not.toContain('head');
  expect(namesIn(['const look = `a head $', "{told('hand')}`; // care"].join(''))).toEqual(['const', 'look', 'told']);
});

test.each(Object.entries(WORDS))('no name in src holds “%s”', (word, allowed) => {
  const found = files.flatMap(({ path, names }) =>
    names
      .filter((name) => wordsOf(name).includes(word) && !allowed.includes(name) && !isVerb(name, word))
      .map((name) => `${path}: ${name}`),
  );
  expect(found).toEqual([]);
});

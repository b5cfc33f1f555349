import { expect, test } from 'vitest';
import { PLAIN } from '../../../src/report/text/numbers.ts';
import { choiceText, splitKey } from '../../../src/report/text/parts.ts';

test('a key ends in its unit, which may be of several words', () => {
  expect(splitKey('trim_mm')).toEqual({ stem: 'trim', dimension: 'length' });
  expect(splitKey('rate_n_per_mm')).toEqual({ stem: 'rate', dimension: 'rate' });
  expect(splitKey('turns')).toEqual({ stem: 'turns', dimension: 'ratio' });
});

test('a part is its name and what was picked, none is none', () => {
  const sleeve = { name: 'sleeve 150', price: null, choice: { trim_mm: 25.4 } };
  expect(choiceText(sleeve, PLAIN)).toBe('sleeve 150: trim 25.4 mm (1.00 in)');
  expect(choiceText({ name: 'none', price: null, choice: {} }, PLAIN)).toBe('none');
});

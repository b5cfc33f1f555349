import fc from 'fast-check';
import { expect, test } from 'vitest';
import { camelKey, mapKeys, snakeKey } from '../../src/model/keys.ts';
import { forAny } from '../setup/random.ts';

test('a key goes from one style to the other and back', () => {
  expect(snakeKey('tyreOnArchHeight')).toBe('tyre_on_arch_height');
  expect(camelKey('tyre_on_arch_height')).toBe('tyreOnArchHeight');
  const word = fc.stringMatching(/^[a-z]{1,5}$/);
  forAny([fc.array(word, { minLength: 1, maxLength: 4 })], (words) => {
    const key = words.join('_');
    expect(snakeKey(camelKey(key))).toBe(key);
  });
});

test('keys change at every depth, texts only where they are said to be names', () => {
  const data = {
    bumpStop: [{ closedFraction: 0.4, name: 'rodEnd' }, null],
    sharedParts: ['rodEnd', { oneMore: 'rodEnd' }],
  };
  expect(mapKeys(data, snakeKey, new Set(['sharedParts']))).toEqual({
    bump_stop: [{ closed_fraction: 0.4, name: 'rodEnd' }, null],
    shared_parts: ['rod_end', { one_more: 'rodEnd' }],
  });
  expect(mapKeys(data, snakeKey)).toMatchObject({ shared_parts: ['rodEnd', { one_more: 'rodEnd' }] });
});

test('a key that is the name of a prototype stays a plain key', () => {
  const data = JSON.parse('{"__proto__": {"isBad": true}}');
  expect(JSON.stringify(mapKeys(data, snakeKey))).toBe('{"__proto__":{"is_bad":true}}');
});

import { expect, test } from 'vitest';
import { differencesOf } from '../../src/model/differences.ts';

test('equal values differ nowhere, whatever the order of their keys', () => {
  expect(differencesOf({ a: [1, { b: null }], c: 'x' }, { c: 'x', a: [1, { b: null }] })).toEqual([]);
});

test('each difference has its path, by name where there is one, and both values', () => {
  const before = { setups: [{ name: 'low', score: 0.5, list: [1, 2] }], gone: true };
  const after = { setups: [{ name: 'low', score: 0.6, list: [1] }], come: { deep: 1 } };
  expect(differencesOf(before, after)).toEqual([
    { path: 'setups[low].score', before: '0.5', after: '0.6' },
    { path: 'setups[low].list[1]', before: '2', after: null },
    { path: 'gone', before: 'true', after: null },
    { path: 'come', before: null, after: '{"deep":1}' },
  ]);
});

test('entries that came at the end of a list differ from nothing', () => {
  expect(differencesOf([1], [1, { name: 'new' }])).toEqual([{ path: '[new]', before: null, after: '{"name":"new"}' }]);
});

test('a list where a record was is one difference', () => {
  expect(differencesOf({ a: [] }, { a: {} })).toEqual([{ path: 'a', before: '[]', after: '{}' }]);
});

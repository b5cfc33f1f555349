import { expect, test } from 'vitest';
import { type RootShape, type Shape, shapeFault } from '../../src/result/shape.ts';

const faultOf = (value: unknown, shape: Shape, $defs: RootShape['$defs'] = {}) =>
  shapeFault(value, { ...shape, $defs });

const NAMED: RootShape['$defs'] = {
  Count: { type: 'integer', minimum: 0 },
  Place: { type: 'object', properties: { x: { $ref: '#/$defs/Count' } }, required: ['x'], additionalProperties: false },
};

// Each rule as JSON Schema 2020-12 states it (core 10.2, 10.3; validation 6).
test.each<[string, unknown, Shape, string, string]>([
  ['a list for a text', [], { type: 'string' }, '', '[] where a text belongs'],
  ['a text for one of two', 'a', { type: ['number', 'null'] }, '', '"a" where a number or nothing belongs'],
  ['another word', 'c', { type: 'string', enum: ['a', 'b'] }, '', '"c" where "a" or "b" belongs'],
  ['another constant', 3, { type: 'number', const: 2 }, '', '3 where 2 belongs'],
  ['half a count', { x: 0.5 }, { $ref: '#/$defs/Place' }, 'x', '0.5 where a whole number belongs'],
  ['less than nothing', [{ x: -1 }], { items: { $ref: '#/$defs/Place' } }, '[0].x', '-1 where 0 or more belongs'],
  ['more than all', 2, { type: 'number', maximum: 1 }, '', '2 where 1 or less belongs'],
  ['a limit beside a reference', 9, { $ref: '#/$defs/Count', maximum: 5 }, '', '9 where 5 or less belongs'],
  [
    'beyond any quantity',
    1e15,
    { type: ['number', 'null'] },
    '',
    '1000000000000000 where 10000000000000 or less belongs',
  ],
  ['as far below', -1e15, { type: 'number' }, '', '-1000000000000000 where -10000000000000 or more belongs'],
  ['no digest', 'xyz', { type: 'string', pattern: '^[0-9a-f]+$' }, '', '"xyz" where a text like ^[0-9a-f]+$ belongs'],
  ['an empty list', [], { type: 'array', minItems: 1 }, '', '0 entries are too few or too many'],
  ['a long list', [1, 2], { type: 'array', maxItems: 1 }, '', '2 entries are too few or too many'],
  ['a lost key', {}, { $ref: '#/$defs/Place' }, 'x', 'nothing stands there'],
  ['an unknown key', { x: 1, y: 2 }, { $ref: '#/$defs/Place' }, 'y', 'no such key is known'],
  [
    'a wrong pair',
    [1, 'b'],
    { prefixItems: [{ type: 'number' }, { type: 'number' }] },
    '[1]',
    '"b" where a number belongs',
  ],
  [
    'a value by key',
    { a: { b: 'c' } },
    { additionalProperties: { additionalProperties: { type: 'null' } } },
    'a.b',
    '"c" where nothing belongs',
  ],
  ['a key of every record', { toString: 1 }, { $ref: '#/$defs/Place' }, 'x', 'nothing stands there'],
  ['a long text', 'x'.repeat(99), { type: 'null' }, '', `"${'x'.repeat(56)}... where nothing belongs`],
])('%s is a fault with its place', (_, value, shape, where, what) => {
  expect(faultOf(value, shape, NAMED)).toEqual({ where, what });
});

test('of several shapes the one that fits furthest says what is wrong', () => {
  const either: Shape = {
    anyOf: [
      { type: 'null' },
      { $ref: '#/$defs/Place' },
      { type: 'object', required: ['z'], additionalProperties: false },
    ],
  };
  expect(faultOf({ x: 'a' }, either, NAMED)).toEqual({ where: 'x', what: '"a" where a whole number belongs' });
  expect(faultOf(null, either, NAMED)).toBeNull();
  expect(faultOf({ x: 3 }, either, NAMED)).toBeNull();
});

test('what fits has no fault, lists without a shape included', () => {
  expect(faultOf([1, 'a', null], { type: 'array' })).toBeNull();
  expect(faultOf({ a: 1e12, b: true }, { additionalProperties: { type: ['number', 'boolean'] } })).toBeNull();
  expect(faultOf(1e20, { type: 'integer' })).toBeNull();
});

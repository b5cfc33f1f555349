import { expect, test } from 'vitest';
import { isUnknown, meantBy, settled, shownText, unitOf } from '../../../src/page/form/values.ts';

test.each([
  ['474', 'length', 'metric', '474 mm'],
  [' 474 ', 'length', 'metric', '474 mm'],
  ['474 mm', 'length', 'imperial', '474 mm'],
  ['11', 'length', 'imperial', '11 in'],
  ['7 1/2', 'length', 'imperial', '7.5 in'],
  ['7 1/2 in', 'length', 'metric', '7.5 in'],
  ['3/8"', 'length', 'metric', '0.375 "'],
  ['250', 'rate', 'imperial', '250 lbf/in'],
  ['300', 'mass', 'metric', '300 kg'],
  ['660', 'mass', 'imperial', '660 lb'],
  ['0.35', 'ratio', 'metric', '0.35'],
  ['2O mm', 'length', 'metric', '2O mm'],
  ['17,5', 'length', 'metric', '17,5'],
  ['-10', 'length', 'metric', '-10 mm'],
  ['unknown', 'length', 'metric', 'unknown'],
  ['', 'length', 'metric', ''],
] as const)('%j of a %s, %s, is settled as %j', (typed, dimension, world, text) => {
  expect(settled(typed, dimension, world)).toBe(text);
});

test.each([
  ['17,5 mm', ['17.5 mm']],
  ['1,250 mm', ['1.25 mm', '1250 mm']],
  ['0,5', ['0.5']],
  ['17.5 mm', []],
  ['a,b', []],
] as const)('%j may mean %j', (typed, meant) => {
  expect(meantBy(typed)).toEqual(meant);
});

test('what is no single value shows as nothing', () => {
  expect([shownText(undefined), shownText(null), shownText(['1 mm']), shownText(0.95), shownText('x')]).toEqual([
    ...['', '', '', '0.95', 'x'],
  ]);
  expect([isUnknown('unknown'), isUnknown('1 mm')]).toEqual([true, false]);
});

test('a dimension without units in the other world keeps its own', () => {
  expect([unitOf('frequency', 'imperial'), unitOf('ratio', 'metric')]).toEqual(['Hz', '']);
});

import { expect, test } from 'vitest';
import { likeWritten, numberText } from '../../../src/input/adopt/quantityText.ts';

test.each([
  [279.4, 'length', '{ from: 8 in, to: 12 in, step: 1 in }', '11 in'],
  [38.1, 'length', '[1.4 in, 2 in]', '1.5 in'],
  [37.5, 'length', '38 mm', '37.5 mm'],
  [37.5, 'length', '', '37.5 mm'],
  [37.5, 'length', '*stop', '37.5 mm'],
  [34.5, 'rate', '34 N/mm', '34.5 N/mm'],
  [266.5, 'mass', '{ left: 262 kg, right: 266 kg }', '266.5 kg'],
  [0.36, 'ratio', '0.4', '0.36'],
] as const)('%f %s where %j stands is written as %j', (value, dimension, written, text) => {
  expect(likeWritten(value, dimension, written)).toBe(text);
});

test('numbers lose the noise of binary fractions and nothing else', () => {
  expect(numberText(0.1 + 0.2)).toBe('0.3');
  expect(Math.abs(Number(numberText(Math.PI)) - Math.PI)).toBeLessThan(1e-11);
});

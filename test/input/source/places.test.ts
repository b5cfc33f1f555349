import { expect, test } from 'vitest';
import { placesIn } from '../../../src/input/source/places.ts';

test('every offset has a line and a column from 1', () => {
  const text = 'ab\n\ncd\r\ne';
  const place = placesIn(text);
  const places = Array.from({ length: text.length + 1 }, (_, offset) => place(offset));
  expect(places.map(({ line, column }) => `${line}:${column}`)).toEqual([
    '1:1',
    '1:2',
    '1:3',
    '2:1',
    '3:1',
    '3:2',
    '3:3',
    '3:4',
    '4:1',
    '4:2',
  ]);
});

test('offsets outside the text are places of its ends', () => {
  expect([-5, 99].map(placesIn('a\nb'))).toEqual([
    { line: 1, column: 1 },
    { line: 2, column: 2 },
  ]);
});

import { expect, test } from 'vitest';
import { windowRows } from '../../../src/report/sections/windows.ts';
import { withCorner } from '../../compare/pages.ts';
import { combination } from '../fixture.ts';

test('combinations with the same spring and window on an axle share a row', () => {
  const [first, other] = [combination('low', 1), combination('low', 2)];
  const same = { ...first, rank: 3 };
  const rows = windowRows([first, other, same], 'front');
  expect(rows.map((row) => row.name)).toEqual([
    '1, 3: coil 60 x 190 x 50, 190.0 mm, 50.00 N/mm',
    '2: coil 60 x 180 x 50, 180.0 mm, 50.00 N/mm',
  ]);
});

test('a window that ends nowhere usable has no bar', () => {
  const whole = combination('low', 1);
  const words = { ...whole.axles.front.words, window: 'empty' };
  const [row] = windowRows([withCorner(whole, 'front', { words })], 'front');
  expect(row?.window).toBeNull();
});

import { expect, test } from 'vitest';
import type { MeasuredField } from '../../src/measure/measurable.ts';
import { boxesOf, givenText } from '../../src/measure/page.ts';

/** Spaces that do not break, as spaces. */
const plain = (text: string | undefined) => text?.replace(/[\u00a0\u202f]/g, ' ');

test('what the scenario gives is written out in both worlds, a long list by its ends and its number', () => {
  expect(givenText([], 'length')).toBe('');
  expect(plain(givenText([40, 50], 'length'))).toBe('40.0, 50.0 mm (1.57, 1.97 in)');
  expect(plain(givenText([1, 2, 3, 4], 'length'))).toBe('1.0 to 4.0 mm (0.04 to 0.16 in), 4 values');
  expect(plain(givenText([0.4], 'ratio'))).toMatch(/^0\.40*$/);
});

test('one load stands beside both wheels, own loads each beside its own', () => {
  const field = (path: string, front: number[]) =>
    ({ path, dimension: 'mass', values: { front, rear: [] } }) as unknown as MeasuredField;
  const given = (...fields: MeasuredField[]) =>
    boxesOf({ boxes: 'wheels' } as never, fields).columns[0]?.map((entry) => plain(entry.given)?.slice(0, 8));
  expect(given(field('wheel_load', [250]))).toEqual(['250.0 kg', '250.0 kg']);
  expect(given(field('wheel_load', []), field('wheel_load.left', [248]), field('wheel_load.right', [252]))).toEqual([
    '248.0 kg',
    '252.0 kg',
  ]);
});

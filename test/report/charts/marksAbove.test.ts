import { expect, test } from 'vitest';
import { bandFor, placeMarks } from '../../../src/report/charts/marksAbove.ts';

const mark = (name: string, at: number) => ({ name, at, kind: 'plain' }) as const;

test('names of marks close together stand a line apart, their marks where they belong', () => {
  const placed = placeMarks([mark('b', 52), mark('a', 50), mark('c', 51)], {
    width: 200,
    bottom: 100,
    domain: [0, 100],
  });
  expect(placed.map(({ name }) => name)).toEqual(['a', 'c', 'b']);
  expect(placed.map(({ at }) => at)).toEqual([100, 102, 104]);
  expect(placed.map(({ x }) => x)).toEqual([87, 102, 117]);
});

test('the room above the plot grows with the longest name', () => {
  expect(bandFor([mark('standing', 0), mark('other metal', 1)])).toBeGreaterThan(bandFor([mark('standing', 0)]));
});

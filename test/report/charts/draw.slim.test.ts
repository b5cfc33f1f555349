import { expect, test } from 'vitest';
import { slimDown } from '../../../src/report/charts/draw.ts';

test('neighbouring paths of one look become one, see-through ones stay apart', () => {
  const path = (d: string, look: string) => `<path d="${d}" fill="${look}"/>`;
  expect(slimDown(path('M0,0h1', 'a') + path('M2,0h1', 'a') + path('M4,0h1', 'b'))).toBe(
    path('M0,0h1M2,0h1', 'a') + path('M4,0h1', 'b'),
  );
  const faint = (d: string) => `<path d="${d}" fill="a" fill-opacity="0.5"/>`;
  expect(slimDown(faint('M0,0h1') + faint('M2,0h1'))).toBe(faint('M0,0h1') + faint('M2,0h1'));
});

test('runs of texts hand their look to a group and keep their places and words', () => {
  const text = (at: number, word: string) =>
    `<text text-anchor="end" transform="translate(${at},0)" fill="a">${word}</text>`;
  expect(slimDown(text(1, 'x') + text(2, 'y') + text(3, 'z'))).toBe(
    '<g text-anchor="end" fill="a"><text transform="translate(1,0)">x</text><text transform="translate(2,0)">y</text><text transform="translate(3,0)">z</text></g>',
  );
  expect(slimDown(text(1, 'x') + text(2, 'y'))).toBe(text(1, 'x') + text(2, 'y'));
});

test('idle attributes, paths without a look and empty groups go, figures after the first decimal too', () => {
  expect(
    slimDown(
      '<g class="mark" role="img"><g><path d="M0,0h0v0h0Z"/></g><path d="M0.123,4.987L-2.5,1" stroke="a" opacity="1"/></g>',
    ),
  ).toBe('<g><path d="M0.1,5L-2.5,1" stroke="a"/></g>');
});

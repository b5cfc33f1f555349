import { expect, test } from 'vitest';
import { glossaryDrawing } from '../../../src/report/drawing/glossary.ts';
import { glossaryViews, PICTURED, SPOKEN, WORDS } from '../../../src/report/text/glossary.ts';

const svg = glossaryDrawing();
const numbers = [...svg.matchAll(/<text[^>]*>(\d+)<\/text>/g)].map(([, text]) => Number(text));

test('each word of the picture has its number in it, from the top downwards, and no number covers another', () => {
  expect(numbers).toEqual(PICTURED.map((_, k) => k + 1));
  const heights = [...svg.matchAll(/<circle class="pin"[^>]*|<circle [^>]*class="pin"[^>]*/g)].map(([tag]) =>
    Number(/cy="([\d.]+)"/.exec(tag)?.[1]),
  );
  expect(heights).toHaveLength(PICTURED.length);
  for (const [k, y] of heights.entries()) if (k > 0) expect(y - (heights[k - 1] as number)).toBeGreaterThan(16);
});

test('no word stands twice, and each says what it means', () => {
  expect(new Set(WORDS.map(({ word }) => word)).size).toBe(WORDS.length);
  expect(WORDS.filter(({ meaning }) => meaning.length < 10)).toEqual([]);
  expect(glossaryViews().pictured.map(({ number }) => number)).toEqual(numbers);
  expect(SPOKEN.length).toBeGreaterThan(5);
});

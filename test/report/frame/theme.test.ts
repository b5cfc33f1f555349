import { expect, test } from 'vitest';
import { DARK, LIGHT, type Palette, paint, themeCss } from '../../../src/report/frame/theme.ts';

/** Pairs that carry text (4.5 : 1) and pairs that carry shapes (3 : 1), WCAG 2.2 success criteria 1.4.3 and 1.4.11. */
const TEXT_PAIRS: readonly (readonly [keyof Palette, keyof Palette])[] = (
  ['ink', 'muted', 'accent', 'alert'] as const
).flatMap((front) => (['paper', 'panel', 'band'] as const).map((back) => [front, back] as const));
const SHAPE_PAIRS: readonly (readonly [keyof Palette, keyof Palette])[] = [
  ['accent', 'paper'],
  ['accent', 'panel'],
  ['accent', 'band'],
];

/** Relative luminance and contrast ratio, WCAG 2.2 (W3C 2023), definitions. */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
  const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

const PALETTES: readonly [string, Palette][] = [
  ['light', LIGHT],
  ['dark', DARK],
  ['print', { ...LIGHT, paper: '#ffffff' }],
];

test('the measure itself: black on white is 21 to 1, #767676 on white just passes 4.5 to 1 (WCAG)', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  expect(contrast('#767676', '#ffffff')).toBeGreaterThanOrEqual(4.5);
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
});

test.each(PALETTES)('every text pair of the %s palette reaches 4.5 to 1', (_, palette) => {
  const low = TEXT_PAIRS.filter(([front, back]) => contrast(palette[front], palette[back]) < 4.5);
  expect(low).toEqual([]);
});

test.each(PALETTES)('every shape pair of the %s palette reaches 3 to 1', (_, palette) => {
  const low = SHAPE_PAIRS.filter(([front, back]) => contrast(palette[front], palette[back]) < 3);
  expect(low).toEqual([]);
});

test('both palettes and print define every property that charts paint with', () => {
  const css = themeCss();
  for (const name of Object.keys(LIGHT) as (keyof Palette)[]) {
    expect(css.match(new RegExp(`--${name}:#[0-9a-f]{6}`, 'g'))).toHaveLength(3);
    expect(paint(name)).toBe(`var(--${name})`);
  }
});

import { expect, test } from 'vitest';
import { fitText, textWidth } from '../../../src/report/text/textWidth.ts';

test('ten figures at 12 px are no narrower than in a wide face (DejaVu Sans: 0.636 em a figure)', () => {
  expect(textWidth('0123456789', 12)).toBeGreaterThanOrEqual(10 * 0.636 * 12);
});

test('a text that fits stays whole, a longer one ends in an ellipsis and fits', () => {
  expect(fitText('coil bind', 12, 200)).toBe('coil bind');
  const cut = fitText('least bump travel with two up and luggage', 12, 120);
  expect(cut).toMatch(/^least bump.*…$/);
  expect(textWidth(cut, 12)).toBeLessThanOrEqual(120);
});

import { expect, test } from 'vitest';
import { amountView, gain } from '../../src/compare/winner.ts';

test('a difference is that of the figures as shown, in both worlds', () => {
  // 1 in = 25.4 mm (international yard and pound agreement, 1959).
  expect(amountView('bump', 'length', 56.549, 57.251)).toMatchObject({
    ...{ unit: 'mm', imperialUnit: 'in', changed: true },
    before: { metric: '56.5', imperial: '2.23' },
    after: { metric: '57.3', imperial: '2.25' },
    difference: { metric: '+0.8', imperial: '+0.02' },
  });
});

test('what looks the same is the same, what does not exist has no difference', () => {
  expect(amountView('bump', 'length', 1.01, 1.02)).toMatchObject({ difference: { metric: '=' }, changed: false });
  expect(amountView('bump', 'length', 1, null).difference.metric).toBe('–');
  expect(amountView('bump', 'length', null, undefined).difference.metric).toBe('');
});

test.each([
  ['10\u202f800', '9\u202f800', '\u22121000'],
  ['\u22122.8', '\u22125.5', '\u22122.7'],
  ['\u22121.0', '1.5', '+2.5'],
])('groups of digits and a true minus are read as the numbers they are: %s, %s', (before, after, difference) => {
  expect(gain(before, after)).toBe(difference);
});

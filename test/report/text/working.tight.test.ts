import { expect, test } from 'vitest';
import { PLAIN } from '../../../src/report/text/numbers.ts';
import { tightText } from '../../../src/report/text/working.ts';

const clearance = { contact: 'coil bind', clearance_mm: 12.1, worst_mm: -4.4, measure: 'the rate' };
const seat = (slack_mm: number) => ({
  ...{ contact: 'spring leaving its seat', clearance_mm: 8 - slack_mm, worst_mm: -2, measure: 'the rate' },
  seat: { slack_mm, worst_slack_mm: 10, held_mm: 8 },
});

test('a clearance is told as it is and at worst', () => {
  expect(tightText(clearance, PLAIN)).toBe(
    'coil bind: clearance 12.1 mm (0.48 in) could be -4.4 mm (-0.17 in) at worst.',
  );
});

test('a spring that may leave its seat is told by its looseness, and by what holds it', () => {
  expect(tightText(seat(2.4), PLAIN)).toBe(
    'spring leaving its seat: at full droop 2.4 mm (0.09 in) loose, at worst 10.0 mm (0.39 in) loose; its seats hold 8.0 mm (0.31 in).',
  );
  expect(tightText(seat(-1.5), PLAIN)).toContain('at full droop preloaded by 1.5 mm (0.06 in), at worst 10.0 mm');
});

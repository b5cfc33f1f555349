import fc from 'fast-check';
import { expect, test } from 'vitest';
import { spread, type Wanted } from '../../../src/report/text/textWidth.ts';

const label = fc.record({
  at: fc.double({ min: -20, max: 320, noNaN: true }),
  length: fc.double({ min: 1, max: 40, noNaN: true }),
});
const labels = fc.array(label, { maxLength: 8 }).map((list) => list.sort((a, b) => a.at - b.at));

test('labels keep their order and their distance, and start where they may', () => {
  fc.assert(
    fc.property(labels, (wanted) => {
      const middles = spread(wanted, 5, 0, 300);
      const ends = wanted.map(({ length }, k) => ({
        from: (middles[k] ?? 0) - length / 2,
        to: (middles[k] ?? 0) + length / 2,
      }));
      for (const [k, end] of ends.entries()) {
        expect(end.from).toBeGreaterThanOrEqual(-1e-9);
        const next = ends[k + 1];
        if (next) expect(next.from).toBeGreaterThanOrEqual(end.to + 5 - 1e-9);
      }
      const whole = wanted.reduce((sum, { length }) => sum + length + 5, -5);
      if (whole <= 300) expect(ends.at(-1)?.to ?? 0).toBeLessThanOrEqual(300 + 1e-9);
    }),
    { numRuns: 2000 },
  );
});

test('labels with room stay where they are; two that meet give way by half each', () => {
  const far: Wanted[] = [
    { at: 50, length: 20 },
    { at: 100, length: 20 },
  ];
  expect(spread(far, 5, 0, 300)).toEqual([50, 100]);
  const near: Wanted[] = [
    { at: 100, length: 20 },
    { at: 110, length: 20 },
  ];
  expect(spread(near, 0, 0, 300)).toEqual([95, 115]);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cornerLengths } from '../../../src/report/drawing/lengths.ts';
import { stateLengths } from '../../../src/report/drawing/stateLengths.ts';
import { anyJudged } from './corners.ts';

type Plain = Readonly<Record<string, unknown>>;

/** Every number of a record by its path. */
function numbersOf(record: unknown, path = ''): [string, unknown][] {
  if (record === null || typeof record !== 'object') return [[path, record]];
  return Object.entries(record as Plain).flatMap(([key, value]) => numbersOf(value, `${path}.${key}`));
}

test('the lengths of a judged corner are those read off its record, to the record’s thirteen digits', () => {
  let compared = 0;
  fc.assert(
    fc.property(anyJudged, ({ working, report }) => {
      const ofRecord = Object.fromEntries(numbersOf(cornerLengths(report)));
      const ofState = Object.fromEntries(numbersOf(stateLengths(working.state)));
      for (const [path, value] of Object.entries(ofRecord)) {
        compared += 1;
        const other = ofState[path];
        if (typeof value !== 'number') expect([path, other]).toEqual([path, value]);
        else expect(Math.abs((other as number) - value), path).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
      }
    }),
    { numRuns: 200 },
  );
  expect(compared).toBeGreaterThan(5000);
});

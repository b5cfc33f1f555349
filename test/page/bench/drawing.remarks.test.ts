import { expect, test } from 'vitest';
import type { Finding } from '../../../src/model/corner/findings.ts';
import { remarksAt } from '../../../src/page/bench/drawing.ts';
import type { CornerLayout } from '../../../src/report/drawing/layout.ts';

/** Each place its own height, so that a remark tells which one it stands at. */
const position = {
  ...{ stop: [10, 11], body: [20, 21], seat: 30, spring: [40, 42], nuts: [50, 52], flange: 60, sleeve: [70, 71] },
};
const layout = {
  lengths: { sleeve: { trim: 0, top: 0 }, perch: { seat: 200 }, stop: { meetsAt: 300, diameter: 45 } },
  positions: { full: position },
} as unknown as CornerLayout;
type Failing = readonly [check: string, detail?: string];
const remarks = (...findings: readonly Failing[]) =>
  remarksAt(
    layout,
    { toStop: 5 } as never,
    findings.map(([check, detail = '']) => ({ check, detail }) as Finding),
    { body: 24, springOut: 40, sleeveOut: 28 } as never,
  );
const heights = (...findings: readonly Failing[]) =>
  remarks(...findings)
    .slice(2)
    .map(({ span, text }) => [text, span[0]]);

test.each([
  ['sleeve_over_body', 'sleeve on body', 70],
  ['helper_over_sleeve', 'helper on sleeve', 71],
  ['stop_in_mount', 'stop in mount', 60],
  ['thread_start', 'nut on shank', 51],
])('what does not fit is remarked where it does not: %s', (detail, text, height) => {
  expect(heights(['fit', detail])).toEqual([[text, height]]);
});

test('travels, looseness and stress are remarked at stop, body, seat and spring, each once', () => {
  const found = heights(['bump_travel'], ['droop_travel'], ['spring_loose'], ['overstressed'], ['overstressed']);
  expect(found.map(([, height]) => height)).toEqual([10, 21, 30, 41]);
});

test('a perch out of its range is marked as failing where its length stands', () => {
  const perch = (check: string) => remarks([check])[0]?.emphasis;
  expect(['perch_low', 'perch_high', 'bump_travel'].map(perch)).toEqual(['fail', 'fail', 'plain']);
});

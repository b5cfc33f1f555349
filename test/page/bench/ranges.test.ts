import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Finding } from '../../../src/model/corner/findings.ts';
import { judgedFrequency } from '../../../src/model/corner/rates.ts';
import { AXLE_NAMES } from '../../../src/model/scenario.ts';
import { judge } from '../../../src/page/bench/bench.ts';
import { balanceOf, CONTROLS, perchRange, rangeOf } from '../../../src/page/bench/controls.ts';
import { judgeBench, other } from '../../../src/page/bench/findings.ts';
import { SURE_TO, workableRange } from '../../../src/page/bench/ranges.ts';
import { SCENARIOS } from '../../setup/scenarios.ts';
import { benchWith, recorded } from './records.ts';

const failing = (detail: string): Finding => ({ check: 'fit', detail, found: 0, needed: 1, shortfall: 1 });
const between = (from: number, to: number) => (value: number) =>
  value < from ? failing('low') : value > to ? failing('high') : null;

test('ends are found to a hundredth, inside, with what fails beyond them', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 40, noNaN: true }),
      fc.double({ min: 45, max: 99, noNaN: true }),
      (from, to) => {
        const range = workableRange(between(from, to), 42, 0, 100);
        expect(range?.holdsValue).toBe(true);
        expect(range?.from.value).toBeGreaterThanOrEqual(from);
        expect(range?.from.value).toBeLessThanOrEqual(from + SURE_TO);
        expect(range?.to.value).toBeLessThanOrEqual(to);
        expect(range?.to.value).toBeGreaterThanOrEqual(to - SURE_TO);
        expect([range?.from.limit?.detail, range?.to.limit?.detail]).toEqual(['low', 'high']);
      },
    ),
  );
});

test('what works to the end of the slider ends there, without a limit', () => {
  expect(workableRange(between(-9, 999), 42, 0, 100)).toEqual({
    from: { value: 0, limit: null },
    to: { value: 100, limit: null },
    holdsValue: true,
  });
});

test('from a value that fails the nearest range is found, or none', () => {
  const probe = (value: number) => between(10, 20)(value) && between(70, 80)(value);
  expect(workableRange(probe, 55, 0, 100)?.from.value).toBeCloseTo(70, 1);
  expect(workableRange(probe, 30, 0, 100)).toMatchObject({ holdsValue: false });
  expect(workableRange(probe, 30, 0, 100)?.to.value).toBeCloseTo(20, 1);
  expect(workableRange(between(200, 300), 30, 0, 100)).toBeNull();
});

test.each(SCENARIOS)(
  'in %s everything passes inside each marked range, and the named limit fails beyond it',
  async (name) => {
    const { record } = await recorded(name);
    let ends = 0;
    for (const axle of AXLE_NAMES) {
      const bench = benchWith(record, 1);
      const told = judgeBench(bench, axle);
      const otherFrequency = judgedFrequency(told.judged[other(axle)].state);
      for (const control of CONTROLS.filter(({ id }) => id !== 'perch')) {
        const range = rangeOf(control, bench, axle, told.judged[axle], otherFrequency);
        if (range === null) continue;
        const first = (value: number) => {
          const { state, findings } = judge(control.set(bench, axle, value), axle);
          return [...findings, ...balanceOf(bench, axle, judgedFrequency(state), otherFrequency)][0];
        };
        const { from, to } = range;
        for (let k = 0; k <= 20; k++) expect(first(from.value + (k / 20) * (to.value - from.value))).toBeUndefined();
        for (const [end, way] of [
          [from, -1],
          [to, 1],
        ] as const) {
          if (end.limit === null) continue;
          ends += 1;
          expect(first(end.value + way * 2 * SURE_TO), control.id).toMatchObject({ check: end.limit.check });
        }
      }
    }
    expect(ends).toBeGreaterThan(5);
  },
);

test('a range of heights is the range of perches that hold them', async () => {
  const { record } = await recorded('kit-two-seater');
  const bench = benchWith(record);
  const judged = judge(bench, 'front');
  const height = CONTROLS.find(({ id }) => id === 'height');
  if (height === undefined) throw new Error('Height is a control.');
  const { state } = judgeBench(bench, 'front').judged.rear;
  const heights = rangeOf(height, bench, 'front', judged, judgedFrequency(state));
  const perches = perchRange(heights, judged);
  const held = (perch: number) =>
    judge(
      { ...bench, axles: { ...bench.axles, front: { ...bench.axles.front, held: 'perch', place: perch } } },
      'front',
    );
  expect(held(perches?.from.value ?? 0).state.standing.height).toBeCloseTo(heights?.from.value ?? 1, 8);
  expect(held(perches?.to.value ?? 0).state.standing.height).toBeCloseTo(heights?.to.value ?? 1, 8);
});

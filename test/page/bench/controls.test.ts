import fc from 'fast-check';
import { expect, test } from 'vitest';
import { judgedFrequency } from '../../../src/model/corner/rates.ts';
import { AXLE_NAMES } from '../../../src/model/scenario.ts';
import { judge, withValues } from '../../../src/page/bench/bench.ts';
import { CONTROLS, choicesOf, holdValue, stepLimits } from '../../../src/page/bench/controls.ts';
import { CONTROL } from '../../../src/page/bench/words.ts';
import { SCENARIOS } from '../../setup/scenarios.ts';
import { benchWith, recorded } from './records.ts';

const mm = fc.double({ min: 0, max: 400, noNaN: true });

test('a slider’s steps start from the swept value and hold limits and value', () => {
  fc.assert(
    fc.property(mm, mm, mm, mm, (a, b, value, anchor) => {
      const [least, most] = [Math.min(a, b), Math.max(a, b)];
      const [min, max] = stepLimits([least, most], value, Math.min(most, Math.max(least, anchor)), 0.5);
      const steps = (max - min) / 0.5;
      expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-6);
      expect(min).toBeLessThanOrEqual(Math.min(least, value) + 0.5);
      expect(max).toBeGreaterThanOrEqual(Math.max(most, value) - 0.5);
    }),
  );
  expect(stepLimits([20, 60], 38, 38.1, 0.5)).toEqual([20.1, 59.6]);
});

test.each(SCENARIOS)('each control of %s reads what it set, whichever of height and perch is held', async (name) => {
  const { record } = await recorded(name);
  expect(CONTROLS.map(({ id }) => id)).toEqual(Object.keys(CONTROL));
  for (const axle of AXLE_NAMES) {
    for (const held of ['height', 'perch'] as const) {
      const swept = benchWith(record);
      const bench = holdValue({ ...swept, bumpLoad: swept.bumpLoad ?? 2 }, axle, held, judge(swept, axle));
      for (const control of CONTROLS) {
        const value = control.get(bench, judge(bench, axle)) + control.step;
        const moved = control.set(bench, axle, value);
        expect(Math.abs(control.get(moved, judge(moved, axle)) - value), control.id).toBeLessThan(1e-7);
        expect(moved.axles[axle].held).toBe(held);
      }
    }
  }
});

test('parts to pick from are told with what they would fail', async () => {
  const { record } = await recorded('hill-hatch');
  const bench = benchWith(record);
  const rear = judgedFrequency(judge(bench, 'rear').state);
  const found = choicesOf('spring', bench, 'front', rear);
  expect(found).toHaveLength(record.axles.front.options.spring.length);
  expect(found[bench.axles.front.spring]).toBeNull();
  for (const [k, finding] of found.entries()) {
    const { findings } = judge(withValues(bench, 'front', { spring: k }), 'front');
    if (findings[0]) expect(finding).toEqual(findings[0]);
  }
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cornerAt } from '../../../src/model/corner/options.ts';
import { siteOf } from '../../../src/model/corner/site.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { AXLE_NAMES } from '../../../src/model/scenario.ts';
import { benchOf, cornerOf, judge, withValues } from '../../../src/page/bench/bench.ts';
import { SCENARIOS } from '../../setup/scenarios.ts';
import { benchWith, recorded } from './records.ts';

test.each(SCENARIOS)(
  'as swept, the bench judges each corner of %s as the sweep does, to the last bit',
  async (name) => {
    const { scenario, setup, picked, record } = await recorded(name);
    const read = JSON.parse(JSON.stringify(record)) as typeof record;
    for (const [k, indices] of picked.entries()) {
      for (const axle of AXLE_NAMES) {
        const corner = cornerAt(scenario.axles[axle].options, indices[axle]);
        const swept = cornerState(siteOf(scenario, setup, axle), corner);
        const { state, findings } = judge(benchWith(read, k), axle);
        expect(state).toEqual(swept);
        expect(findings).toEqual([]);
      }
    }
  },
);

test.each(SCENARIOS)('values of %s go into the parts they belong to, and into nothing else', async (name) => {
  const { record } = await recorded(name);
  const bench = benchWith(record);
  const swept = cornerOf(bench, 'front', bench.axles.front);
  const values = { ...bench.axles.front, trim: 12.5, spacer: 4.25, stop: 33.3 };
  const changed = cornerOf(bench, 'front', values);
  const raise = swept.mount.bolted === 'above' ? swept.mount.bareRaise + 4.25 : swept.mount.bareRaise - 4.25;
  expect(changed).toEqual({
    ...swept,
    sleeve: { ...swept.sleeve, trim: 12.5 },
    mount: { ...swept.mount, spacer: 4.25, raise },
    bumpStop: { ...swept.bumpStop, length: 33.3 },
  });
});

test.each(SCENARIOS)('in %s a held perch gives back the height that it was set for', async (name) => {
  const { record } = await recorded(name);
  fc.assert(
    fc.property(fc.constantFrom(...AXLE_NAMES), fc.double({ min: -12, max: 12, noNaN: true }), (axle, up) => {
      const bench = benchWith(record);
      const height = bench.axles[axle].place + up;
      const { standing } = judge(withValues(bench, axle, { place: height }), axle).state;
      const held = judge(withValues(bench, axle, { held: 'perch', place: standing.perch }), axle).state.standing;
      expect(Math.abs(held.height - height)).toBeLessThan(1e-8);
      expect(Math.abs(held.perch - standing.perch)).toBeLessThan(1e-8);
    }),
    { numRuns: 40 },
  );
});

test('a perch held while the corner gets heavier lets the car down, a held height does not', async () => {
  const { record } = await recorded('loaded-estate');
  const bench = benchWith(record);
  const standing = judge(bench, 'rear').state.standing;
  const heavier = { wheelLoad: bench.axles.rear.wheelLoad + 20 };
  const heightHeld = judge(withValues(bench, 'rear', heavier), 'rear').state.standing;
  expect(heightHeld.height).toBe(standing.height);
  expect(heightHeld.perch).toBeGreaterThan(standing.perch + 1);
  const values = { ...heavier, held: 'perch', place: standing.perch } as const;
  expect(judge(withValues(bench, 'rear', values), 'rear').state.standing.height).toBeLessThan(standing.height - 1);
});

test('an id of no shortlist leads to no bench', async () => {
  const { record } = await recorded('hill-hatch');
  const id = record.setups[0]?.starts[1]?.id ?? '';
  expect(benchOf(record, id)?.start.id).toBe(id);
  expect(benchOf(record, 'low-F0-R0-00')).toBeNull();
});

import { expect, test } from 'vitest';
import { loadCasesView } from '../../../src/report/sections/loadCases.ts';
import type { SetupResult } from '../../../src/result/result.ts';

const wheel = (key: string, height: number) => ({
  [`${key}_height_mm`]: height,
  [`${key}_to_stop_mm`]: 12,
  [`${key}_into_stop_mm`]: 0,
  [`${key}_to_droop_mm`]: 48.06,
});
const wheels = ['front_outer', 'front_inner', 'rear_outer', 'rear_inner'];
const values = {
  case_1_roll_deg: 2.345,
  ...Object.assign({}, ...wheels.map((name, k) => wheel(`case_1_${name}`, 300 + k))),
  ...wheel('case_2_front', 285.6),
  ...wheel('case_2_rear', 310),
  case_2_rear_into_stop_mm: 4,
};
const words = { case_2_front_stopped_by: 'coil bind' };
const setup = (more: object) => ({ name: 'low', shortlist: [{ values, words }], ...more }) as unknown as SetupResult;

test('each wheel of a bend, each axle under a multiple, with what stops it and its way to full droop', () => {
  const view = loadCasesView(setup({ load_cases: ['fast bend', '2.5 times the load, slowly'] }));
  const [bend, slow] = view?.cases ?? [];
  expect(bend).toMatchObject({ name: 'fast bend', roll: '2.35' });
  expect(bend?.wheels.map(({ name }) => name)).toEqual(wheels.map((name) => name.replace('_', ' ')));
  expect(bend?.wheels[1]).toMatchObject({
    height: { metric: '301.0' },
    toDroop: { metric: '48.1' },
    stoppedBy: 'held by its springs',
  });
  expect(slow).toMatchObject({ name: '2.5 times the load, slowly', roll: null });
  expect(slow?.wheels.map(({ stoppedBy }) => stoppedBy)).toEqual(['coil bind', 'held by springs and open bump stop']);
});

test('a setup without load cases, or without an answer, has no such table; a pair that nothing stops has no words', () => {
  expect(loadCasesView(setup({}))).toBeNull();
  expect(loadCasesView(setup({ load_cases: ['bend'], shortlist: [] }))).toBeNull();
  const bare = [{ values }] as unknown as SetupResult['shortlist'];
  const view = loadCasesView(setup({ load_cases: ['fast bend'], shortlist: bare }));
  expect(view?.cases[0]?.wheels.every(({ stoppedBy }) => stoppedBy === 'held by its springs')).toBe(true);
  const unsolved = Object.fromEntries(Object.keys(values).map((key) => [key, null]));
  const without = loadCasesView(setup({ load_cases: ['fast bend'], shortlist: [{ values: unsolved }] }));
  expect(without?.cases[0]?.wheels.map(({ stoppedBy }) => stoppedBy)).toEqual(['–', '–', '–', '–']);
});

/** The result's frame: what stands in it only where there is something to say. */

import { expect, test } from 'vitest';
import { type ResultParts, resultOf } from '../../../src/result/records/result.ts';
import { smallScenario } from '../../advice/small.ts';
import { resultSchema } from '../../setup/resultSchema.ts';

const scenario = await smallScenario('hill-hatch', 1);
const made = (change: Partial<ResultParts> = {}) =>
  resultOf({
    ...{ toolVersion: '1.2.3', mode: 'sweep', judged: 10, of: 10, notes: [], scenario, inputs: [], setups: [] },
    plans: null,
    ...change,
  });

test('a whole result says nothing of being incomplete, one that was stopped says how far it came', () => {
  expect(made()).not.toHaveProperty('incomplete');
  expect(made({ judged: 9 }).incomplete).toEqual({ judged: 9, of: 10 });
});

test('notes stand in it where there are any', () => {
  expect(made()).not.toHaveProperty('notes');
  expect(made({ notes: ['one', 'two'] }).notes).toEqual(['one', 'two']);
});

test('it carries the version that its published schema is for, and sums up each axle', () => {
  const { version, tool, scenario: summary } = made();
  expect(version).toBe(resultSchema.properties.version.const);
  expect(tool).toEqual({ name: 'springsift', version: '1.2.3' });
  for (const axle of ['front', 'rear'] as const) {
    const { wheelLoad, unsprungMass, motion } = scenario.axles[axle];
    const told = summary.axles[axle];
    expect(told.combinations).toBe(1);
    expect(told.sprung_mass_kg).toBe(wheelLoad - unsprungMass);
    expect([told.measured_from_mm, told.measured_to_mm]).toEqual([
      motion.pairs[0]?.hubToArch,
      motion.pairs.at(-1)?.hubToArch,
    ]);
  }
});

test('a setup whose sweep was stopped carries no advice, rather than an empty one', () => {
  const [setup] = scenario.setups;
  const swept = { setup, axles: {}, pairs: {}, shortlist: [] };
  const of = (advice: object | null) => made({ setups: [{ ...swept, advice }] as never }).setups[0];
  expect(of(null)).not.toHaveProperty('advice');
  expect(of({ draws: 1 })).toHaveProperty('advice', { draws: 1 });
});

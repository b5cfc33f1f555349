import { expect, test } from 'vitest';
import { measureSheetOf } from '../../src/measure/measure.ts';
import { SweepStopped } from '../../src/pipeline.ts';
import { QUIET_RUN } from '../../src/sweep/sweep.ts';
import { readReal } from '../setup/scenarios.ts';

const read = await readReal('kit-two-seater');

test('a sheet names the best of each setup that has one, and what hangs on each measurement there', async () => {
  const { bests, effects, scenario } = await measureSheetOf(read, 'test');
  const names = read.scenario.setups.map(({ name }) => name);
  expect(scenario).toBe(read.scenario.name);
  expect(bests.map(({ setup }) => setup)).toEqual(names);
  expect(effects.map(({ setup, axle }) => [setup, axle])).toEqual(
    names.flatMap((name) => [
      [name, 'front'],
      [name, 'rear'],
    ]),
  );
});

test('where nothing works the sheet has boxes, but nothing that hangs on them', async () => {
  const setups = read.scenario.setups.map((setup) => {
    const axles = Object.fromEntries(
      Object.entries(setup.axles).map(([axle, target]) => [axle, { ...target, frequencyFrom: 9, frequencyTo: 9.5 }]),
    ) as typeof setup.axles;
    return { ...setup, axles };
  });
  const sheet = await measureSheetOf({ ...read, scenario: { ...read.scenario, setups } }, 'test');
  expect(sheet.bests).toEqual([]);
  expect(sheet.effects).toEqual([]);
  expect(sheet.fields.length).toBeGreaterThan(50);
});

test('a stopped sweep gives no sheet', async () => {
  const run = { ...QUIET_RUN, signal: AbortSignal.abort() };
  await expect(measureSheetOf(read, 'test', run)).rejects.toThrow(SweepStopped);
});

import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { type Audit, adopt, audit, buildOf } from '../../src/audit/audit.ts';
import { auditUnit } from '../../src/audit/fit/audit.ts';
import { type MeasuredUnit, unmeasured } from '../../src/audit/fit/measured.ts';
import { readMeasured } from '../../src/audit/read/readMeasured.ts';
import { formatProblem, readScenario } from '../../src/input/readScenario.ts';
import { diskFiles } from '../../src/input/source/disk.ts';
import { memoryFiles } from '../../src/input/source/files.ts';
import { cornerAt } from '../../src/model/corner/options.ts';
import { siteOf } from '../../src/model/corner/site.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { heightWindow } from '../../src/model/corner/window.ts';
import { fingerprintOf, fromBase32, parsePairId } from '../../src/model/ids.ts';
import { AXLE_NAMES, type AxleName } from '../../src/model/scenario.ts';
import { SCENARIOS, type ScenarioName } from '../setup/scenarios.ts';
import { BUILT, chosen, measuredOn, movedModel, READINGS } from './fit/builds.ts';

const NAME = 'built.yaml';
const path = (name: ScenarioName, file: string) =>
  fileURLToPath(new URL(`../../scenarios/${name}/${file}`, import.meta.url));

type Checked = Awaited<ReturnType<typeof checkedScenario>>;

async function checkedScenario(name: ScenarioName) {
  const read = await readScenario(path(name, 'scenario.yaml'), diskFiles);
  if (!read.ok) throw new Error(name);
  return read;
}

/** The audit of the example that comes with a scenario. */
async function exampleAudit(name: ScenarioName, checked: Checked) {
  const read = await readMeasured(path(name, 'built/measured.yaml'), checked.scenario);
  const done = read.ok && (await audit(checked, read, 'test'));
  if (!done) throw new Error('example');
  return done;
}

async function adoptSound(checked: Checked, done: Audit) {
  const outcome = await adopt(checked, done, NAME);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.fault));
  return outcome;
}

/** An audit of one axle alone, of which only this was measured. */
async function auditOf(name: ScenarioName, axle: AxleName, measured: Partial<MeasuredUnit>): Promise<Audit> {
  const { scenario, model, options } = await chosen(name, axle);
  const unit = auditUnit(scenario, model, options, { ...unmeasured(axle, null), ...measured }, READINGS);
  return { ...(await simulated(name, 5)), units: [unit] };
}

/** An audit of simulated builds of both axles, everything measured. */
async function simulated(name: ScenarioName, seed: number): Promise<Audit> {
  const { scenario } = await checkedScenario(name);
  const { setup, front, rear } = BUILT[name];
  const best = await chosen(name, 'front');
  const other = await chosen(name, 'rear');
  const setupOf = scenario.setups.find((s) => s.name === setup);
  if (!setupOf) throw new Error(setup);
  const units = [best, other].map((build, k) => {
    const axle = AXLE_NAMES[k] as AxleName;
    const unit: MeasuredUnit = measuredOn(movedModel(build, build.model, seed, null), axle, seed + 1);
    return auditUnit(scenario, build.model, build.options, unit, READINGS);
  });
  const corners = { front: best.model.corner, rear: other.model.corner };
  return {
    build: { setup: setupOf, id: { setup, front: fromBase32(front), rear: fromBase32(rear) }, corners },
    units,
    result: {} as Audit['result'],
  };
}

test.each(SCENARIOS)(
  '%s: the adopted scenario checks clean and gives the corrected numbers, for 4 builds',
  async (name) => {
    const checked = await checkedScenario(name);
    for (const seed of [101, 202, 303, 404]) {
      const done = await simulated(name, seed);
      const outcome = await adoptSound(checked, done);
      const parsed = parsePairId(outcome.combination, fingerprintOf(outcome.scenario));
      if (!parsed.ok) throw new Error(outcome.combination);
      for (const { report } of done.units) {
        const { axle, corrected } = report;
        // The simulated units were measured for both sides together: both are judged at the mean of their loads.
        const { wheelLoad } = outcome.scenario.axles[axle];
        const site = siteOf(outcome.scenario, setupNamed(outcome.scenario, done), axle, { wheelLoad });
        const state = cornerState(site, cornerAt(outcome.scenario.axles[axle].options, parsed.id[axle]));
        const window = heightWindow(state);
        expect(state.standing.perch).toBeCloseTo(corrected.perch_mm, 6);
        expect(state.bumpTravel).toBeCloseTo(corrected.bump_travel_mm, 6);
        expect(state.rates.bodyFrequency).toBeCloseTo(corrected.body_frequency_hz ?? 0, 6);
        expect(window?.high.perch).toBeCloseTo(corrected.window?.high.perch_mm ?? Number.NaN, 5);
        state.contacts.forEach((contact, k) => {
          expect(contact.clearance).toBeCloseTo(corrected.clearances[k]?.clearance_mm ?? Number.NaN, 6);
        });
      }
    }
  },
);

function setupNamed({ setups }: Awaited<ReturnType<typeof checkedScenario>>['scenario'], { build }: Audit) {
  const setup = setups.find((s) => s.name === build.setup.name);
  if (!setup) throw new Error(build.setup.name);
  return setup;
}

test('both sides of an axle come together as their mean, each with its own load', async () => {
  const checked = await checkedScenario('hill-hatch');
  const outcome = await adoptSound(checked, await exampleAudit('hill-hatch', checked));
  expect(outcome.scenario.axles.front.wheelLoads).toEqual({ left: 262, right: 266.5 });
  // 281.2 mm on the left, 280.6 mm on the right.
  const row = { file: 'springs.csv', row: 55, spring: 'HS280-34', isNewColumn: false };
  expect(outcome.cells[0]).toEqual({ ...row, column: 'free_length_mm', before: '280', after: '280.9' });
});

test('a catalogue outside the scenario’s folder is told of by the name the scenario has for it', async () => {
  const { files } = await checkedScenario('hill-hatch');
  const moved = files.map(({ path: name, text }) =>
    name === 'springs.csv'
      ? { path: '../springs.csv', text }
      : { path: name, text: text.replaceAll('catalogue: springs.csv', 'catalogue: ../springs.csv') },
  );
  const read = await readScenario('scenario.yaml', memoryFiles(moved, true));
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  const outcome = await adoptSound(read, await exampleAudit('hill-hatch', read));
  expect([...new Set(outcome.cells.map(({ file }) => file))]).toEqual(['../springs.csv']);
});

test('nothing is adopted while something disagrees', async () => {
  const checked = await checkedScenario('loaded-estate');
  const done = await exampleAudit('loaded-estate', checked);
  expect(done.result.units.map((unit) => unit.cause.verdict)).toEqual(['consistent', 'consistent', 'several']);
  expect(done.result.units[2]?.cause.ranked[0]).toMatchObject({ kind: 'other_stop' });
  expect(await adopt(checked, done, NAME)).toEqual({
    ok: false,
    fault: { kind: 'unsettled', units: [{ axle: 'rear', side: null }] },
  });
});

test('the best of a setup is the combination that a sweep puts first', async () => {
  const { scenario } = await checkedScenario('hill-hatch');
  const build = await buildOf(scenario, { kind: 'best', setup: 'low' });
  expect(build?.id).toEqual({ setup: 'low', front: expect.any(Number), rear: expect.any(Number) });
  expect(await buildOf(scenario, { kind: 'id', id: 'low-F1-R1-00' })).toBeNull();
});

test('what serves the other axle too through an anchor is not adopted', async () => {
  const { scenario, files } = await checkedScenario('hill-hatch');
  const text = (files[0]?.text ?? '')
    .replace(
      'name: collar perch, lock_ring: 8 mm, height: 11 mm',
      'name: collar perch, lock_ring: 8 mm, height: &tall 11 mm',
    )
    .replace(/(rear:[\s\S]*?name: collar perch, lock_ring: 8 mm, height: )11 mm/, '$1*tall');
  const read = await readScenario('scenario.yaml', memoryFiles([{ path: 'scenario.yaml', text }, ...files.slice(1)]));
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  expect(read.scenario.axles.rear.options.perch).toEqual(scenario.axles.rear.options.perch);
  const done = await auditOf('hill-hatch', 'front', { lowestPerch: 169.6 });
  expect(await adopt(read, done, NAME)).toEqual({ ok: false, fault: { kind: 'shared', axle: 'rear' } });
});

test('a load found for both sides moves both loads of the scenario', async () => {
  const checked = await checkedScenario('loaded-estate');
  const { wheelLoads } = checked.scenario.axles.rear;
  if (!wheelLoads) throw new Error('the scenario has loads for both sides');
  const wheelLoad = (wheelLoads.left + wheelLoads.right) / 2 + 4;
  const outcome = await adoptSound(checked, await auditOf('loaded-estate', 'rear', { wheelLoad }));
  expect(outcome.scenario.axles.rear.wheelLoads?.left).toBeCloseTo(wheelLoads.left + 4, 9);
  expect(outcome.scenario.axles.rear.wheelLoads?.right).toBeCloseTo(wheelLoads.right + 4, 9);
});

test('a measured free length beside an estimated solid height is adopted, the height estimated anew', async () => {
  const checked = await checkedScenario('kit-two-seater');
  const outcome = await adoptSound(checked, await auditOf('kit-two-seater', 'front', { freeLength: 253 }));
  const [spring] = outcome.scenario.axles.front.options.spring;
  expect(spring).toMatchObject({ freeLength: expect.closeTo(253, 9), solid: { source: 'estimated' } });
});

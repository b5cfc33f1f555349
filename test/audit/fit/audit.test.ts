import { expect, test } from 'vitest';
import { auditUnit } from '../../../src/audit/fit/audit.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { heightWindow } from '../../../src/model/corner/window.ts';
import type { AxleName } from '../../../src/model/scenario.ts';
import type { Model } from '../../../src/result/tolerance/inputs.ts';
import { SCENARIOS, type ScenarioName } from '../../setup/scenarios.ts';
import { type Chosen, chosen, measuredOn, movedModel, READINGS, SNUG_BUILD } from './builds.ts';

/** What the measurements settle: parts measured outright, and one length for each of the others. */
const SETTLED = [
  ...['free_length', 'rate', 'solid_height', 'helper_free_length', 'sleeve_cut', 'stop_length', 'wheel_load'],
  ...['body_length', 'flange_depth', 'perch_height', 'motion_length'],
];
const AXLES: readonly AxleName[] = ['front', 'rear'];
const CASES = SCENARIOS.flatMap((name) => AXLES.map((axle) => [name, axle] as const));

function auditOf(build: Chosen, truth: Model, seed: number, noise: number, axle: AxleName) {
  const unit = measuredOn(truth, axle, seed, noise);
  return auditUnit(build.scenario, build.model, build.options, unit, READINGS);
}

function expectSame(audited: ReturnType<typeof auditOf>, truth: Model) {
  const { corrected } = audited.report;
  const state = cornerState(truth.site, truth.corner);
  const window = heightWindow(state);
  expect(corrected.perch_mm).toBeCloseTo(state.standing.perch, 6);
  expect(corrected.bump_travel_mm).toBeCloseTo(state.bumpTravel, 6);
  expect(corrected.droop_travel_mm).toBeCloseTo(state.droopTravel, 6);
  expect(corrected.body_frequency_hz).toBeCloseTo(state.rates.bodyFrequency, 6);
  expect(corrected.clearances.map((c) => c.clearance_mm)).toHaveLength(state.contacts.length);
  state.contacts.forEach((contact, k) => {
    expect(corrected.clearances[k]?.clearance_mm).toBeCloseTo(contact.clearance, 6);
  });
  expect(corrected.window?.usable).toBe(window?.usable);
  if (!window?.usable) return;
  expect(corrected.window?.low.perch_mm).toBeCloseTo(window.low.perch, 6);
  expect(corrected.window?.high.perch_mm).toBeCloseTo(window.high.perch, 6);
  expect(corrected.window?.low.height_mm).toBeCloseTo(window.low.height, 6);
  expect(corrected.window?.high.height_mm).toBeCloseTo(window.high.height, 6);
}

test.each(CASES)(
  '%s, %s: the corrected numbers of 20 simulated builds (seeds 1 to 20) are those of the model run on the true values',
  async (name, axle) => {
    const build = await chosen(name, axle);
    for (let seed = 1; seed <= 20; seed++) {
      const truth = movedModel(build, build.model, 7919 * seed, SETTLED);
      const audited = auditOf(build, truth, 104729 * seed, 0, axle);
      expect(audited.likeliest.verdict).toBe('consistent');
      expectSame(audited, truth);
    }
  },
);

test('a gap with the spring just snug settles the upper seat, over 20 seeds', async () => {
  const build = await chosen('hill-hatch', 'rear', SNUG_BUILD);
  let read = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const truth = movedModel(build, build.model, 7919 * seed, [...SETTLED, 'ledge_height']);
    const unit = measuredOn(truth, 'rear', 104729 * seed, 0);
    if (unit.snugGaps.length === 0) continue;
    read++;
    const audited = auditUnit(build.scenario, build.model, build.options, unit, READINGS);
    expect(audited.corrected.model.corner.mount.flangeDepth).toBeCloseTo(truth.corner.mount.flangeDepth, 6);
    expectSame(audited, truth);
  }
  expect(read).toBeGreaterThan(10);
});

test('whatever lies between stop and seat, the gap gives the clearance to coil bind of the real unit', async () => {
  const build = await chosen('hill-hatch', 'rear', SNUG_BUILD);
  const unsettled = ['body_length', 'raise', 'flange_depth', 'isolator_thickness', 'free_length', 'stop_length'];
  const truth = movedModel(build, build.model, 3, [...unsettled, 'solid_height']);
  const measured = { ...measuredOn(truth, 'rear', 5, 0), extendedGap: null, sleeveToSeat: null, standing: [] };
  expect(measured.snugGaps.length).toBeGreaterThan(0);
  const audited = auditUnit(build.scenario, build.model, build.options, measured, READINGS);
  const spare = (model: Model, perch: number) => {
    const { contacts, standing } = cornerState(model.site, model.corner);
    const bind = contacts.find((c) => c.name === 'coil_bind');
    // Another perch moves the clearance by as much.
    return (bind?.clearance ?? Number.NaN) + standing.perch - perch;
  };
  expect(spare(audited.corrected.model, 140)).toBeCloseTo(spare(truth, 140), 6);
});

test.each([
  ['wheel_load', { wheelLoad: null }],
  ['rate', { rate: null }],
] as const)('with one of load and rate measured the ride height gives the other: %s', async (name, left) => {
  const build = await chosen('hill-hatch', 'front');
  const truth = movedModel(build, build.model, 11, ['wheel_load', 'rate', 'free_length', 'stop_length']);
  const unit = { ...measuredOn(truth, 'front', 13, 0), ...left };
  const { report, corrected } = auditUnit(build.scenario, build.model, build.options, unit, READINGS);
  expect(report.standing?.blamed).toBe(name);
  expect(report.standing?.alternatives.map((a) => a.parameter)).toEqual(['wheel_load', 'rate', 'motion_offset']);
  expect(corrected.model.site.sprungLoad).toBeCloseTo(truth.site.sprungLoad, 5);
  expect(corrected.model.corner.spring.rate).toBeCloseTo(truth.corner.spring.rate, 7);
});

test('the bench test adds up: spring travel less gap, squeeze and give is what is left', async () => {
  for (const name of SCENARIOS satisfies readonly ScenarioName[]) {
    const build = await chosen(name, 'front');
    const { bench } = auditOf(build, build.model, 1, 0, 'front').report;
    expect(bench.map((b) => b.where).filter((where) => where !== 'highest safe')).toEqual([
      'lowest',
      'target',
      'highest',
    ]);
    for (const b of bench) {
      expect(b.stop_travel_mm).toBeCloseTo(b.gap_mm + b.stop_squeeze_mm, 9);
      expect(b.spare_mm).toBeCloseTo(b.spring_travel_mm - b.stop_travel_mm - b.give_mm, 9);
    }
    const [low, , , high] = bench;
    if (low && high) expect(low.spare_mm - high.spare_mm).toBeCloseTo(high.perch_mm - low.perch_mm, 9);
  }
});

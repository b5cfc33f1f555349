/** Which load each measured unit is held against, and when it is said that the sides differ. */

import { expect, test } from 'vitest';
import { auditAll, NOTES } from '../../../src/audit/fit/audit.ts';
import { type Measured, unmeasured } from '../../../src/audit/fit/measured.ts';
import type { Scenario, SideName } from '../../../src/model/scenario.ts';
import { chosen, READINGS } from './builds.ts';

const build = await chosen('hill-hatch', 'front');
const setup = build.scenario.setups[0] as Scenario['setups'][number];
const { wheelLoad, unsprungMass } = build.scenario.axles.front;

function audited(wheelLoads: Readonly<Record<SideName, number>> | null, side: SideName | null) {
  const front = { ...build.scenario.axles.front, wheelLoads };
  const scenario = { ...build.scenario, axles: { ...build.scenario.axles, front } };
  const unit = { ...unmeasured('front', side), stopLength: build.model.corner.bumpStop.length };
  const corners = { front: build.model.corner, rear: build.model.corner };
  const [found] = auditAll(scenario, setup, corners, { readings: READINGS, units: [unit] } as unknown as Measured);
  if (!found) throw new Error('one unit was measured');
  return { load: found.given.site.sprungMass + unsprungMass, differ: found.report.notes.includes(NOTES.sidesDiffer) };
}
const apart = { left: wheelLoad + 6, right: wheelLoad - 6 };

test('a side is held against its own load, both together against the mean', () => {
  expect(audited(apart, 'left').load).toBeCloseTo(wheelLoad + 6, 9);
  expect(audited(apart, 'right').load).toBeCloseTo(wheelLoad - 6, 9);
  expect(audited(apart, null).load).toBeCloseTo(wheelLoad, 9);
  expect(audited(null, 'left').load).toBeCloseTo(wheelLoad, 9);
});

test('that the sides differ is said only of both together, and only where they do', () => {
  expect(audited(apart, null).differ).toBe(true);
  expect(audited({ left: wheelLoad, right: wheelLoad }, null).differ).toBe(false);
  expect(audited(null, null).differ).toBe(false);
  expect(audited(apart, 'left').differ).toBe(false);
});

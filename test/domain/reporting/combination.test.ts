import { expect, test } from 'vitest';
import type { Corner } from '../../../src/domain/corner/site.ts';
import { combinationOf, workingOf } from '../../../src/domain/reporting/combination.ts';
import { cornerFlags } from '../../../src/domain/reporting/flags.ts';
import type { LoadCase, Scenario, Setup } from '../../../src/domain/scenario.ts';
import { plainCorner, plainSite, plainTarget, stopCurve } from '../../setup/corners.ts';

const weights = { bump_travel: 1, height_coverage: 0, balance: 0, front_frequency: 0, price: 0, clearance: 0 };
const scenario = {
  car: { wheelbase: 2460, pitchInertiaRatio: 0.92, sprungCentreHeight: 545 },
  axles: { front: { roll: null }, rear: { roll: null } },
  ranking: { weights, price: null, goodClearance: null, keep: 1 },
  tolerances: {},
} as unknown as Scenario;
const kerb: LoadCase = { name: 'kerb', kind: 'multiple', factor: { front: 3, rear: 1 } };

function notes(rear: Partial<Corner['spring']>, curve: boolean, loadCases: readonly LoadCase[] = []) {
  const setup = {
    name: 'low',
    loadStates: [],
    loadCases,
    balance: { target: 1, from: 0.5, to: 2 },
    axles: { front: plainTarget, rear: plainTarget },
    frequencyBasis: 'body',
  } as unknown as Setup;
  const bumpStop = { ...plainCorner().bumpStop, curve: curve ? stopCurve : null };
  const spring = { ...plainCorner().spring, ...rear };
  const workings = {
    front: workingOf(plainSite(), plainCorner({ bumpStop })),
    rear: workingOf(plainSite({ axle: 'rear' }), plainCorner({ bumpStop, spring })),
  };
  const made = combinationOf({ scenario, setup, indices: { front: 0, rear: 0 }, workings }, 2, '1a2b3c4d');
  return made.flags.map((flag) => flag.message).join('\n');
}

test('how the pair stands to Olley’s criterion is said as information, marked as from memory', () => {
  // Wheel rates 34.8 and 52.7 N/mm in series with a tyre of 190 N/mm: 29.4 and 41.2, which is 29 % below.
  expect(notes({ rate: 58 }, true)).toMatch(
    /^Olley’s criterion .*\(from memory, information only\): the front ride rate is 29 % below the rear’s/,
  );
  expect(notes({ rate: 30 }, true)).toMatch(/the front ride rate is \d+ % above the rear’s/);
});

test('a load case that reaches a stop of unknown force says that it ends at the closed stop', () => {
  expect(notes({}, false, [kerb])).toMatch(/Front: the bump stop has no force curve/);
  expect(notes({}, false, [kerb])).not.toMatch(/Rear: the bump stop/);
  expect(notes({}, true, [kerb])).not.toMatch(/no force curve/);
  expect(notes({}, false)).not.toMatch(/no force curve/);
});

test('a measured curve or a formula outside its range is marked as such, other flags are not', () => {
  const wire = { diameter: 11, activeCoils: 5, totalCoils: 7, material: 'chrome_silicon', estimated: false };
  const spring = { ...plainCorner().spring, wire };
  const topics = (site = plainSite(), corner = plainCorner()) =>
    cornerFlags(workingOf(site, corner)).map(({ kind, topic }) => `${kind} ${topic ?? ''}`.trim());
  expect(topics()).toContain('warning range');
  const droop = plainSite({
    lowestWheelHeight: 380,
    tyreOnArchHeight: 240,
    target: { ...plainTarget, targetHeight: 332 },
  });
  const high = plainCorner({ bumpStop: { ...plainCorner().bumpStop, length: 60, closedFraction: 0.7 } });
  expect(topics(droop, high)).not.toContain('warning range');
  expect(topics(droop, { ...high, spring })).toContain('note range');
});

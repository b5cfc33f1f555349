/** What a corner or a pair does not have is null, not a number: tables, columns and formulas leave it out. */

import { evaluate } from 'mathjs';
import { expect, test } from 'vitest';
import type { Corner } from '../../../src/model/corner/site.ts';
import type { LoadCase } from '../../../src/model/scenario.ts';
import { cornerQuantities } from '../../../src/result/quantities/corner.ts';
import { pairQuantities } from '../../../src/result/quantities/pair.ts';
import { keyOf, valuesOf } from '../../../src/result/quantities/quantity.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import { EXPRESSION_CONSTANTS, workingLines } from '../../../src/result/records/explain.ts';
import {
  type CornerChange,
  plainCorner,
  plainPair,
  plainScenario,
  plainSite,
  plainWire,
  type SiteChange,
  stopCurve,
} from '../../setup/corners.ts';

const base = plainCorner();
const quantities = cornerQuantities([]);
const valuesWith = (corner: CornerChange, site: SiteChange = {}) =>
  valuesOf(quantities, workingOf(plainSite(site), plainCorner(corner)));

test('a key is the stem with its unit, or the bare stem where there is none', () => {
  expect(keyOf({ id: 'bump_travel', dimension: 'length' })).toBe('bump_travel_mm');
  expect(keyOf({ id: 'motion_ratio', dimension: 'ratio' })).toBe('motion_ratio');
});

test('what is not there is null for every reader, nothing else', () => {
  const bare = plainCorner({ isolator: null });
  const { window, ...state } = { ...workingOf(plainSite(), bare) };
  for (const working of [
    { ...state, window },
    { ...state, window: null },
  ]) {
    for (const { id, read } of cornerQuantities([], 1460)) {
      const value = read(working);
      expect(value === null || typeof value === 'number', id).toBe(true);
    }
  }
});

test('a corner without a stable window has no ends of one, and covers nothing of the wish', () => {
  const working = { ...workingOf(plainSite(), base), window: null };
  const values = valuesOf(quantities, working);
  for (const key of ['lowest_height_mm', 'highest_height_mm', 'lowest_perch_mm', 'highest_perch_mm'] as const) {
    expect(values[key], key).toBeNull();
  }
  expect([values.gap_lowest_mm, values.gap_highest_mm, values.height_coverage_pct]).toEqual([null, null, 0]);
});

test('both modes of the quarter car: their squares add and multiply up to what the masses and rates say', () => {
  const values = valuesWith({});
  const squares = [values.first_mode_hz, values.second_mode_hz].map((f) => (2 * Math.PI * (f ?? Number.NaN)) ** 2);
  const [first = 0, second = 0] = squares;
  const wheel = values.wheel_rate_n_per_mm ?? Number.NaN;
  // Characteristic polynomial of 237 kg on the wheel rate on 31 kg on a tyre of 190 N/mm.
  expect((first * second) / ((1000 * wheel * 1000 * 190) / (237 * 31))).toBeCloseTo(1, 9);
  expect((first + second) / ((1000 * wheel) / 237 + (1000 * (wheel + 190)) / 31)).toBeCloseTo(1, 9);
  expect(second).toBeGreaterThan(first);
  // A turn of 2 mm lifts the car by twice what a millimetre does.
  expect(values.height_per_turn_mm).toBeCloseTo(2 * (values.height_per_perch ?? Number.NaN), 9);
  expect(values.height_per_perch).toBeCloseTo((38 * (values.motion_ratio ?? Number.NaN)) / wheel, 9);
});

test('a corner without a stable height has neither modes nor damping ratio nor height per turn', () => {
  const working = workingOf(plainSite(), base);
  const rates = { ...working.state.rates, wheel: -3, settledWheel: -3 };
  const values = valuesOf(quantities, { ...working, state: { ...working.state, rates } });
  const missing = [
    'first_mode_hz',
    'second_mode_hz',
    'height_per_perch',
    'height_per_turn_mm',
    'damping_ratio',
  ] as const;
  for (const key of missing) expect(values[key], key).toBeNull();
  // Nor has one whose rate is just 0: a turn of its collar would lift it without end.
  const still = { ...working, state: { ...working.state, rates: { ...rates, wheel: 0, settledWheel: 0 } } };
  for (const id of ['height_per_perch', 'height_per_turn', 'first_mode', 'damping_ratio']) {
    expect(quantities.find((quantity) => quantity.id === id)?.read(still), id).toBeNull();
  }
});

test('a damper’s gas is told by its pushes where they are given, the outer one for both where only it is', () => {
  const gas = (damper: Corner['damper']['gas']) => {
    const found = quantities.filter(({ id }) => /^gas_(?:out|in)/.test(id));
    return valuesOf(found, workingOf(plainSite(), plainCorner({ damper: { gas: damper } })));
  };
  expect(Object.values(gas({ kind: 'linear', outForce: 160, inForce: 215 }))).toEqual([160, 215]);
  expect(Object.values(gas({ kind: 'linear', outForce: 160, inForce: null }))).toEqual([160, 160]);
  expect(Object.values(gas({ kind: 'none' }))).toEqual([null, null]);
});

test('stress is told where a wire is known or estimated, at solid against 0.56 and at full bump against 0.50 of its strength', () => {
  const known = valuesWith({ spring: { wire: plainWire } });
  // Shigley's Table 10-4 (from memory): 1974 MPa mm^0.108 over d^0.108.
  expect(known.stress_solid_allowed_mpa).toBeCloseTo(0.56 * (1974 / 9 ** 0.108), 0);
  // Older DIN 2089 (from memory) for a working length.
  expect(known.stress_allowed_mpa).toBeCloseTo(0.5 * (1974 / 9 ** 0.108), 0);
  expect(known.stress_full_mpa).toBeGreaterThan(300);
  expect(known.stress_range_mpa).toBeGreaterThan(0);
  // An estimate was made from its stress: told as information, never a verdict.
  const guessed = valuesWith({ spring: { wire: { ...plainWire, estimated: true } } });
  expect(guessed.stress_full_mpa).toBe(known.stress_full_mpa);
  const bare = valuesWith({ spring: { wire: null } });
  for (const key of [
    'stress_solid_allowed',
    'stress_full',
    'stress_allowed',
    'stress_range',
    'stress_full_corrected',
  ] as const) {
    expect(bare[`${key}_mpa`], key).toBeNull();
  }
  expect(bare.gaps_beyond_least_mm).toBeNull();
});

test('a coupler is there only between a helper and the main spring', () => {
  expect(valuesWith({ helper: { couplerBore: 61 } }).coupler_bore_mm).toBe(61);
  expect(valuesWith({ helper: { coupler: 0 } }).coupler_bore_mm).toBeNull();
  expect(valuesWith({}).coupler_bore_mm).toBeNull();
});

test('a rate that was worked out from wire and coils says so', () => {
  const rateEstimated = (estimated: boolean) => {
    const spring = { rateEstimated: estimated };
    const lines = workingLines(quantities, workingOf(plainSite(), plainCorner({ spring })));
    return lines.find(({ symbol }) => symbol === 'k')?.source;
  };
  expect(rateEstimated(true)).toBe('estimated from wire, coils and bore');
  expect(rateEstimated(false)).toBe('given');
});

test('the force at which a stop is closed is given, or read from its curve', () => {
  const sourceOf = (bumpStop: Partial<typeof base.bumpStop>) => {
    const corner = plainCorner({ bumpStop: { ...bumpStop } });
    const lines = workingLines(quantities, workingOf(plainSite(), corner));
    return lines.find(({ symbol }) => symbol === 'F_closed')?.source;
  };
  expect(sourceOf({ closedAtForce: 900 })).toBe('given');
  expect(sourceOf({ closedAtForce: null, curve: stopCurve })).toBe('force curve of the stop, scaled by strain');
  expect(sourceOf({ closedAtForce: null, curve: null })).toBeUndefined();
});

test('metal that no usual part meets has its formula as well: bores too tight for sleeve and body', () => {
  const mount = { bore: 45, spigot: 2 };
  const isolator = { name: 'isolator', price: null, thickness: 6, bore: 45, spigot: 3 };
  const lines = workingLines(quantities, workingOf(plainSite(), plainCorner({ mount, isolator })));
  const scope = { ...EXPRESSION_CONSTANTS, ...Object.fromEntries(lines.map((line) => [line.symbol, line.value])) };
  for (const name of ['sleeve_isolator', 'sleeve_flange', 'body_isolator', 'body_flange']) {
    const line = lines.find(({ symbol }) => symbol === `l_${name}`);
    expect(evaluate(line?.expression ?? 'NaN', { ...scope }), name).toBeCloseTo(line?.value ?? Number.NaN, 9);
  }
});

const loadCases: LoadCase[] = [
  { name: 'kerb', kind: 'multiple', factor: { front: 2, rear: 2 } },
  { name: 'bend', kind: 'cornering', lateral: 0.5 },
];

function pairValues(roll: boolean, sprungCentreHeight: number | null) {
  const axle = { roll: roll ? { track: 1460, rollCentreHeight: 60, barRate: 6 } : null };
  const given = { car: { ...plainScenario().car, sprungCentreHeight }, axles: { front: axle, rear: axle } };
  const { scenario, setup, workings } = plainPair(base, base, { setup: { loadCases }, scenario: given });
  return valuesOf(pairQuantities(setup), { scenario, ...workings });
}

test('a bend has no numbers where the car’s roll is not described, a multiple of the load has', () => {
  const bend = (values: Record<string, number | null>) =>
    Object.entries(values).flatMap(([key, value]) => (key.startsWith('case_2_') ? [value] : []));
  expect(bend(pairValues(true, 540)).filter((value) => value === null)).toEqual([]);
  expect(bend(pairValues(false, 540)).filter((value) => value !== null)).toEqual([]);
  expect(bend(pairValues(true, null)).filter((value) => value !== null)).toEqual([]);
  expect(pairValues(false, null).case_1_front_height_mm).not.toBeNull();
});

test('the speed at which front and rear fall in step is told only where some damping is unknown or below 0.2', () => {
  const speed = (front: number | null, rear: number | null) => {
    const damper = (force: number | null): CornerChange['damper'] => ({
      forceVelocity: force === null ? null : [{ velocity: 0.1, bump: force, rebound: force }],
    });
    const slower = plainCorner({ damper: damper(front) });
    const { scenario, setup, workings } = plainPair(
      slower,
      plainCorner({ damper: damper(rear), spring: { rate: 50 } }),
    );
    return valuesOf(pairQuantities(setup), { scenario, ...workings }).in_step_speed_km_per_h;
  };
  // zeta = c MR^2 / (2 sqrt(1000 k_w m)): 35 N/mm and 237 kg make 2 sqrt(..) = 5760, so 120 N at 0.1 m/s are 0.19, 400 N 0.6.
  expect(speed(null, null)).toBeGreaterThan(20);
  expect(speed(400, 400)).toBeNull();
  expect(speed(400, null)).toBeGreaterThan(20);
  expect(speed(120, 400)).toBeGreaterThan(20);
});

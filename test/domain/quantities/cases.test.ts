/** The rows of load cases, on corners without gas and with straight motions: no stop is met. */
import { describe, expect, test } from 'vitest';
import { motionCurve } from '../../../src/domain/motion.ts';
import { caseQuantities } from '../../../src/domain/quantities/cases.ts';
import { type PairWorking, valuesOf } from '../../../src/domain/quantities/quantity.ts';
import { workingOf } from '../../../src/domain/reporting/combination.ts';
import type { LoadCase, Scenario } from '../../../src/domain/scenario.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

const RATIO = 0.945;
const LOAD = 237 * 9.80665;
const motion = motionCurve({ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: RATIO });
const roll = { track: 1460, rollCentreHeight: 60, barRate: 6 };
const corner = plainCorner({ damper: { ...plainCorner().damper, gas: { kind: 'none' } } });

interface Given {
  readonly sprungCentreHeight?: number | null;
  readonly front?: typeof roll | null;
  readonly rear?: typeof roll | null;
}

function pairWith({ sprungCentreHeight = 540, front = roll, rear = roll }: Given = {}): PairWorking {
  const scenario = { car: { sprungCentreHeight }, axles: { front: { roll: front }, rear: { roll: rear } } };
  const working = (axle: 'front' | 'rear') => workingOf(plainSite({ axle, motion }), corner);
  return { scenario: scenario as unknown as Scenario, front: working('front'), rear: working('rear') };
}

const bend: LoadCase = { name: 'bend', kind: 'cornering', lateral: 0.3 };
const dip: LoadCase = { name: 'dip', kind: 'multiple', factor: { front: 1.2, rear: 1 } };

describe('a bend', () => {
  const rows = caseQuantities([bend]);

  test.each([
    ['the height of the centre of mass', { sprungCentreHeight: null }],
    ['the front axle’s roll data', { front: null }],
    ['the rear axle’s roll data', { rear: null }],
  ] as const)('without %s has no numbers', (_, given) => {
    const values = Object.values(valuesOf(rows, pairWith(given)));
    expect(values).toHaveLength(30);
    expect(values.every((value) => value === null)).toBe(true);
  });

  test('rolls as hand arithmetic says, and each side goes as far as the roll takes it', () => {
    const values = valuesOf(rows, pairWith());
    // k_w = 38 x 0.945^2; an axle's K = (k_w / 2 + 6) t^2; W = 4 x 237 kg x g; h = 540 - 60.
    const stiffness = 2 * ((38 * RATIO ** 2) / 2 + 6) * 1460 ** 2;
    const arm = 4 * LOAD * 480;
    const angle = (0.3 * arm) / (stiffness - arm);
    expect(values.case_1_roll_deg).toBeCloseTo((angle * 180) / Math.PI, 8);
    expect(values.case_1_roll_small_deg).toBeCloseTo((angle * 180) / Math.PI, 8);
    // Half a track out the wheel goes t/2 times the angle; 332 mm is the target.
    expect(values.case_1_front_outer_height_mm).toBeCloseTo(332 - 730 * angle, 6);
    expect(values.case_1_rear_inner_height_mm).toBeCloseTo(332 + 730 * angle, 6);
    expect(values.case_1_front_outer_length_mm).toBeCloseTo(409.5 + RATIO * (332 - 730 * angle - 335), 6);
    // The spring's share: k_w times that travel; the bar's: its rate at the wheel times the travel of both.
    expect(values.case_1_front_spring_share_n).toBeCloseTo(38 * RATIO ** 2 * 730 * angle, 6);
    expect(values.case_1_rear_bar_share_n).toBeCloseTo(6 * 1460 * angle, 6);
    expect(values.case_1_rear_centre_share_n).toBeCloseTo((2 * LOAD * 0.3 * 60) / 1460, 6);
    expect(values.case_1_front_jacking_mm).toBeCloseTo(0, 7);
    expect(values.case_1_front_outer_into_stop_mm).toBe(0);
  });

  test('is solved for the pair that is asked about, not for the one before', () => {
    const free = pairWith({ front: { ...roll, barRate: 0 }, rear: { ...roll, barRate: 0 } });
    const [stiff, soft, again] = [pairWith(), free, pairWith()].map(
      (pair) => valuesOf(rows, pair).case_1_roll_deg ?? 0,
    );
    expect(soft).toBeGreaterThan(stiff as number);
    expect(again).toBe(stiff);
  });
});

test('a multiple squeezes the spring by what it adds to the load, and cases are numbered in their order', () => {
  const values = valuesOf(caseQuantities([bend, dip]), pairWith());
  const travel = (0.2 * LOAD) / (38 * RATIO ** 2);
  expect(values.case_2_front_height_mm).toBeCloseTo(332 - travel, 6);
  expect(values.case_2_front_length_mm).toBeCloseTo(409.5 + RATIO * (332 - travel - 335), 6);
  expect(values.case_2_rear_height_mm).toBeCloseTo(332, 6);
  const left = (key: 'front' | 'rear') => values[`case_2_${key}_to_stop_mm`] ?? Number.NaN;
  expect(left('rear') - left('front')).toBeCloseTo(travel, 6);
  expect(values.case_1_roll_deg).not.toBeNull();
  expect(values.case_2_roll_deg).toBeUndefined();
});

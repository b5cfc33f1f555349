import { describe, expect, test } from 'vitest';
import type { Corner } from '../../../src/model/corner/site.ts';
import type { LoadCase, Scenario } from '../../../src/model/scenario.ts';
import { caseQuantities, PAIR } from '../../../src/result/quantities/pair.ts';
import { type PairWorking, valuesOf } from '../../../src/result/quantities/quantity.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import { plainCorner, plainSite, straightMotion } from '../../setup/corners.ts';

const car = { wheelbase: 2460, pitchInertiaRatio: 0.81, sprungCentreHeight: 545 };
const scenario = { car } as unknown as Scenario;

function valuesWith(front: Corner, rear: Corner) {
  const workings = { front: workingOf(plainSite(), front), rear: workingOf(plainSite({ axle: 'rear' }), rear) };
  return valuesOf(PAIR, { scenario, ...workings });
}

test('front and rear alike: bounce is the body’s own frequency, pitch faster by the inertia ratio, by hand', () => {
  const values = valuesWith(plainCorner(), plainCorner());
  // a = b = l/2 and equal rates: no coupling. Bounce: 2 k/m as each corner; pitch: k^2 = 0.81 a b, so f_b / sqrt(0.81).
  expect(values.bounce_frequency_hz).toBeCloseTo(values.front_frequency_hz ?? Number.NaN, 9);
  expect(values.pitch_frequency_hz).toBeCloseTo((values.front_frequency_hz ?? Number.NaN) / 0.9, 9);
  expect(values.bounce_over_pitch).toBeCloseTo(0.9, 9);
  expect(values.frequency_ratio).toBe(1);
  expect(values.ride_rate_below_pct).toBeCloseTo(0, 9);
});

test('the price is that of two corners an axle, and there is none as soon as one part has none', () => {
  const corner = plainCorner();
  const priced = (price: number | null) =>
    Object.fromEntries(
      Object.entries(corner).map(([family, part]) => [family, part && { ...part, price }]),
    ) as unknown as Corner;
  // Seven parts a corner.
  expect(valuesWith(priced(10), priced(20)).price_total).toBe(2 * (70 + 140));
  expect(valuesWith(priced(10), priced(null)).price_total).toBeNull();
  expect(valuesWith(priced(null), priced(10)).price_total).toBeNull();
});

/** The rows of load cases, on corners without gas and with straight motions: no stop is met. */

const RATIO = 0.945;
const LOAD = 237 * 9.80665;
const motion = straightMotion;
const roll = { track: 1460, rollCentreHeight: 60, barRate: 6 };
const corner = plainCorner({ damper: { gas: { kind: 'none' } } });

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

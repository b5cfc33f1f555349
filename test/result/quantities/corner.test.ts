import { expect, test } from 'vitest';
import { BENCH, loadQuantities } from '../../../src/result/quantities/corner.ts';
import { valuesOf } from '../../../src/result/quantities/quantity.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import { type CornerChange, plainCorner, plainSite, stopCurve, straightMotion } from '../../setup/corners.ts';

const site = plainSite({ tyreOnArchHeight: 240, target: { allowedSlack: 8 } });

function valuesWith(change: CornerChange) {
  const working = workingOf(site, plainCorner(change));
  return { working, values: valuesOf(BENCH, working) };
}

test('cuts, turns and the bench test follow from the perch by hand arithmetic', () => {
  const { working, values } = valuesWith({});
  const { perch, length } = working.state.standing;
  // The lowest seat is 160 + 8 + 11 = 179; upper seat 24 below the shoulder, free length 220, stop met at 318 + 38.
  expect(values.sleeve_left_mm).toBe(140 - 15);
  expect(values.thread_below_mm).toBeCloseTo(perch - 179, 9);
  expect(values.collar_turns).toBeCloseTo((perch - 179) / 2, 9);
  expect(values.length_snug_mm).toBeCloseTo(perch + 244, 9);
  expect(values.bench_slack_mm).toBeCloseTo(474 - (perch + 244), 9);
  expect(values.seats_out_mm).toBeCloseTo(474 - 24 - perch, 9);
  expect(values.gap_out_mm).toBe(474 - 356);
  expect(values.gap_snug_mm).toBeCloseTo(perch + 244 - 356, 9);
  // Loose by the 8 allowed the seat is at 474 - 8 - 244 = 222; coil bind allows 333.2 - 24 - 76 - 2 - 6 = 225.2.
  expect(values.gap_lowest_mm).toBeCloseTo(222 + 244 - 356, 6);
  expect(values.gap_highest_mm).toBeCloseTo(225.2 + 244 - 356, 6);
  expect(values.block_load_n).toBeCloseTo(38 * (220 - 76), 6);
  expect(values.stroke_used_pct).toBeCloseTo((100 * (474 - length)) / (474 - 320), 9);
});

test('what metal keeps clear with the stop closed is what it keeps at full bump less what the stop still gives', () => {
  // Under twice the load the stop of this curve is not closed: 0.4 x 38 of it would be left.
  const curved = plainCorner({ bumpStop: { curve: stopCurve } });
  const working = workingOf({ ...site, bump: { kind: 'load', multiple: 2 } }, curved);
  const values = valuesOf(BENCH, working);
  const { contacts, full } = working.state;
  const closed = 318 + 0.4 * 38;
  expect(full.length).toBeGreaterThan(closed + 1);
  const metal = contacts.filter(({ name }) => name !== 'coil_bind').map(({ clearance }) => clearance);
  expect(values.closed_metal_clearance_mm).toBeCloseTo(Math.min(...metal) - (full.length - closed), 9);
});

test('without a thread pitch there are no collar turns', () => {
  expect(valuesWith({ sleeve: { threadPitch: null } }).values.collar_turns).toBeNull();
});

test('load states are numbered in their order; each stands lower by its load over the wheel rate', () => {
  const motion = straightMotion;
  const loads = [20, -40].map((kg, k) => {
    return { name: `state ${k + 1}`, sprungMass: 237 + kg, sprungLoad: (237 + kg) * 9.80665 };
  });
  const corner = plainCorner({ damper: { gas: { kind: 'none' } } });
  const working = workingOf(plainSite({ motion, loads }), corner);
  const values = valuesOf(loadQuantities(['two up', 'empty']), working);
  const wheel = 38 * 0.945 ** 2;
  const lower = (20 * 9.80665) / wheel;
  expect(Object.keys(values)).toHaveLength(8);
  expect(values.load_1_height_mm).toBeCloseTo(332 - lower, 6);
  expect(values.load_2_height_mm).toBeCloseTo(332 + 2 * lower, 6);
  expect(values.load_1_bump_travel_mm).toBeCloseTo(working.state.bumpTravel - lower, 6);
  expect(values.load_1_droop_travel_mm).toBeCloseTo(working.state.droopTravel + lower, 6);
  expect(values.load_2_frequency_hz).toBeCloseTo(Math.sqrt((1000 * wheel) / 197) / (2 * Math.PI), 9);
});

/** Straight margins against the margins of the whole model: with a straight motion and no gas nearly all are straight. */
import { describe, expect, test } from 'vitest';
import { CHANGES, STEP } from '../../../src/domain/advice/changes.ts';
import { marginsOf } from '../../../src/domain/advice/margins.ts';
import type { Box, Point } from '../../../src/domain/advice/polygon.ts';
import { changedTo, Listing, type Pair, type StraightMargin, straightAt } from '../../../src/domain/advice/straight.ts';
import { lightState } from '../../../src/domain/advice/verdict.ts';
import { motionCurve } from '../../../src/domain/motion.ts';
import { plainCorner, plainSite, plainTarget } from '../../setup/corners.ts';

const RATIO = 0.945;
const motion = motionCurve({ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: RATIO });
const site = plainSite({ motion, tyreOnArchHeight: 225, target: { ...plainTarget, allowedSlack: 8 } });
const corner = plainCorner({ damper: { ...plainCorner().damper, gas: { kind: 'none' } } });
const byKind = (kind: string) => CHANGES.find((change) => change.kind === kind) as (typeof CHANGES)[number];
const pair: Pair = [byKind('stop'), byKind('trim')];
const start: Point = [38, 15];
const box: Box = [
  [20, 60],
  [0, 60],
];

const marginsAt = (at: Point) => marginsOf(lightState(site, changedTo(corner, pair, at)));
const sideOf = (margins: readonly StraightMargin[], name: string) =>
  margins.find((margin) => margin.name === name)?.side ?? [Number.NaN, Number.NaN, Number.NaN];

test('both changes are set, each on its own part', () => {
  const changed = changedTo(corner, pair, [30, 20]);
  expect([changed.bumpStop.length, changed.sleeve.trim]).toEqual([30, 20]);
});

describe('a margin as a straight line of both changes', () => {
  const margins = straightAt(site, corner, pair, start, box);

  test('bump travel falls by 1/MR for every millimetre of stop, and knows nothing of the sleeve', () => {
    const [a, b, c] = sideOf(margins, 'bump');
    expect(a).toBeCloseTo(-1 / RATIO, 9);
    expect(b).toBeCloseTo(0, 9);
    // 332 mm of height; the stop is met at 318 + 38 = 356 mm, 335 - 53.5 / 0.945 high; 35 mm are asked for.
    expect(a * 38 + b * 15 + c).toBeCloseTo(332 - (335 - (409.5 - 356) / RATIO) - 35, 9);
  });

  test('the perch’s room below the sleeve top falls by a millimetre for every one cut off', () => {
    const [a, b] = sideOf(margins, 'perch_high');
    expect([a, b]).toEqual([expect.closeTo(0, 9), expect.closeTo(-1, 9)]);
  });

  test('gives the margins of the model where they are straight: at the point, a step away and far off', () => {
    for (const at of [start, [38.5, 15], [38, 15.5], [45, 30], [25, 5]] as const) {
      const found = marginsAt(at);
      for (const name of ['bump', 'droop', 'perch_high', 'perch_low', 'slack']) {
        const [a, b, c] = sideOf(margins, name);
        const value = found.find((margin) => margin.name === name)?.value ?? Number.NaN;
        expect(a * at[0] + b * at[1] + c, `${name} at ${at.join()}`).toBeCloseTo(value, 7);
      }
    }
  });

  test('is the same read at the limits, where only a step back is within them', () => {
    for (const at of [
      [60, 60],
      [20, 0],
      [59.75, 59.75],
    ] as const) {
      const [a, b] = sideOf(straightAt(site, corner, pair, at, box), 'bump');
      expect([a, b]).toEqual([expect.closeTo(-1 / RATIO, 9), expect.closeTo(0, 9)]);
    }
    expect(STEP).toBe(0.5);
  });
});

test('a listed combination has the same straight margins, read once for all pairs', () => {
  const listing = new Listing(site, corner);
  expect(listing.straightIn(pair)).toEqual(straightAt(site, corner, pair, start, box));
  const other: Pair = [byKind('stop'), byKind('groove')];
  const limits: Box = [
    [20, 60],
    [0, 30],
  ];
  expect(listing.straightIn(other)).toEqual(straightAt(site, corner, other, [38, 0], limits));
  // As long as it was bought the stop can only become shorter.
  const uncut = { ...corner, bumpStop: { ...corner.bumpStop, length: 60 } };
  const [a] = sideOf(new Listing(site, uncut).straightIn(pair), 'bump');
  expect(a).toBeCloseTo(-1 / RATIO, 9);
});

/** Straight margins against the margins of the whole model: with a straight motion and no gas nearly all are straight. */

import { describe, expect, test } from 'vitest';
import { CHANGES, STEP } from '../../src/advice/changes.ts';
import {
  type Box,
  changeTo,
  listingOf,
  type Pair,
  type Point,
  type StraightMargin,
  straightAt,
} from '../../src/advice/straight.ts';
import { marginsOf } from '../../src/model/corner/findings.ts';
import { lightState } from '../../src/model/corner/verdict.ts';
import { motionCurve } from '../../src/model/motion.ts';
import { plainCorner, plainSite, plainTarget } from '../setup/corners.ts';

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

const marginsAt = (at: Point) => marginsOf(lightState(site, changeTo(corner, pair, at)));
const BUMP_AND_DROOP = ['bump_travel design load', 'droop_travel design load'];
const nameOf = ({ check, detail }: Pick<StraightMargin, 'check' | 'detail'>) => `${check} ${detail}`;
const sideOf = (margins: readonly StraightMargin[], name: string) =>
  margins.find((margin) => nameOf(margin) === name)?.side ?? [Number.NaN, Number.NaN, Number.NaN];

test('both changes are set, each on its own part', () => {
  const changed = changeTo(corner, pair, [30, 20]);
  expect([changed.bumpStop.length, changed.sleeve.trim]).toEqual([30, 20]);
});

describe('a margin as a straight line of both changes', () => {
  const margins = straightAt(site, corner, pair, start, box);

  test('bump travel falls by 1/MR for every millimetre of stop, and knows nothing of the sleeve', () => {
    const [a, b, c] = sideOf(margins, 'bump_travel design load');
    expect(a).toBeCloseTo(-1 / RATIO, 9);
    expect(b).toBeCloseTo(0, 9);
    // 332 mm of height; the stop is met at 318 + 38 = 356 mm, 335 - 53.5 / 0.945 high; 35 mm are asked for.
    expect(a * 38 + b * 15 + c).toBeCloseTo(332 - (335 - (409.5 - 356) / RATIO) - 35, 9);
  });

  test('the perch’s room below the sleeve top falls by a millimetre for every one cut off', () => {
    const [a, b] = sideOf(margins, 'perch_high highest');
    expect([a, b]).toEqual([expect.closeTo(0, 9), expect.closeTo(-1, 9)]);
  });

  test('gives the margins of the model where they are straight: at the point, a step away and far off', () => {
    for (const at of [start, [38.5, 15], [38, 15.5], [45, 30], [25, 5]] as const) {
      const found = marginsAt(at);
      for (const name of [...BUMP_AND_DROOP, 'perch_high highest', 'perch_low lowest', 'spring_loose allowed slack']) {
        const [a, b, c] = sideOf(margins, name);
        const value = found.find((margin) => nameOf(margin) === name)?.value ?? Number.NaN;
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
      const [a, b] = sideOf(straightAt(site, corner, pair, at, box), 'bump_travel design load');
      expect([a, b]).toEqual([expect.closeTo(-1 / RATIO, 9), expect.closeTo(0, 9)]);
    }
    expect(STEP).toBe(0.5);
  });
});

test('a listed combination has the same straight margins, read once for all pairs', () => {
  const straightIn = listingOf(site, corner);
  expect(straightIn(pair)).toEqual(straightAt(site, corner, pair, start, box));
  const other: Pair = [byKind('stop'), byKind('groove')];
  const limits: Box = [
    [20, 60],
    [0, 30],
  ];
  expect(straightIn(other)).toEqual(straightAt(site, corner, other, [38, 0], limits));
  // As long as it was bought the stop can only become shorter.
  const uncut = { ...corner, bumpStop: { ...corner.bumpStop, length: 60 } };
  const [a] = sideOf(listingOf(site, uncut)(pair), 'bump_travel design load');
  expect(a).toBeCloseTo(-1 / RATIO, 9);
});

import { describe, expect, test } from 'vitest';
import { symmetricDraws } from '../../../src/advice/cars.ts';
import { heightOn } from '../../../src/model/corner/balance.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import type { Tolerances } from '../../../src/model/scenario.ts';
import type { Band } from '../../../src/result/tolerance/bands.ts';
import { benchBands } from '../../../src/result/tolerance/bench.ts';
import { draftOf, offBy, TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { noTolerances as none, plainCorner, plainSite } from '../../setup/corners.ts';

const bandsWith = (change: Partial<Tolerances>, perch = 222) =>
  benchBands({ site: plainSite(), corner: plainCorner() }, { ...none, ...change }, perch);

// At 222 the gap is 222 + 24 + 220 - (318 + 38) = 110, the damper 8 short of fully out.
test('free length, body, stop, mount, isolator and the setting of the perch each move the gap by their own tolerance', () => {
  const gap = bandsWith({ freeLength: 2, body: 1, stopLength: 1, mount: 1, isolator: 1, perch: 0.5 }).gap_snug_mm;
  // Mount: raise and flange depth, one each.
  const steps = [2, 1, 1, 1, 1, 1, 0.5];
  const worst = steps.reduce((sum, step) => sum + step, 0);
  const rss = Math.hypot(...steps);
  expect(gap?.nominal).toBe(110);
  expect(gap?.worstLow).toBeCloseTo(110 - worst, 9);
  expect(gap?.worstHigh).toBeCloseTo(110 + worst, 9);
  expect(gap?.rssLow).toBeCloseTo(110 - rss, 9);
  expect(gap?.rssHigh).toBeCloseTo(110 + rss, 9);
  expect(gap?.contributor).toMatchObject({ id: 'free_length', by: 2 });
});

test('load, rate and motion do not touch the gaps: the perch is held, and only the car stands elsewhere', () => {
  const bands = bandsWith({ wheelLoadShare: 0.05, motionRatioShare: 0.05, gasShare: 0.2, closedFraction: 0.05 });
  expect(Object.keys(bands)).toEqual(['ride_height_mm']);
});

test('with the damper fully out the gap hangs on damper, body and stop alone', () => {
  const gap = bandsWith({
    freeLength: 2,
    mount: 1,
    perch: 0.5,
    damperLength: 1.5,
    body: 1,
    stopLength: 0.5,
  }).gap_out_mm;
  expect(gap?.nominal).toBe(474 - 356);
  expect(gap?.worstLow).toBeCloseTo(118 - 3, 9);
  expect(gap?.rssHigh).toBeCloseTo(118 + Math.hypot(1.5, 1, 0.5), 9);
  expect(gap?.contributor.id).toBe('damper_extended');
});

test('the force at solid moves with rate, free length and solid height', () => {
  const block = bandsWith({ rateShare: 0.03, freeLength: 2, solidHeight: 1.5 }).block_load_n;
  // 38 N/mm x 144 mm = 5472 N; 3 % of it 164.16, 2 mm more travel 76, 1.5 mm 57.
  expect(block?.nominal).toBe(5472);
  expect(block?.worstHigh).toBeCloseTo(5472 + 164.16 + 76 + 57, 6);
  expect(block?.worstLow).toBeCloseTo(5472 - 164.16 - 76 - 57, 6);
});

test('an input that moves a reading one way only still makes a band, however little', () => {
  // The sleeve stands 0.2 mm proud of the body where the stop meets it: 0.3 mm more of body and the body is met.
  const corner = plainCorner({ sleeve: { ledgeHeight: 178.2, length: 140, trim: 0 }, bumpStop: { diameter: 55 } });
  const bands = (body: number) => benchBands({ site: plainSite(), corner }, { ...none, body }, 222).gap_out_mm;
  // 474 - (318.2 + 38); a longer body takes what it is longer than the sleeve.
  expect(bands(0.3)?.nominal).toBeCloseTo(117.8, 9);
  expect(bands(0.3)?.worstLow).toBeCloseTo(117.7, 9);
  expect(bands(0.3)?.worstHigh).toBeCloseTo(117.8, 9);
  expect(bands(0.1)).toBeUndefined();
});

test('an input that can only raise a reading, and by little, counts as well', () => {
  // Solid at 5472 N by the main spring, at 5471 N by the helper: 54.71 N/mm over 100 mm.
  const helper = { name: 'h', price: null, freeLength: 120, blockHeight: 20, rate: 54.71, bore: 60 };
  const corner = plainCorner({ helper: { ...helper, coupler: 4, couplerBore: 60 } });
  const block = benchBands({ site: plainSite(), corner }, { ...none, freeLength: 0.03 }, 222).block_load_n;
  // A helper 0.03 mm longer takes 1.6413 N more, which is 0.6413 above the main spring's own; the main one 1.14 N.
  expect(block?.worstHigh).toBeCloseTo(5472 + 0.6413 + 1.14, 6);
  expect(block?.worstLow).toBeCloseTo(5472 - 1, 6);
});

describe('where the car stands on the perch as set', () => {
  const model = { site: plainSite(), corner: plainCorner() };
  const { standing, rates } = cornerState(model.site, model.corner);
  const bandOf = (change: Partial<Tolerances>) =>
    benchBands(model, { ...none, ...change }, standing.perch).ride_height_mm;

  test('is its target height, off by friction over wheel rate either way', () => {
    const band = bandOf({ friction: 80 });
    expect(band?.nominal).toBeCloseTo(332, 9);
    // To first order F / k_w; the wheel rate changes by some percent over these millimetres.
    const first = 80 / rates.wheel;
    expect((band?.worstHigh ?? 0) - 332).toBeGreaterThan(0.95 * first);
    expect((band?.worstHigh ?? 0) - 332).toBeLessThan(1.05 * first);
    expect(332 - (band?.worstLow ?? 0)).toBeGreaterThan(0.95 * first);
    expect(332 - (band?.worstLow ?? 0)).toBeLessThan(1.05 * first);
    expect(band?.contributor.id).toBe('friction');
  });

  test('is lower under more load by load over wheel rate, and higher with the perch by its rate over the wheel’s', () => {
    // 2 % of 268 kg.
    const load = bandOf({ wheelLoadShare: 0.02 });
    const drop = (0.02 * 268 * 9.80665) / rates.wheel;
    expect((332 - (load?.worstLow ?? 0)) / drop).toBeCloseTo(1, 1);
    // dH/dP = k MR / k_w, with one spring of 38 N/mm.
    const set = bandOf({ perch: 0.5 });
    const rise = (0.5 * 38 * standing.motionRatio) / rates.wheel;
    expect(((set?.worstHigh ?? 0) - 332) / rise).toBeCloseTo(1, 1);
    expect(set?.contributor.id).toBe('perch_setting');
  });

  test('holds all but a trace of cars drawn evenly inside every tolerance, friction among them', () => {
    const tolerances = {
      ...none,
      ...{ freeLength: 2, rateShare: 0.05, wheelLoadShare: 0.03, unsprungMassShare: 0.2, perch: 0.5, friction: 80 },
      ...{ mount: 1, isolator: 1, damperLength: 1, motionRatioShare: 0.02, gasShare: 0.1 },
    };
    const band = benchBands(model, tolerances, standing.perch).ride_height_mm as Band;
    const draw = symmetricDraws(4711);
    let outside = 0;
    for (let k = 0; k < 5000; k++) {
      const built = draftOf(model);
      for (const input of TOLERANCE_INPUTS) {
        const width = input.width(model, tolerances);
        if (width) input.move(built, offBy(width, draw()));
      }
      const { site, corner } = built;
      const load = site.sprungLoad + tolerances.friction * draw();
      const height = heightOn(site, corner, geometryOf(site, corner), load, standing.perch + 0.5 * draw());
      if (height < band.worstLow || height > band.worstHigh) outside++;
    }
    expect(outside).toBeLessThan(1);
    // The band is no wider than it has to be: its sum of squares holds what it says.
    expect(band.rssHigh - band.rssLow).toBeLessThan(band.worstHigh - band.worstLow);
  });
});

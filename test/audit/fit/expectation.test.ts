import { expect, test } from 'vitest';
import { symmetricDraws } from '../../../src/advice/cars.ts';
import { comparedOf, expectationOf, factorOf, leaveOut, predictionsOf } from '../../../src/audit/fit/expectation.ts';
import { unmeasured } from '../../../src/audit/fit/measured.ts';
import { observationsOf, TRUE_MARKS } from '../../../src/audit/fit/observations.ts';
import { offBy, TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { chosen, measuredOn, READINGS } from './builds.ts';

const build = await chosen('loaded-estate', 'rear');
const { model, scenario } = build;
const observations = observationsOf(measuredOn(model, 'rear', 1, 0), READINGS);
const expectation = expectationOf(model, observations, scenario.tolerances);

test('random builds scatter and hang together as the covariance says', () => {
  // An even draw within a tolerance has a third of its square as variance.
  const draw = symmetricDraws(23);
  const inputs = TOLERANCE_INPUTS.flatMap((input) => {
    const width = input.width(model, scenario.tolerances);
    return width === null ? [] : [{ input, width }];
  });
  const count = 4000;
  const size = observations.length;
  const sums = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let k = 0; k < count; k++) {
    const built = inputs.reduce((m, { input, width }) => input.moved(m, offBy(width, draw())), model);
    const off = predictionsOf(built, observations, TRUE_MARKS).map((v, i) => v - (expectation.predicted[i] as number));
    off.forEach((a, i) => {
      off.forEach((b, j) => {
        (sums[i] as number[])[j] = ((sums[i] as number[])[j] as number) + (3 * a * b) / count;
      });
    });
  }
  const isReading = ({ label }: { readonly label: string }) => label === 'reading' || label === 'perch height as read';
  const readings = expectation.moves.filter(isReading);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      const ofReadings = readings.reduce((sum, m) => sum + half(m, i) * half(m, j), 0);
      const drawn = ((sums[i] as number[])[j] as number) + ofReadings;
      const scale = Math.sqrt(covariance(i, i) * covariance(j, j));
      expect(Math.abs(drawn - covariance(i, j)) / scale).toBeLessThan(0.08);
    }
  }
});

function half({ down, up }: (typeof expectation.moves)[number], i: number): number {
  return ((up[i] as number) - (down[i] as number)) / 2;
}

/** Of the factor multiplied out again. */
function covariance(i: number, j: number): number {
  const [a, b] = [expectation.factor[i], expectation.factor[j]];
  return Array.from({ length: Math.min(i, j) + 1 }, (_, k) => (a?.[k] ?? 0) * (b?.[k] ?? 0)).reduce((x, y) => x + y, 0);
}

test('the likely band lies inside the worst case, and holds the prediction', () => {
  for (const c of comparedOf(expectation, observations)) {
    expect(c.worstLow).toBeLessThanOrEqual(c.rssLow);
    expect(c.rssLow).toBeLessThanOrEqual(c.predicted);
    expect(c.predicted).toBeLessThanOrEqual(c.rssHigh);
    expect(c.rssHigh).toBeLessThanOrEqual(c.worstHigh);
    expect(c.verdict).toBe('likely');
  }
});

test('a dimension that the model holds has its tolerance and its reading as band', () => {
  const stop = comparedOf(expectation, observations).find((c) => c.observation.kind === 'stop_length');
  const { stopLength } = scenario.tolerances;
  expect((stop?.worstHigh ?? 0) - (stop?.predicted ?? 0)).toBeCloseTo(stopLength + READINGS.length, 9);
  expect((stop?.rssHigh ?? 0) - (stop?.predicted ?? 0)).toBeCloseTo(Math.hypot(stopLength, READINGS.length), 9);
});

test('verdicts follow the bands: likely, worst case, beyond', () => {
  const [first] = comparedOf(expectation, observations);
  if (!first) throw new Error('nothing was observed');
  const verdict = (measured: number) =>
    comparedOf(expectation, [{ ...first.observation, measured }, ...observations.slice(1)])[0]?.verdict;
  expect(verdict(first.rssHigh)).toBe('likely');
  expect(verdict(first.worstHigh)).toBe('worst');
  expect(verdict(first.worstHigh + 0.01)).toBe('beyond');
  expect(verdict(first.worstLow - 0.01)).toBe('beyond');
});

test('leaving a measurement out leaves the others as they are', () => {
  const left = leaveOut(expectation, 2);
  expect(left.predicted).toEqual(expectation.predicted.filter((_, i) => i !== 2));
  const again = expectationOf(
    model,
    observations.filter((_, i) => i !== 2),
    scenario.tolerances,
  );
  left.factor.forEach((row, i) => {
    row.forEach((value, k) => {
      expect(value).toBeCloseTo((again.factor[i] as Float64Array)[k] as number, 9);
    });
  });
  expect(factorOf([[4]])[0]?.[0]).toBe(2);
});

test('only what a corner has can move it: without a helper none of its lengths is among the inputs', () => {
  const plain = { site: plainSite(), corner: plainCorner() };
  const helper = { name: 'h', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60 };
  const helped = { ...plain, corner: plainCorner({ helper: { ...helper, coupler: 4, couplerBore: 60 } }) };
  const labelsOf = (m: typeof plain) => expectationOf(m, [], scenario.tolerances).moves.map(({ label }) => label);
  expect(labelsOf(plain).filter((label) => label.includes('helper'))).toEqual([]);
  expect(labelsOf(helped).filter((label) => label.includes('helper')).length).toBeGreaterThan(1);
});

test('readings move their own measurement alone, the place of the perch as far as it was read wrong', () => {
  const plain = { site: plainSite(), corner: plainCorner() };
  const unit = { ...unmeasured('front', null), stopLength: 38, snugGaps: [{ perch: 200, gap: 88 }] };
  const both = observationsOf(unit, READINGS);
  const { moves } = expectationOf(plain, both, scenario.tolerances);
  const ofReadings = moves.filter(({ label }) => label === 'reading' || label === 'perch height as read');
  // Lengths are read to 0.5 mm; a perch read too high stands lower, and with it the gap is smaller.
  expect(ofReadings.map(({ down, up }) => [down, up])).toEqual([
    [
      [-0.5, 0],
      [0.5, 0],
    ],
    [
      [0, -0.5],
      [0, 0.5],
    ],
    [
      [0, expect.closeTo(-0.5, 9)],
      [0, expect.closeTo(0.5, 9)],
    ],
  ]);
});

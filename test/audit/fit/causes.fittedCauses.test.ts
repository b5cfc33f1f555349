import { describe, expect, test } from 'vitest';
import { fittedCauses } from '../../../src/audit/fit/causes.ts';
import { expectationOf } from '../../../src/audit/fit/expectation.ts';
import { bestAmount } from '../../../src/audit/fit/likeliest.ts';
import { type MeasuredUnit, unmeasured } from '../../../src/audit/fit/measured.ts';
import { observationsOf, TRUE_MARKS } from '../../../src/audit/fit/observations.ts';
import { noTolerances as none, plainCorner, plainSite } from '../../setup/corners.ts';
import { READINGS } from './builds.ts';

const model = { site: plainSite(), corner: plainCorner() };
const causes = fittedCauses(model);
const causeOf = (kind: string) => {
  const found = causes.find((cause) => cause.kind === kind);
  if (!found) throw new Error(kind);
  return found;
};

test('a part may be off by half of what it is, a mark by 150 mm', () => {
  // Sleeve 140 less 15 cut off, stop 38, spring 220 mm and 38 N/mm, wheel 237 + 31 kg.
  expect(causes.map(({ kind, dimension, most }) => [kind, dimension, most])).toEqual([
    ['sleeve_length_off', 'length', 62.5],
    ['stop_length_off', 'length', 19],
    ['spring_length_off', 'length', 110],
    ['spring_rate_off', 'rate', 19],
    ['wheel_load_off', 'mass', 134],
    ['perch_mark', 'length', 150],
    ['ride_height_mark', 'length', 150],
    ['gap_mark', 'length', 150],
  ]);
});

test('an amount of nothing is nothing wrong; any other moves its own part or mark alone', () => {
  for (const cause of causes) {
    const none = cause.at(0);
    expect(none.marks).toEqual(TRUE_MARKS);
    expect(none.model.site.sprungLoad).toBeCloseTo(model.site.sprungLoad, 9);
    expect(none.model.corner).toEqual(model.corner);
  }
  expect(causeOf('sleeve_length_off').at(-10).model.corner.sleeve.trim).toBe(25);
  expect(causeOf('stop_length_off').at(4).model.corner.bumpStop.length).toBe(42);
  expect(causeOf('spring_length_off').at(-3).model.corner.spring.freeLength).toBe(217);
  expect(causeOf('spring_rate_off').at(2).model.corner.spring.rate).toBe(40);
  expect(causeOf('wheel_load_off').at(10).model.site.sprungMass).toBe(247);
  expect(causeOf('perch_mark').at(7).marks).toEqual({ perch: 7, rideHeight: 0, gap: 0 });
  expect(causeOf('ride_height_mark').at(7).marks).toEqual({ perch: 0, rideHeight: 7, gap: 0 });
  expect(causeOf('gap_mark').at(7).marks).toEqual({ perch: 0, rideHeight: 0, gap: 7 });
});

describe('the amount that fits', () => {
  const fitted = (kind: string, measured: Partial<MeasuredUnit>) => {
    const observations = observationsOf({ ...unmeasured('front', null), ...measured }, READINGS);
    return bestAmount(causeOf(kind), expectationOf(model, observations, none), observations);
  };

  test('is what was measured less what was given, where that is the only measurement', () => {
    expect(fitted('sleeve_length_off', { sleeveLength: 115 })).toBeCloseTo(-10, 9);
    expect(fitted('stop_length_off', { stopLength: 43 })).toBeCloseTo(5, 9);
    expect(fitted('wheel_load_off', { wheelLoad: 300 })).toBeCloseTo(32, 9);
    // The gap of the fully extended damper shrinks by what the stop is longer: 474 - 356 = 118.
    expect(fitted('stop_length_off', { extendedGap: 110 })).toBeCloseTo(8, 9);
  });

  test('lies between two measurements of equal reading that disagree', () => {
    expect(fitted('stop_length_off', { stopLength: 42, extendedGap: 110 })).toBeCloseTo(6, 9);
  });

  test('does not exist where it would move nothing that was measured', () => {
    expect(fitted('sleeve_length_off', { stopLength: 43 })).toBeNull();
    expect(fitted('gap_mark', { wheelLoad: 300 })).toBeNull();
  });

  test('nor where it lies beyond what could be', () => {
    expect(fitted('stop_length_off', { stopLength: 38 + 18.9 })).toBeCloseTo(18.9, 9);
    expect(fitted('stop_length_off', { stopLength: 38 + 19.1 })).toBeNull();
    expect(fitted('stop_length_off', { stopLength: 38 - 19.1 })).toBeNull();
    expect(fitted('gap_mark', { extendedGap: 118 + 151 })).toBeNull();
  });
});

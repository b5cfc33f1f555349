/** Two cuts of a sleeve told apart: lengths read to 0.5 mm, so that what a measurement is worth is known by hand. */

import { expect, test } from 'vitest';
import type { Cause } from '../../../src/audit/fit/causes.ts';
import type { Expectation } from '../../../src/audit/fit/expectation.ts';
import { tellingMeasurement } from '../../../src/audit/fit/likeliest.ts';
import { type MeasuredUnit, unmeasured } from '../../../src/audit/fit/measured.ts';
import { TRUE_MARKS } from '../../../src/audit/fit/observations.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { READINGS } from './builds.ts';

const base = plainCorner();
const site = plainSite();

/** Trimmed by 15 mm, against a sleeve trimmed by `more` than that: sleeve and distance to the seat differ by as much. */
function telling(more: number, measured: Partial<MeasuredUnit> = {}) {
  const trimmed = (trim: number): Cause => {
    const corner = { ...base, sleeve: { ...base.sleeve, trim } };
    return { kind: 'sleeve_not_cut', detail: '', model: { site, corner }, marks: TRUE_MARKS };
  };
  const expectation = { model: { site, corner: base } } as Expectation;
  const unit = { ...unmeasured('front', null), ...measured };
  return tellingMeasurement(trimmed(15), trimmed(15 + more), expectation, unit, READINGS);
}
const sleeve = { sleeveLength: 125 };
const seat = { sleeveToSeat: { distance: 150, damperLength: null } };

test('of measurements that tell as much the first in the order of work is asked for', () => {
  expect(telling(10)).toEqual({ kind: 'sleeve_length', again: false });
  expect(telling(-10)).toEqual({ kind: 'sleeve_length', again: false });
});

test('one that was not made yet comes before one that would be made again', () => {
  expect(telling(10, sleeve)).toEqual({ kind: 'sleeve_to_seat', again: false });
  expect(telling(10, seat)).toEqual({ kind: 'sleeve_length', again: false });
});

test('where both were made one is worth making again if it differs by ten readings', () => {
  expect(telling(5.5, { ...sleeve, ...seat })).toEqual({ kind: 'sleeve_length', again: true });
  expect(telling(4.5, { ...sleeve, ...seat })).toBeNull();
});

test('a difference within the reading tells nothing', () => {
  expect(telling(0.5)).toBeNull();
  expect(telling(0.75)).toEqual({ kind: 'sleeve_length', again: false });
  expect(telling(0)).toBeNull();
});

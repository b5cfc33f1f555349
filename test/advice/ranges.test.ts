/** What a corner leaves free, on lists made for the purpose. */

import { expect, test } from 'vitest';
import { sharedRanges, workingRanges } from '../../src/advice/ranges.ts';
import { findingsOf } from '../../src/model/corner/findings.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { type AxleOptions, FAMILIES } from '../../src/model/scenario.ts';
import type { WorkingRange } from '../../src/result/advice.ts';
import { plainCorner, plainSite, plainTarget } from '../setup/corners.ts';

/** Room for the tyre, and for a spring a little loose at droop. */
const site = plainSite({ tyreOnArchHeight: 230, target: { ...plainTarget, allowedSlack: 10 } });
const base = plainCorner();
const { bumpStop, mount, isolator, sleeve } = base;

function rangesOf(more: Partial<AxleOptions>, corner = base) {
  const single = Object.fromEntries(FAMILIES.map((family) => [family, [corner[family]]]));
  return workingRanges(site, corner, { ...single, ...more } as unknown as AxleOptions);
}

test('the corner the ranges start from works', () => {
  expect(findingsOf(cornerState(site, base))).toEqual([]);
});

test('where there is one of everything nothing is left free', () => {
  expect(rangesOf({})).toEqual([]);
});

test('a stop may be as long as leaves the least bump travel', () => {
  // The stop is met at 418 + the change of its length; 35 mm of travel are the least.
  const { bumpTravel, standing } = cornerState(site, base);
  const ratio = standing.motionRatio;
  const spare = (bumpTravel - 35) * ratio;
  const lengths = [38 - 5, 38, 38 + Math.floor(spare * 0.8), 38 + Math.ceil(spare * 1.2)];
  const list = lengths.map((length) => ({ ...bumpStop, length }));
  const [range, ...others] = rangesOf({ bumpStop: list });
  expect(others).toEqual([]);
  expect(range).toEqual({
    ...{ kind: 'dimension', family: 'bumpStop', dimension: 'length', chosen_mm: 38 },
    ...{ works_mm: lengths.slice(0, 3), gaps_mm: [], options: 4 },
  });
});

test('a value between working ones that fails is a gap; what follows from the value does not count as a difference', () => {
  const spacer = (size: number, raise = 12 + size) => ({ ...mount, spacer: size, raise });
  // The one in the middle is no spacer of this car: it lifts the shoulder by half a metre.
  const list = [spacer(2), spacer(0), spacer(1, 512)];
  expect(rangesOf({ mount: list })).toEqual([
    {
      ...{ kind: 'dimension', family: 'mount', dimension: 'spacer', chosen_mm: 0 },
      ...{ works_mm: [0, 2], gaps_mm: [1], options: 3 },
    },
  ]);
});

test('parts that differ in anything else are no values of the same part', () => {
  const list = [sleeve, { ...sleeve, trim: 16 }, { ...sleeve, trim: 17, bore: 52 }, { ...sleeve, bore: 53 }];
  expect(rangesOf({ sleeve: list })).toMatchObject([{ dimension: 'trim', works_mm: [15, 16], options: 2 }]);
  expect(rangesOf({ sleeve: list.slice(2).concat(sleeve) })).toEqual([]);
});

test('of parts with other names those count that pass with any of their dimensions, none among them', () => {
  const huge = { ...isolator, name: 'huge', thickness: 200 };
  const other = (thickness: number) => ({ ...isolator, name: 'other', thickness });
  expect(rangesOf({ isolator: [isolator, huge, other(200), other(6), null] as AxleOptions['isolator'] })).toEqual([
    { kind: 'part', family: 'isolator', chosen: 'isolator', works: ['isolator', 'other', 'none'], options: 4 },
  ]);
  const bare = { ...base, isolator: null };
  expect(rangesOf({ isolator: [null, isolator] as AxleOptions['isolator'] }, bare)).toMatchObject([
    { kind: 'part', chosen: 'none', works: expect.arrayContaining(['none']), options: 2 },
  ]);
});

test('another spring is another purchase', () => {
  expect(rangesOf({ spring: [base.spring, { ...base.spring, name: 'other' }] })).toEqual([]);
});

const trims = (works_mm: readonly number[], gaps_mm: readonly number[] = []): WorkingRange => ({
  ...{ kind: 'dimension', family: 'sleeve', dimension: 'trim', chosen_mm: 20, options: 9 },
  ...{ works_mm, gaps_mm },
});
const helpers = (works: readonly string[]): WorkingRange => ({
  ...{ kind: 'part', family: 'helper', chosen: 'none', works, options: 3 },
});

test('what several setups share is free where every one of them lets it, by the values of each list', () => {
  const low = [trims([10, 15, 20, 30], [25]), helpers(['none', 'short'])];
  const street = [trims([5, 10, 20, 25, 30], [15]), helpers(['none', 'long'])];
  // Both lists hold 10, 20 and 30; of what lies between, 15 fails in one setup and 25 in the other.
  expect(sharedRanges([low, street], ['sleeve', 'helper'])).toEqual([trims([10, 20, 30], [15, 25]), helpers(['none'])]);
  expect(sharedRanges([low, street], ['sleeve'])).toEqual([trims([10, 20, 30], [15, 25])]);
  expect(sharedRanges([[trims([5])], [trims([10])]], ['sleeve'])).toEqual([trims([])]);
  expect(sharedRanges([], ['sleeve'])).toEqual([]);
});

/** Bands from moves made by hand: Pythagorean triples, so that roots of sums of squares are whole numbers. */

import { expect, test } from 'vitest';
import { comparedOf, type Expectation } from '../../../src/audit/fit/expectation.ts';
import type { Observation } from '../../../src/audit/fit/observations.ts';

type Ends = readonly [label: string, down: number, up: number];

function compared(measured: number, ends: readonly Ends[], predicted = 100) {
  const moves = ends.map(([label, down, up]) => ({ label, measure: '', down: [down], up: [up] }));
  const expectation = { predicted: [predicted], moves } as unknown as Expectation;
  const [one] = comparedOf(expectation, [{ measured } as Observation]);
  if (!one) throw new Error('one measurement, one band');
  return one;
}

/** The second input moves the measurement down when it goes up. */
const INPUTS: readonly Ends[] = [
  ['long', -5, 3],
  ['thick', 4, -12],
];

test('likely is the root of the sum of squares to either side, the worst case the sum', () => {
  // Below: 5 and 12, root 13, sum 17. Above: 3 and 4, root 5, sum 7.
  expect(compared(100, INPUTS)).toMatchObject({
    ...{ predicted: 100, rssLow: 87, rssHigh: 105, worstLow: 83, worstHigh: 107 },
  });
});

test('an input that moves the measurement to one side only widens the band there only', () => {
  const oneSided = compared(100, [
    ['up', 0, 3],
    ['up, too', 1, 4],
  ]);
  expect(oneSided).toMatchObject({ rssLow: 100, worstLow: 100, rssHigh: 105, worstHigh: 107 });
  const down = compared(100, [
    ['down', -3, 0],
    ['down, too', -4, -1],
  ]);
  expect(down).toMatchObject({ rssLow: 95, worstLow: 93, rssHigh: 100, worstHigh: 100 });
});

test.each([
  [82.9, 'beyond'],
  [83, 'worst'],
  [86.9, 'worst'],
  [87, 'likely'],
  [105, 'likely'],
  [105.1, 'worst'],
  [107, 'worst'],
  [107.1, 'beyond'],
] as const)('measured %d mm is %s: the ends of a band belong to it', (measured, verdict) => {
  expect(compared(measured, INPUTS).verdict).toBe(verdict);
});

test('a hair outside for rounding still belongs to a band, a thousandth does not', () => {
  expect(compared(87 - 1e-10, INPUTS).verdict).toBe('likely');
  expect(compared(105 + 1e-10, INPUTS).verdict).toBe('likely');
  expect(compared(83 - 1e-10, INPUTS).verdict).toBe('worst');
  expect(compared(107 + 1e-10, INPUTS).verdict).toBe('worst');
  expect(compared(86.999, INPUTS).verdict).toBe('worst');
  expect(compared(107.001, INPUTS).verdict).toBe('beyond');
});

test('what moves the prediction most is named, to whichever side, the first of equals', () => {
  expect(compared(100, INPUTS).contributor).toBe('thick');
  expect(compared(100, INPUTS.toReversed()).contributor).toBe('thick');
  expect(compared(100, [['small', -1, 1], ...INPUTS, ['smaller', -2, 2]]).contributor).toBe('thick');
  const highest: readonly Ends[] = [
    ['lower', -6, 2],
    ['higher', -1, 7],
  ];
  expect(compared(100, highest).contributor).toBe('higher');
  expect(
    compared(100, [
      ['one', -5, 5],
      ['other', -5, 5],
    ]).contributor,
  ).toBe('one');
});

/** The thresholds of naming a cause, on one measurement of a plain corner whose misfit is set by hand. */

import { describe, expect, test } from 'vitest';
import { type Compared, expectationOf, type Verdict } from '../../../src/audit/fit/expectation.ts';
import { likeliestOf } from '../../../src/audit/fit/likeliest.ts';
import { unmeasured } from '../../../src/audit/fit/measured.ts';
import { observationsOf } from '../../../src/audit/fit/observations.ts';
import { type AxleOptions, FAMILIES } from '../../../src/model/scenario.ts';
import { noTolerances as none, plainCorner, plainSite } from '../../setup/corners.ts';
import { READINGS } from './builds.ts';

const plain = plainCorner();
const corner = { ...plain, isolator: null, bumpStop: { ...plain.bumpStop, uncutLength: 38 } };
const model = { site: plainSite(), corner };
const stopOf = (length: number) => ({ ...corner.bumpStop, name: `stop ${length}`, length });

/**
 * The stop measured `more` longer than the 38 mm given, the list holding stops of `others` lengths: nothing else can
 * move that measurement. Twice the misfit squared is (2 x deviation / reading)^2.
 */
function likeliest(more: number, reading: number, others: readonly number[], verdict: Verdict = 'beyond') {
  const unit = { ...unmeasured('front', null), stopLength: 38 + more };
  const observations = observationsOf(unit, { ...READINGS, length: reading });
  const single = Object.fromEntries(FAMILIES.map((family) => [family, [corner[family]]]));
  const options = { ...single, bumpStop: [corner.bumpStop, ...others.map(stopOf)] } as unknown as AxleOptions;
  const compared = observations.map((observation) => ({ observation, verdict })) as unknown as Compared[];
  return likeliestOf(expectationOf(model, observations, none), compared, options, none);
}
/** The reading with which a deviation squares to so much. */
const readingFor = (deviation: number, squares: number) => (2 * deviation) / Math.sqrt(squares);

describe('chance decides whether measurements agree: 1 in 1000', () => {
  // NIST/SEMATECH e-Handbook, table 1.3.6.7.4, one degree of freedom: 10.828 is exceeded 1 time in 1000.
  test.each([
    [10.81, 'consistent'],
    [10.85, 'unexplained'],
  ] as const)('a sum of squares of %d is %s', (squares, verdict) => {
    const found = likeliest(5, readingFor(5, squares), [], 'likely');
    expect(found.verdict).toBe(verdict);
    expect(found.nothing.misfit).toBeCloseTo(Math.sqrt(squares) / 2, 9);
    expect(found.nothing.chance).toBeCloseTo(0.001, 4);
  });

  test('beyond the worst case nothing is consistent, however likely', () => {
    expect(likeliest(0.1, 5, [], 'likely').verdict).toBe('consistent');
    expect(likeliest(0.1, 5, [], 'worst').verdict).toBe('consistent');
    expect(likeliest(0.1, 5, [], 'beyond').verdict).toBe('unexplained');
  });

  test('a cause that leaves what chance would leave once in 1000 explains nothing', () => {
    // The deviation is 18 mm, another stop would leave 9 of them; beyond that only an amount is left, which fits.
    const named = (squares: number) => {
      const found = likeliest(18, readingFor(9, squares), [47]);
      return found.verdict === 'cause' ? found.named.cause.kind : null;
    };
    expect(named(10.81)).toBe('other_stop');
    expect(named(10.85)).toBe('stop_length_off');
  });
});

test('a cause is named when it does better than nothing wrong by 6: odds of about 20 to 1', () => {
  const verdictAt = (squares: number) => likeliest(5, readingFor(5, squares), [43]).verdict;
  expect(verdictAt(5.95)).toBe('unexplained');
  expect(verdictAt(6.05)).toBe('cause');
  expect(verdictAt(6.9)).toBe('cause');
});

test('two causes are told apart by 6, too', () => {
  // 50 mm are measured. One stop leaves nothing, the other 3 mm: that squares to what is asked.
  const found = (squares: number) => likeliest(12, readingFor(3, squares), [53, 50]);
  const unsure = found(5.95);
  expect(unsure.verdict).toBe('several');
  if (unsure.verdict !== 'several') return;
  expect(unsure.candidates.map(({ cause }) => cause.detail)).toEqual(['stop 50 50.0 mm', 'stop 53 53.0 mm']);
  expect(unsure.candidates.map(({ score }) => score)).toEqual([expect.closeTo(0, 9), expect.closeTo(5.95, 9)]);
  const sure = found(6.05);
  expect(sure.verdict).toBe('cause');
  if (sure.verdict === 'cause') expect(sure.named.cause.detail).toBe('stop 50 50.0 mm');
  expect(found(6.9).verdict).toBe('cause');
});

test('a fitted amount costs 6: it can follow any one measurement', () => {
  // No stop of the list is so long, so that only an amount fits, and it fits exactly.
  const verdictAt = (squares: number) => likeliest(10, readingFor(10, squares), []);
  expect(verdictAt(11.9).verdict).toBe('unexplained');
  const named = verdictAt(12.1);
  expect(named.verdict).toBe('cause');
  if (named.verdict !== 'cause') return;
  expect(named.named.cause.kind).toBe('stop_length_off');
  expect(named.named.amount).toBeCloseTo(10, 6);
  expect(named.named.score).toBeCloseTo(6, 6);
});

test('an amount that is fitted takes one of the measurements up', () => {
  // 10 mm by the stop itself, 8 by the gap: 9 fits both to 1 mm, whose squares add to 7.879, with one degree left.
  const length = Math.sqrt(8 / 7.879);
  const unit = { ...unmeasured('front', null), stopLength: 48, extendedGap: 110 };
  const observations = observationsOf(unit, { ...READINGS, length });
  const options = Object.fromEntries(FAMILIES.map((family) => [family, [corner[family]]])) as unknown as AxleOptions;
  const compared = observations.map((observation) => ({ observation, verdict: 'beyond' })) as unknown as Compared[];
  const { ranked } = likeliestOf(expectationOf(model, observations, none), compared, options, none);
  const fitted = ranked.find(({ cause }) => cause.kind === 'stop_length_off');
  expect(fitted?.amount).toBeCloseTo(9, 6);
  // NIST/SEMATECH e-Handbook, table 1.3.6.7.4: 7.879 is exceeded 5 times in 1000.
  expect(fitted?.chance).toBeCloseTo(0.005, 5);
});

test('the one measurement there is can only be made again itself', () => {
  const found = likeliest(5, readingFor(5, 5), []);
  expect(found).toMatchObject({ verdict: 'unexplained', measureAgain: 0 });
});

/** The record of an audit from findings made for the purpose. */

import { describe, expect, test } from 'vitest';
import { type Findings, NOTES, UNUSED_WHY, unitReport } from '../../../src/audit/fit/audit.ts';
import type { CauseKind } from '../../../src/audit/fit/causes.ts';
import type { StandingInference } from '../../../src/audit/fit/corrections.ts';
import type { Compared, Expectation } from '../../../src/audit/fit/expectation.ts';
import type { Likeliest, RankedCause } from '../../../src/audit/fit/likeliest.ts';
import { unmeasured } from '../../../src/audit/fit/measured.ts';
import { type Observation, TRUE_MARKS } from '../../../src/audit/fit/observations.ts';
import { withParameter } from '../../../src/audit/fit/parameters.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { READINGS } from './builds.ts';

const given = { site: plainSite(), corner: plainCorner() };
const nothing = { misfit: 2.5, chance: 0.25 };

function found(change: Partial<Findings> = {}): Findings {
  return {
    unit: unmeasured('front', 'left'),
    readings: READINGS,
    given,
    expectation: { model: given } as Expectation,
    compared: [],
    likeliest: { verdict: 'consistent', nothing, ranked: [] },
    corrected: { model: given, corrections: [], standing: null, unused: [] },
    preloaded: 0,
    sidesDiffer: false,
    ...change,
  };
}

const rankedCause = (kind: CauseKind, trim = 15): RankedCause => {
  const corner = { ...given.corner, sleeve: { ...given.corner.sleeve, trim } };
  const cause = { kind, detail: `${kind} so`, model: { site: given.site, corner }, marks: TRUE_MARKS };
  return { cause, amount: 4, misfit: 1, chance: 0.5, score: 4 };
};
const causeOf = (likeliest: Likeliest, more: Partial<Findings> = {}) => unitReport(found({ ...more, likeliest })).cause;

test('the parts are named as given, a helper only where there is one', () => {
  expect(unitReport(found())).toMatchObject({ axle: 'front', side: 'left', parts: { spring: 'spring', helper: null } });
  const helper = { name: 'h', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60 };
  const withHelper = { ...given, corner: plainCorner({ helper: { ...helper, coupler: 4, couplerBore: 60 } }) };
  expect(unitReport(found({ given: withHelper })).parts.helper).toBe('h');
});

test('what was left out is listed with its reason, gaps of a squeezed spring first', () => {
  const corrected = { ...found().corrected, unused: [{ by: 'ride_height', why: 'on the stop' } as const] };
  expect(unitReport(found({ corrected, preloaded: 2 })).unused).toEqual([
    { kind: 'snug_gap', why: UNUSED_WHY.preloaded },
    { kind: 'snug_gap', why: UNUSED_WHY.preloaded },
    { kind: 'ride_height', why: UNUSED_WHY['on the stop'] },
  ]);
});

test('an estimated solid height and sides that differ are noted, by the parts as measured', () => {
  const { spring } = given.corner;
  const estimated = { ...spring, solid: { ...spring.solid, source: 'estimated' as const } };
  const unsure = { ...given, corner: plainCorner({ spring: estimated }) };
  const corrected = { ...found().corrected, model: unsure };
  expect(unitReport(found()).notes).toEqual([]);
  expect(unitReport(found({ given: unsure })).notes).toEqual([]);
  expect(unitReport(found({ corrected })).notes).toEqual([NOTES.solidEstimated]);
  expect(unitReport(found({ sidesDiffer: true })).notes).toEqual([NOTES.sidesDiffer]);
});

describe('causes', () => {
  const kinds: readonly CauseKind[] = [
    ...(['stop_uncut', 'sleeve_not_cut', 'spring_rate', 'spring_length', 'helper_missing'] as const),
    ...(['spacer_missing', 'isolator_missing'] as const),
  ];
  const ranked = kinds.map((kind, k) => rankedCause(kind, 15 + 10 * k));
  const [first, second, third] = ranked as [RankedCause, RankedCause, RankedCause];

  test('nothing is named where all agrees, and five are shown', () => {
    const cause = causeOf({ verdict: 'unexplained', nothing, ranked, measureAgain: 0 });
    expect(cause).toMatchObject({ verdict: 'unexplained', nothing_wrong: nothing, named: 0, measure: null });
    expect(cause.ranked.map(({ kind }) => kind)).toEqual(kinds.slice(0, 5));
  });

  test('the named one stands first and once', () => {
    const cause = causeOf({ verdict: 'cause', nothing, ranked, named: third });
    expect(cause).toMatchObject({ named: 1, measure: null });
    expect(cause.ranked.map(({ kind }) => kind)).toEqual([
      'spring_rate',
      'stop_uncut',
      'sleeve_not_cut',
      ...kinds.slice(3, 5),
    ]);
    expect(cause.ranked[0]).toMatchObject({ detail: 'spring_rate so', amount: 4, misfit: 1, chance: 0.5 });
  });

  test('between several the measurement that tells the first two apart is asked for', () => {
    const cause = causeOf({ verdict: 'several', nothing, ranked, candidates: [first, second, third] });
    expect(cause.named).toBe(3);
    // Their sleeves differ by 10 mm, and nothing else does.
    expect(cause.measure).toEqual({ kind: 'sleeve_length', again: false });
    expect(cause.ranked.map(({ kind }) => kind)).toEqual(kinds.slice(0, 5));
    const six = causeOf({ verdict: 'several', nothing, ranked, candidates: ranked.slice(0, 6) });
    expect(six.ranked).toHaveLength(6);
  });

  test('where none explains the measurements, the odd one out is to be made again', () => {
    const compared = ['free_length', 'rate'].map((kind) => ({ observation: { kind } })) as unknown as Compared[];
    const cause = causeOf({ verdict: 'unexplained', nothing, ranked, measureAgain: 1 }, { compared });
    expect(cause.measure).toEqual({ kind: 'rate', again: true });
    expect(causeOf({ verdict: 'consistent', nothing, ranked: [] }, { compared }).measure).toBeNull();
  });

  test('an amount is a length, of a load a mass, of a rate a rate', () => {
    const dimensionOf = (kind: CauseKind) =>
      causeOf({ verdict: 'cause', nothing, ranked: [], named: rankedCause(kind) }).ranked[0]?.dimension;
    expect(dimensionOf('wheel_load_off')).toBe('mass');
    expect(dimensionOf('spring_rate_off')).toBe('rate');
    expect(dimensionOf('sleeve_length_off')).toBe('length');
  });
});

test('a measurement is told with its band and reading', () => {
  const observation = {
    ...{ kind: 'snug_gap', perch: 190, damperLength: 470, measured: 21, reading: 0.5 },
  } as unknown as Observation;
  const band = { predicted: 20, rssLow: 19, rssHigh: 22, worstLow: 17, worstHigh: 24 };
  const compared = [{ observation, ...band, verdict: 'likely', contributor: 'mount' } as const];
  expect(unitReport(found({ compared })).measurements).toEqual([
    {
      ...{ kind: 'snug_gap', perch_mm: 190, damper_length_mm: 470, predicted: 20, measured: 21 },
      ...{ rss_low: 19, rss_high: 22, worst_low: 17, worst_high: 24, reading: 0.5 },
      ...{ verdict: 'likely', contributor: 'mount' },
    },
  ]);
});

test('each thing a ride height may say is told with the perch it would ask for; what has no answer without', () => {
  const before = { ...given, corner: plainCorner({ damper: { ...plainCorner().damper, gas: { kind: 'none' } } }) };
  const { perch } = cornerState(before.site, before.corner).standing;
  const standing: StandingInference = {
    blamed: 'motion_offset',
    believed: true,
    before,
    alternatives: [
      { parameter: 'motion_offset', from: 0, to: 10 },
      { parameter: 'rate', from: 38, to: null },
    ],
  };
  const model = withParameter(before, 'motion_offset', 10);
  const report = unitReport(found({ corrected: { ...found().corrected, model, standing } })).standing;
  expect(report).toMatchObject({ blamed: 'motion_offset', believed: true });
  // A damper 10 mm longer at the same height carries the same spring: without gas its seat goes up by as much.
  expect(report?.alternatives[0]?.perch_mm).toBeCloseTo(perch + 10, 9);
  expect(report?.alternatives[1]).toEqual({ parameter: 'rate', from: 38, to: null, perch_mm: null });
  expect(unitReport(found()).standing).toBeNull();
});

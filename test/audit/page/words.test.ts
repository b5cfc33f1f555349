import { expect, test } from 'vitest';
import type { CauseKind } from '../../../src/audit/fit/causes.ts';
import { dimensionOf } from '../../../src/audit/fit/parameters.ts';
import { assumptionOf, causeHeadline, causeText, chanceText } from '../../../src/audit/page/words.ts';
import { PLAIN } from '../../../src/report/text/numbers.ts';

const cause = (kind: CauseKind, detail: string, amount: number | null = null) =>
  ({ kind, detail, amount, dimension: kind === 'spring_rate_off' ? 'rate' : 'length', chance: 0.5 }) as never;
const headline = (of: object) =>
  causeHeadline({ cause: { ranked: [], named: 0, measure: null, ...of } } as never, PLAIN);

test.each<[CauseKind, string, number | null, string]>([
  ['stop_uncut', '60.0 mm', null, 'the bump stop was fitted uncut (60.0 mm)'],
  ['other_stop', 'cone', null, 'another bump stop was fitted (cone)'],
  ['packer_missing', '5.0 mm', null, 'the packer of 5.0 mm above the bump stop is missing'],
  ['groove_not_lowered', '10.0 mm', null, 'the groove was not lowered by 10.0 mm'],
  ['sleeve_not_cut', '20.0 mm', null, 'the sleeve was not trimmed by 20.0 mm'],
  ['sleeve_cut_twice', '20.0 mm', null, 'the sleeve was trimmed by 20.0 mm twice'],
  ['spring_length', 'coil 180', null, 'a spring of another length was fitted (coil 180)'],
  ['spring_rate', 'coil 60', null, 'a spring of another rate was fitted (coil 60)'],
  ['helper_missing', 'tender', null, 'the helper was left out (tender)'],
  ['coupler_missing', '6.0 mm', null, 'the coupler of 6.0 mm is missing'],
  ['spacer_missing', '6.0 mm', null, 'the spacer of 6.0 mm under the mount is missing'],
  ['other_spacer', '3.0 mm', null, 'a spacer of 3.0 mm is under the mount'],
  ['isolator_missing', '6.0 mm', null, 'the isolator of 6.0 mm is missing'],
  ['sleeve_length_off', '', 2, 'the sleeve was cut +2.0 mm (0.08 in) off its length'],
  ['stop_length_off', '', -2, 'the bump stop is \u22122.0 mm (\u22120.08 in) off its length'],
  ['spring_length_off', '', 3, 'the spring’s free length is +3.0 mm (0.12 in) off'],
  ['spring_rate_off', '', 4, 'the spring’s rate is +4.00 N/mm (22.8 lbf/in) off'],
  ['wheel_load_off', '', 5, 'the wheel load is +5.0 mm (0.20 in) off'],
  ['perch_mark', '', 5, 'perch heights were taken from a wrong mark, +5.0 mm (0.20 in) off'],
  ['ride_height_mark', '', 5, 'the ride height was taken from a wrong mark, +5.0 mm (0.20 in) off'],
  ['gap_mark', '', 5, 'the gap was taken from a wrong mark, +5.0 mm (0.20 in) off'],
])('%s is told with its part or amount', (kind, detail, amount, said) => {
  expect(causeText(cause(kind, detail, amount), PLAIN).replaceAll('-', '\u2212')).toBe(said);
});

test('a headline says what to look at first, or that nothing single explains it, and what settles it', () => {
  const ranked = [cause('helper_missing', 'tender'), cause('coupler_missing', '6.0 mm')];
  expect(headline({ verdict: 'consistent' }).lead).toBe('Nothing disagrees.');
  expect(headline({ verdict: 'cause', ranked, named: 1 }).rest).toMatch(
    /^the helper was left out \(tender\)\. Look there first\./,
  );
  const several = headline({ verdict: 'several', ranked, named: 2, measure: { kind: 'ride_height', again: true } });
  expect(several.rest).toContain('the helper was left out (tender); or the coupler of 6.0 mm is missing.');
  expect(several.rest).toContain(' Measure again: ');
  const unexplained = headline({ verdict: 'unexplained', measure: { kind: 'ride_height', again: false } });
  expect(unexplained.lead).toBe('Not explained by one cause.');
  expect(unexplained.rest).toContain(' Measure as well: ');
  expect(headline({ verdict: 'unexplained' }).rest).toContain(' Look at the parts themselves.');
});

test('a correction that was measured assumes nothing, an implied one says what it assumes', () => {
  const of = (parameter: string, basis: string, by = 'gap') => assumptionOf({ parameter, basis, by } as never);
  expect(of('rate', 'measured')).toBe('');
  expect(of('rate', 'implied')).toContain('which was not measured');
  expect(of('flange_depth', 'implied')).toContain('The gap with the spring snug');
  expect(of('flange_depth', 'implied', 'sleeve_to_seat')).toContain('The distance from sleeve to isolator');
  // What can only be measured rests on no assumption.
  expect(of('solid_height', 'implied')).toBe('');
});

test('each parameter is told in the units of its dimension', () => {
  expect(['rate', 'wheel_load', 'free_length'].map((name) => dimensionOf(name as never))).toEqual([
    'rate',
    'mass',
    'length',
  ]);
});

test('a chance is told as a share, a tiny one as such', () => {
  expect([0.5, 0.05, 0.0005].map(chanceText)).toEqual(['50 %', '5.0 %', 'below 0.1 %']);
});

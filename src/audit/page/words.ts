/** What an audit says in words: measurements, corrections, causes, verdicts. */
import type { Dimension } from '../../model/units.ts';
import { AXLE_TITLES } from '../../report/text/labels.ts';
import { type NumberStyle, withUnits } from '../../report/text/numbers.ts';
import type { CauseKind } from '../fit/causes.ts';
import type { Correction } from '../fit/corrections.ts';
import type { Verdict } from '../fit/expectation.ts';
import type { ObservationKind } from '../fit/observations.ts';
import type { ParameterName } from '../fit/parameters.ts';
import type { BenchReport, MeasurementReport, RankedReport, UnitAudit } from '../fit/types.ts';

export function unitTitle({ axle, side }: Pick<UnitAudit, 'axle' | 'side'>): string {
  return side === null ? AXLE_TITLES[axle] : `${AXLE_TITLES[axle]} ${side}`;
}

export const KIND_LABELS: Readonly<Record<ObservationKind, string>> = {
  free_length: 'free length of the main spring',
  solid_height: 'solid height, wire times coils',
  rate: 'rate of the main spring',
  helper_free_length: 'free length of the helper',
  sleeve_length: 'sleeve, once cut',
  stop_length: 'bump stop, once cut',
  lowest_perch: 'perch down on its lock ring',
  sleeve_to_seat: 'sleeve top to isolator',
  extended_gap: 'gap to the bump stop, damper fully extended',
  snug_gap: 'gap to the bump stop, spring just snug',
  ride_height: 'ride height reached',
  wheel_load: 'wheel load',
};

/** Where it was measured, as far as that matters. */
export function placeOf(
  { kind, perch_mm: perch, damper_length_mm: length }: MeasurementReport,
  style: NumberStyle,
): string {
  if (perch !== null) return `perch at ${withUnits(perch, 'length', style)}`;
  if (kind !== 'sleeve_to_seat') return '';
  return length === null ? 'damper fully extended' : `damper length ${withUnits(length, 'length', style)}`;
}

export function dimensionOfKind(kind: ObservationKind): Dimension {
  return kind === 'rate' ? 'rate' : kind === 'wheel_load' ? 'mass' : 'length';
}

export const VERDICTS: Readonly<Record<Verdict, string>> = {
  likely: 'within the likely band',
  worst: 'within the worst case',
  beyond: 'beyond the worst case',
};

export const BENCH_PLACES: Readonly<Record<BenchReport['where'], string>> = {
  lowest: 'perch at its lowest',
  target: 'perch for the target height',
  'highest safe': 'perch at its highest safe place',
  highest: 'perch at the sleeve’s top',
};

export const PARAMETER_LABELS: Readonly<Record<ParameterName, string>> = {
  free_length: 'free length of the main spring',
  rate: 'rate of the main spring',
  solid_height: 'solid height of the main spring',
  helper_free_length: 'free length of the helper',
  sleeve_length: 'sleeve length once cut',
  stop_length: 'bump stop length once cut',
  wheel_load: 'wheel load',
  flange_depth: 'seat flange below tower plane',
  body_length: 'lower eye to top of body',
  ledge_height: 'ledge the sleeve stands on',
  perch_height: 'perch and lock ring',
  motion_offset: 'damper length at ride height, shift',
};

const IMPLIED: Readonly<Partial<Record<ParameterName, string>>> = {
  body_length: 'What the gap of the fully extended damper leaves open is taken to be the top of the body.',
  flange_depth:
    'The gap with the spring snug is taken to say how far the upper seat lies below the rod shoulder. Were it the top of the body instead, the clearances to coil bind and between sleeve and isolator would be the same, the bump travel would not.',
  ledge_height: 'What the distance from sleeve to isolator leaves open is taken to be the height of the ledge.',
  perch_height: 'What the lowest perch leaves open is taken to be perch and lock ring.',
  wheel_load:
    'The wheel was not weighed, so the ride height is taken to come from its load; the spring’s rate as it stands.',
  rate: 'The load as weighed, the ride height is taken to come from the spring’s rate, which was not measured.',
  motion_offset: 'Load and rate as measured, the ride height is taken to come from the damper length at that height.',
};

const SEAT_BY_SLEEVE =
  'The distance from sleeve to isolator is taken to say how far the upper seat lies below the rod shoulder. Were it the ledge instead, the clearance between sleeve and isolator would be the same, the perch heights would not.';

/** The assumption behind an implied correction; none behind a measured one. */
export function assumptionOf({ parameter, basis, by }: Correction): string {
  if (basis === 'measured') return '';
  return by === 'sleeve_to_seat' && parameter === 'flange_depth' ? SEAT_BY_SLEEVE : (IMPLIED[parameter] ?? '');
}

type Said = (detail: string, amount: string) => string;

const CAUSES: Readonly<Record<CauseKind, Said>> = {
  stop_uncut: (part) => `the bump stop was fitted uncut (${part})`,
  other_stop: (part) => `another bump stop was fitted (${part})`,
  packer_missing: (size) => `the packer of ${size} above the bump stop is missing`,
  groove_not_lowered: (size) => `the groove was not lowered by ${size}`,
  sleeve_not_cut: (size) => `the sleeve was not trimmed by ${size}`,
  sleeve_cut_twice: (size) => `the sleeve was trimmed by ${size} twice`,
  spring_length: (part) => `a spring of another length was fitted (${part})`,
  spring_rate: (part) => `a spring of another rate was fitted (${part})`,
  helper_missing: (part) => `the helper was left out (${part})`,
  coupler_missing: (size) => `the coupler of ${size} is missing`,
  spacer_missing: (size) => `the spacer of ${size} under the mount is missing`,
  other_spacer: (size) => `a spacer of ${size} is under the mount`,
  isolator_missing: (size) => `the isolator of ${size} is missing`,
  sleeve_length_off: (_, amount) => `the sleeve was cut ${amount} off its length`,
  stop_length_off: (_, amount) => `the bump stop is ${amount} off its length`,
  spring_length_off: (_, amount) => `the spring’s free length is ${amount} off`,
  spring_rate_off: (_, amount) => `the spring’s rate is ${amount} off`,
  wheel_load_off: (_, amount) => `the wheel load is ${amount} off`,
  perch_mark: (_, amount) => `perch heights were taken from a wrong mark, ${amount} off`,
  ride_height_mark: (_, amount) => `the ride height was taken from a wrong mark, ${amount} off`,
  gap_mark: (_, amount) => `the gap was taken from a wrong mark, ${amount} off`,
};

export function causeText({ kind, detail, amount, dimension }: RankedReport, style: NumberStyle): string {
  const sign = amount !== null && amount > 0 ? '+' : '';
  return CAUSES[kind](detail, amount === null ? '' : sign + withUnits(amount, dimension, style));
}

/** `nothing disagrees`, or what to do: one sentence, then what settles it. */
export function causeHeadline(
  { cause }: UnitAudit,
  style: NumberStyle,
): { readonly lead: string; readonly rest: string } {
  const { verdict, ranked, named, measure } = cause;
  const said = ranked.slice(0, named).map((one) => causeText(one, style));
  const settle =
    measure === null
      ? ' Look at the parts themselves.'
      : ` ${measure.again ? 'Measure again' : 'Measure as well'}: ${KIND_LABELS[measure.kind]}.`;
  const [lead, rest] = HEADLINES[verdict](said, settle);
  return { lead, rest };
}

type Headline = (said: readonly string[], settle: string) => readonly [lead: string, rest: string];

const HEADLINES: Readonly<Record<UnitAudit['cause']['verdict'], Headline>> = {
  consistent: () => [
    'Nothing disagrees.',
    'What was measured lies within tolerance of what was predicted, all of it taken together.',
  ],
  cause: ([first = '']) => [
    'Likeliest cause:',
    `${first}. Look there first. What follows takes it as it is now: put it right, and measure again.`,
  ],
  several: (said, settle) => [
    'One of these:',
    `${said.join('; or ')}. The measurements cannot tell them apart.${settle} What follows takes the first of them as it is now.`,
  ],
  unexplained: (_, settle) => [
    'Not explained by one cause.',
    `The measurements disagree with the prediction, and nothing that could be wrong by itself explains them clearly.${settle} Do not rely on the corrected numbers until it is settled.`,
  ],
};

/** `1 in 3,000` is said as a share: less than 0.1 % as such. */
export function chanceText(chance: number): string {
  if (chance >= 0.1) return `${(100 * chance).toFixed(0)} %`;
  return chance >= 0.001 ? `${(100 * chance).toFixed(1)} %` : 'below 0.1 %';
}

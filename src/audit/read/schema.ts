/** Fields of a file of measurements: the one table of them, as the scenario's is. */
import * as z from 'zod';
import type { Complaint } from '../../input/problems/problems.ts';
import { badText, either, quantityInWords, shown } from '../../input/problems/value.ts';
import { COMMON, type CommonBand, usual } from '../../input/schema/commonBands.ts';
import { checkedText, choice, complain, fields, one, optional, withDefault } from '../../input/schema/leaves.ts';
import { DEFAULT_ENDS, END_NAMES } from '../../input/schema/parts.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { ObservationKind, Predicted } from '../fit/observations.ts';

export const MEASURED_VERSION = 1;

const version = z
  .unknown()
  .transform((value, ctx): typeof MEASURED_VERSION => {
    if (value !== MEASURED_VERSION) complain(ctx, [], badVersion(value));
    return MEASURED_VERSION;
  })
  .meta({ const: MEASURED_VERSION, description: 'version of this format' });

const length = (text: string, band: { readonly usual: CommonBand }) => optional(one('length', 'positive', text, band));

const snugGap = fields({
  perch: one('length', 'positive', 'lower eye centre to the perch seat', COMMON.perch),
  gap: one(
    'length',
    'not_negative',
    'what the bump stop meets (top of the body, or of a proud sleeve) to the stop, the spring just snug',
    COMMON.gap,
  ),
});

const standingHeight = fields({
  perch: one('length', 'positive', 'lower eye centre to the perch seat', COMMON.perch),
  ride_height: one(
    'length',
    'positive',
    'hub centre to arch lip, the car on its wheels, settled, at the design load',
    COMMON.hubToArch,
  ),
});

const sleeveToIsolator = fields({
  distance: one(
    'length',
    'any',
    'sleeve top to the face of the isolator (without one: of the mount) the spring rests on',
    usual(-50, 300),
  ),
  damper_length: optional(
    one('length', 'positive', 'lower eye centre to rod shoulder at that moment', COMMON.damperLength),
    'taken with the damper fully extended',
  ),
});

const measurements = {
  free_length: length('main spring, lying free', COMMON.freeLength),
  wire: length('wire diameter of the main spring, over its coating', COMMON.wire),
  coils: optional(one('ratio', 'positive', 'all coils of the main spring, counted', { most: 100, ...COMMON.coils })),
  ends: withDefault(choice(END_NAMES, 'shape of the spring ends'), DEFAULT_ENDS),
  rate: optional(one('rate', 'positive', 'rate of the main spring, in a press over two lengths', COMMON.rate)),
  helper_free_length: length('helper spring, lying free', COMMON.helperFreeLength),
  sleeve_length: length('length of the sleeve, once cut', usual(20, 350)),
  stop_length: length('length of the bump stop, once cut', COMMON.stopLength),
  lowest_perch: length(
    'lower eye centre to the perch seat, the perch down on its lock ring at the sleeve’s foot',
    COMMON.perch,
  ),
  sleeve_to_isolator: optional(
    sleeveToIsolator.describe('sleeve top to isolator, along the damper, with the unit assembled'),
  ),
  extended_gap: optional(
    one(
      'length',
      'not_negative',
      'what the bump stop meets to the stop, the damper fully extended; the spring may be in or out',
      COMMON.gap,
    ),
  ),
  snug_gaps: withDefault(
    z
      .array(snugGap)
      .max(2)
      .describe('the gap to the bump stop with the spring just snug, at one or two places of the perch'),
    [],
    'not measured',
  ),
  standing: withDefault(
    z.array(standingHeight).max(6).describe('ride heights reached, and where the perch was'),
    [],
    'not measured',
  ),
  wheel_load: optional(
    one('mass', 'positive', 'this wheel on the scales at the design load, driver included', COMMON.wheelLoad),
  ),
};

const unit = fields(measurements).superRefine(checkUnit);
export type UnitFields = z.output<typeof unit>;

const axle = fields({
  ...measurements,
  left: optional(unit.describe('what was measured on the left alone')),
  right: optional(unit.describe('what was measured on the right alone')),
}).superRefine(checkUnit);
export type AxleFields = z.output<typeof axle>;

const readings = fields({
  length: withDefault(one('length', 'positive', 'lengths with a rule or caliper', usual(0.01, 3)), '0.5 mm'),
  ride_height: withDefault(one('length', 'positive', 'ride heights', usual(0.1, 10)), '2 mm'),
  wheel_load: withDefault(one('mass', 'positive', 'wheel loads on the scales', usual(0.1, 20)), '2 kg'),
  wire: withDefault(one('length', 'positive', 'wire diameter with a caliper', usual(0.01, 0.5)), '0.05 mm'),
  coils: withDefault(one('ratio', 'positive', 'coils counted', { most: 2, ...usual(0.01, 0.5) }), 0.1),
  rate: withDefault(one('share', 'positive', 'rate in a press', usual(0.1, 10)), '2 %'),
}).describe('half-widths: how well each kind of thing was read');

export const measured = fields({
  springsift_measured: version,
  combination: optional(
    checkedText('id of the combination that was built, e.g. `low-F4F7-R2KD-7Q`', /^\S{1,80}$/u, badText),
  ),
  best_of: optional(checkedText('name of the setup whose best combination was built', /^\S{1,12}$/u, badText)),
  readings: withDefault(readings, {}),
  front: optional(axle.describe('what was measured on the front units'), 'not measured'),
  rear: optional(axle.describe('what was measured on the rear units'), 'not measured'),
}).superRefine((m, ctx) => {
  if ((m.combination === undefined) === (m.best_of === undefined)) complain(ctx, [], oneBuild());
});
export type MeasuredFields = z.output<typeof measured>;

function checkUnit(u: z.output<z.ZodObject<typeof measurements>>, ctx: z.core.$RefinementCtx): void {
  if ((u.wire === undefined) !== (u.coils === undefined)) {
    complain(ctx, [u.wire === undefined ? 'coils' : 'wire'], wireWithCoils(), true);
  }
  const [one, other] = u.snug_gaps;
  if (one && other && one.perch === other.perch) complain(ctx, ['snug_gaps', 1, 'perch'], samePerch(one.perch));
}

// Sentences about a file of measurements.

export const MEASURED_FILE = 'a file of measurements (YAML)';

export function badVersion(value: unknown): Complaint {
  return {
    found: shown(value),
    expected: 'the format version `1`',
    advice: 'start the file with `springsift_measured: 1`; a higher number needs a newer version of the program',
  };
}

export function oneBuild(): Complaint {
  return {
    found: 'not exactly one of `combination` and `best_of`',
    expected: 'what was built: the id of a combination, or the setup whose best one it is',
    advice: 'write `combination: ID` with the id from the report, or `best_of: SETUP`',
  };
}

export function wireWithCoils(): Complaint {
  return {
    found: 'only one of `wire` and `coils`',
    expected: 'both: solid height is wire times coils',
    advice: 'measure the other one too, or leave both out',
  };
}

export function samePerch(perch: number): Complaint {
  return {
    found: `the same perch height twice: ${quantityInWords(perch, 'mm')}`,
    expected: 'two places of the perch',
    advice: 'wind the perch before the second gap, or leave one of them out',
  };
}

export function nothingMeasured(): Complaint {
  return {
    found: 'no measurement',
    expected: 'at least one measurement under `front` or `rear`',
    advice: 'take the `#` off the lines that you measured, and write the values behind them',
  };
}

export function notThisBuild(id: string, reason: 'form' | 'check' | 'setup' | 'index'): Complaint {
  const advice = 'copy the id from the report, the CSV or the terminal of this scenario as it is now';
  const found = shown(id);
  if (reason === 'form') return { found, expected: 'an id like `low-F4F7-R2KD-7Q`', advice };
  return { found: `${found}, which is not of this scenario`, expected: 'the id of one of its combinations', advice };
}

export function noSuchSetup(name: string, setups: readonly string[]): Complaint {
  return {
    found: `the unknown setup ${shown(name)}`,
    expected: either(setups.map((s) => `\`${s}\``)),
    advice: 'name a setup of the scenario',
  };
}

export function solidAboveFree(solid: number, free: number): Complaint {
  return {
    found: `wire times coils of ${quantityInWords(solid, 'mm')}`,
    expected: `less than the free length of ${quantityInWords(free, 'mm')}`,
    advice: 'measure wire, coils and free length again',
  };
}

// An empty file of measurements for one build: every field commented out, with what is predicted of it beside it.

export interface Blank {
  readonly scenario: string;
  readonly combination: string;
  readonly predicted: Readonly<Record<AxleName, readonly Predicted[]>>;
}

const WIDTH = 46;

/** YAML text that says, line by line, what to measure and what is predicted. It holds no measurement. */
export function blankMeasurements({ scenario, combination, predicted }: Blank): string {
  const name = scenario.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ');
  return [
    `# Measurements of a build of: ${name}`,
    '# Take the # off the lines you measured and write your own values. Leave out what you did not measure.',
    '# Units as you like: 279.5 mm, 11 in. Lengths run along the damper; perch heights: lower eye centre to perch seat.',
    '# A compressed spring stores enough energy to kill: measure gaps with the spring just snug, never compressed by hand.',
    `springsift_measured: ${MEASURED_VERSION}`,
    `combination: ${combination}`,
    '',
    '# How well each kind of thing was read, either way (these are the defaults):',
    '# readings: { length: 0.5 mm, ride_height: 2 mm, wheel_load: 2 kg, wire: 0.05 mm, coils: 0.1, rate: 2 % }',
    ...AXLE_NAMES.flatMap((axle) => axleLines(axle, predicted[axle])),
    '',
  ].join('\n');
}

function axleLines(axle: AxleName, predicted: readonly Predicted[]): string[] {
  const hint = (kind: ObservationKind, digits = 1, unit = 'mm') => {
    const found = predicted.find((p) => p.kind === kind);
    return found ? `predicted ${found.value.toFixed(digits)} ${unit}` : '';
  };
  const at = (kind: ObservationKind) => predicted.find((p) => p.kind === kind)?.perch?.toFixed(1) ?? '';
  const line = (field: string, what: string, expected: string) =>
    `  ${`# ${field}`.padEnd(WIDTH)}# ${[what, expected].filter((text) => text !== '').join('; ')}`;
  const helper = predicted.some(({ kind }) => kind === 'helper_free_length')
    ? [line('helper_free_length:    mm', 'helper lying free', hint('helper_free_length'))]
    : [];
  const value = (kind: ObservationKind) => predicted.find((p) => p.kind === kind)?.value ?? 0;
  // A gap longer than the extended damper's is one that no bench can show: the spring is squeezed already.
  const snugLines = () =>
    value('snug_gap') > value('extended_gap')
      ? ['  # (no snug_gaps: fully extended, the damper squeezes this spring even with the perch at its lowest)']
      : [
          line('snug_gaps:', 'body to stop, the spring just snug, one or two places', ''),
          line(`  - { perch: ${at('snug_gap')} mm, gap:    mm }`, 'write the perch height you read', hint('snug_gap')),
        ];
  return [
    '',
    `${axle}:`,
    line('free_length:    mm', 'main spring lying free', hint('free_length')),
    line('wire:    mm', 'over its coating', ''),
    line('coils:', 'all of them', `wire times coils ${hint('solid_height')}`),
    line('rate:    N/mm', 'in a press, over two lengths', hint('rate', 2, 'N/mm')),
    ...helper,
    line('sleeve_length:    mm', 'once cut', hint('sleeve_length')),
    line('stop_length:    mm', 'once cut', hint('stop_length')),
    line('lowest_perch:    mm', 'perch down on its lock ring', hint('lowest_perch')),
    line('sleeve_to_isolator: { distance:    mm }', 'damper fully extended', hint('sleeve_to_seat')),
    line('extended_gap:    mm', 'body to stop, damper fully extended', hint('extended_gap')),
    ...snugLines(),
    line('standing:', 'on its wheels, rolled and settled, at the design load', ''),
    line(`  - { perch: ${at('ride_height')} mm, ride_height:    mm }`, 'hub to arch', hint('ride_height')),
    line('wheel_load:    kg', 'this wheel on the scales', hint('wheel_load', 1, 'kg')),
    '  # left: { }                                 # the same fields, where the sides differ; what stands above holds for both',
    '  # right: { }',
  ];
}

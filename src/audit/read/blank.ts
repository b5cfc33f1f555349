/** An empty file of measurements for one build: every field commented out, with what is predicted of it beside it. */
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { ObservationKind, Predicted } from '../fit/observations.ts';
import { MEASURED_VERSION } from './schema.ts';

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

/** What a measurement decides, in words: the numbers it moves most when it is off by its tolerance. */
import { CONTACT_LABELS } from '../../domain/corner/contactLabels.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { STANDS_AT } from '../../domain/tolerance/bands.ts';
import type { AxleEffects, Effect } from '../../domain/tolerance/effects.ts';
import { fixed, PAGE } from '../numbers.ts';
import { measure } from '../read.ts';

const LABELS: Readonly<Record<string, string>> = {
  [STANDS_AT]: 'height it stands at',
  perch_mm: 'perch height',
  bump_travel_mm: 'bump travel',
  droop_travel_mm: 'droop travel',
  slack_mm: 'looseness at droop',
  body_frequency_hz: 'body frequency',
  ...Object.fromEntries(Object.entries(CONTACT_LABELS).map(([name, label]) => [`clearance_${name}_mm`, label])),
};

/** How many numbers are named an axle, and below which part of the whole uncertainty none is. */
const MOST_NAMED = 2;
const LEAST_SHARE = 0.1;

/** Empty where the inputs decide nothing, or no combination is known. Of several setups the greater effect counts. */
export function effectsText(all: readonly AxleEffects[], inputs: readonly string[]): string {
  return AXLE_NAMES.flatMap((axle) => {
    const named = greatest(all, axle, inputs).slice(0, MOST_NAMED);
    return named.length > 0 ? [`${axle} ${named.map(effectText).join(', ')}`] : [];
  }).join('; ');
}

function greatest(all: readonly AxleEffects[], axle: AxleName, inputs: readonly string[]): Effect[] {
  const mine = all
    .filter((one) => one.axle === axle)
    .flatMap(({ effects }) => effects)
    .filter(({ input, key, share }) => inputs.includes(input) && share >= LEAST_SHARE && LABELS[key] !== undefined)
    .sort((a, b) => b.share - a.share);
  return mine.filter(({ key }, k) => mine.findIndex((other) => other.key === key) === k);
}

function effectText({ key, dimension, by, share }: Effect): string {
  const { metric, unit } = measure(by, dimension);
  return `${LABELS[key]} ${metric} ${unit} (${fixed(100 * share, 0, PAGE)} %)`;
}

/** Named sets of wishes: what is usual for a way of using a car, each number overridden by writing its own line. */

import type { Assumption } from '../../model/scenario.ts';
import { innerUnit } from '../../model/units.ts';
import { readQuantity } from '../values/quantity.ts';
import { isMapping } from './issues.ts';
import { COMMON_PRACTICE } from './leaves.ts';

/** Written as a user would. */
interface NamedWishes {
  readonly says: string;
  readonly front: Wishes;
  readonly rear: Wishes;
  readonly balance: Fields;
}
type Fields = Readonly<Record<string, string | number>>;
interface Wishes {
  readonly bump_travel: Fields;
  readonly droop_travel: Fields;
  readonly frequency: Fields;
}

const wishes = (least: string, good: string, droop: string, from: string, to: string): Wishes => ({
  bump_travel: { least, good },
  droop_travel: { least: droop },
  frequency: { from, to },
});

/** Common practice, no source. */
export const WISHES = {
  street: {
    says: 'comfortable',
    front: wishes('45 mm', '75 mm', '45 mm', '1.1 Hz', '1.5 Hz'),
    rear: wishes('45 mm', '75 mm', '45 mm', '1.2 Hz', '1.8 Hz'),
    balance: { target: 1.12, from: 1.0, to: 1.25 },
  },
  firm: {
    says: 'sporting, on roads',
    front: wishes('35 mm', '60 mm', '30 mm', '1.5 Hz', '2.1 Hz'),
    rear: wishes('35 mm', '60 mm', '30 mm', '1.6 Hz', '2.3 Hz'),
    balance: { target: 1.1, from: 1.0, to: 1.22 },
  },
  track: {
    says: 'smooth circuits',
    front: wishes('25 mm', '45 mm', '20 mm', '2.0 Hz', '2.8 Hz'),
    rear: wishes('25 mm', '45 mm', '20 mm', '2.0 Hz', '3.0 Hz'),
    balance: { target: 1.05, from: 0.92, to: 1.2 },
  },
} as const satisfies Readonly<Record<string, NamedWishes>>;

export type NameOfWishes = keyof typeof WISHES;
export const NAMES_OF_WISHES = Object.keys(WISHES) as readonly NameOfWishes[];

/** How far around its target height a car should be adjustable where nobody says, mm. */
const RANGE = 10;

/** Fields of a setup and of its axles that a set of wishes gives. */
export const WISHED: ReadonlySet<string> = new Set([
  'balance',
  'wanted_range',
  'bump_travel',
  'droop_travel',
  'frequency',
]);

export interface Filled {
  readonly data: unknown;
  /** Every number that came from a set. */
  readonly assumptions: readonly Assumption[];
}

/** The data with the wishes of each setup that names a set written out; what the file itself says stays. */
export function fillWishes(data: unknown): Filled {
  if (!isMapping(data) || !Array.isArray(data.setups)) return { data, assumptions: [] };
  const assumptions: Assumption[] = [];
  const setups = data.setups.map((setup: unknown, i: number) => {
    const name = isMapping(setup) ? setup.wishes : undefined;
    if (!isMapping(setup) || typeof name !== 'string' || !isNameOfWishes(name)) return setup;
    const set: NamedWishes = WISHES[name];
    const fill = (path: string, own: unknown, given: Readonly<Record<string, unknown>>) =>
      filled(own, given, (field, value) => {
        assumptions.push({
          field: `setups[${i + 1}].${path}${field}`,
          value,
          source: `wishes: ${name} (${set.says}), ${COMMON_PRACTICE}`,
        });
      });
    const axle = (which: 'front' | 'rear') =>
      fill(`${which}.`, setup[which], { ...rangeAround(setup[which]), ...set[which] });
    return { ...(fill('', setup, { balance: set.balance }) as object), front: axle('front'), rear: axle('rear') };
  });
  return { data: { ...data, setups }, assumptions };
}

function isNameOfWishes(name: string): name is NameOfWishes {
  return Object.hasOwn(WISHES, name);
}

/** Of mappings each field that is missing; what is no mapping is left for the schema to refuse. */
function filled(
  own: unknown,
  given: Readonly<Record<string, unknown>>,
  tell: (field: string, value: string) => void,
): unknown {
  if (!isMapping(own)) return own;
  const entries = Object.entries(given).map(([field, value]) => {
    const written = own[field];
    if (written === undefined) tell(field, inWords(value));
    if (!isMapping(written) || !isMapping(value)) return [field, written ?? value];
    return [field, filled(written, value, (inner, text) => tell(`${field}.${inner}`, text))];
  });
  return { ...own, ...Object.fromEntries(entries) };
}

function inWords(value: unknown): string {
  if (Array.isArray(value)) return value.join(' to ');
  if (!isMapping(value)) return String(value);
  return Object.entries(value)
    .map(([key, item]) => `${key} ${inWords(item)}`)
    .join(', ');
}

/** Around a target height that can be read. */
function rangeAround(target: unknown): { readonly wanted_range?: readonly string[] } {
  const read = readQuantity(isMapping(target) ? target.target_height : undefined, {
    dimension: 'length',
    sign: 'positive',
  });
  if ('complaint' in read) return {};
  const unit = innerUnit('length').symbol;
  return { wanted_range: [read.value - RANGE, read.value + RANGE].map((mm) => `${Number(mm.toFixed(4))} ${unit}`) };
}

/** Every word and sentence of the bench, as a function of its values. */
import { CONTACT, type ContactName } from '../../model/corner/contacts.ts';
import { capital } from '../../model/corner/messages.ts';
import type { Spring } from '../../model/parts.ts';
import type { AxleName, AxleTarget } from '../../model/scenario.ts';
import { millimetres } from '../../report/drawing/words.ts';
import { fixed, PAGE } from '../../report/text/numbers.ts';

/** What a reader can move, in the order of the page. */
export const CONTROL = {
  height: { label: 'ride height, hub to arch', unit: 'mm', dimension: 'length', decimals: 1 },
  perch: { label: 'perch above lower eye', unit: 'mm', dimension: 'length', decimals: 1 },
  trim: { label: 'sleeve trim', unit: 'mm', dimension: 'length', decimals: 1 },
  spacer: { label: 'spacer at the mount', unit: 'mm', dimension: 'length', decimals: 1 },
  stop: { label: 'bump stop as cut', unit: 'mm', dimension: 'length', decimals: 1 },
  load: { label: 'corner load, on the wheel', unit: 'kg', dimension: 'mass', decimals: 1 },
  bump: { label: 'bump load', unit: 'times the sprung load', dimension: 'ratio', decimals: 2 },
} as const;
export type ControlId = keyof typeof CONTROL;

/** One value of the bench that is not as swept, in words. */
export interface Difference {
  /** Null: of the whole setup. */
  readonly axle: AxleName | null;
  readonly what: string;
  readonly now: string;
  readonly swept: string;
}

export const PICTURE = {
  headings: ['clearance at', 'full bump, mm'],
  /** Where the wheel is: from standing into bump or droop. */
  place: (travel: number) =>
    Math.abs(travel) < 0.05 ? 'standing' : `${millimetres(Math.abs(travel))} mm into ${travel > 0 ? 'bump' : 'droop'}`,
  hubToArch: (height: number) => `hub to arch ${millimetres(height)}`,
  damper: (length: number) => `damper ${millimetres(length)}`,
} as const;

export const DIFFERENCES = {
  spring: 'main spring',
  helper: 'helper spring',
  none: 'none',
  closed: 'the stop closed',
  underLoad: (multiple: number) => `${fixed(multiple, 2, PAGE)} times the sprung load`,
} as const;

export const QUANTITY = {
  none: 'no usable height',
  bump: 'bump travel left',
  droop: 'droop travel left',
  thinnest: 'tightest clearance, beyond its margin',
  slack: 'spring at full droop',
  lowest: 'lowest usable height',
  highest: 'highest usable height',
  belowTop: 'perch below sleeve top',
  springForce: 'spring force, standing',
  wheelRate: 'wheel rate',
  balance: 'rear over front frequency',
  atLeast: (least: number) => `at least ${millimetres(least)} asked for`,
  contact: (name: ContactName, closed: number | null) =>
    closed === null
      ? CONTACT[name].label
      : `${CONTACT[name].label}; clearance ${millimetres(closed)} mm with the stop fully closed`,
  slackMeans: (slack: number) => (slack > 0 ? 'loose by that much' : 'below 0: preloaded'),
  endsAt: (limit: string) => `ends at: ${limit}`,
  frequency: (basis: 'body' | 'ride') => `${basis} frequency`,
  window: ({ frequencyFrom, frequencyTo }: AxleTarget) =>
    `${fixed(frequencyFrom, 2, PAGE)} to ${fixed(frequencyTo, 2, PAGE)} Hz asked for`,
  balanceWindow: ({ from, to }: { readonly from: number; readonly to: number }) =>
    `${fixed(from, 2, PAGE)} to ${fixed(to, 2, PAGE)} accepted`,
  loadBump: (name: string) => `bump travel left, ${name}`,
  standsAt: (height: number) => `stands at ${millimetres(height)} hub to arch`,
  swept: 'swept:',
} as const;

export const VERDICT = {
  works: (spare: number, name: ContactName) =>
    `Works: every check passes. Nearest its margin: ${CONTACT[name].label}, ${millimetres(spare)} mm beyond it.`,
  fails: (count: number) => (count === 1 ? 'Fails 1 check.' : `Fails ${count} checks.`),
  otherFails: (axle: AxleName, count: number) =>
    `The ${axle} axle, as it stands on the bench, fails ${count} ${count === 1 ? 'check' : 'checks'} of its own.`,
} as const;

export const RANGE = {
  /** `works 12.5 to 24.0 mm; below: sleeve on isolator; above: end of the slider` */
  works: (from: string, to: string, unit: string, below: string | null, above: string | null) =>
    `works ${from} to ${to} ${unit}; below: ${below ?? END}; above: ${above ?? END}`,
  nowhere: 'works nowhere here, the rest as it is',
  outside: 'outside',
} as const;

const END = 'end of the slider';

export const FRAGMENT = {
  heading: (setup: string, id: string) => [
    `springsift bench: changes to ${id}, setup ${setup}.`,
    'Put each list and value in place of the one in your scenario; leave everything else as it is.',
  ],
  spring: ({ solid }: Spring) =>
    solid.source === 'estimated'
      ? [`The solid height is an estimate, ${millimetres(solid.height)} mm: keep any estimate settings of your own.`]
      : solid.source === 'wire x coils'
        ? ['The solid height is wire times coils; measure it.']
        : [],
} as const;

export const MESSAGE = {
  heading: (title: string, setup: string, id: string) =>
    `springsift report “${title}”, setup ${setup}, combination ${id}, with these changes:`,
  change: ({ axle, what, now, swept }: Difference) => `- ${axle ? `${axle}: ` : ''}${what} ${now} instead of ${swept}`,
  verdict: (axle: AxleName) => `The ${axle} axle by the model:`,
  caution: 'Computed by a model from the scenario’s numbers; measure before you cut or fit anything.',
} as const;

export const NOTE = {
  one: ({ axle, what, now, swept }: Difference) => `${axle ? `${axle}: ` : ''}${what} ${now}, swept ${swept}`,
} as const;

export const PICK = {
  setup: 'Setup',
  start: 'Start from',
  axle: 'Axle',
  held: 'While other values change, hold',
  full: 'Full bump is',
  closedOnly: 'Full bump is the stop closed: a bump load needs the force curves of all bump stops.',
  plan: 'the plan',
  alone: (rank: number) => `${rank} for this setup alone`,
  combination: (which: string, id: string, springs: readonly string[]) => `${which}: ${springs.join(' / ')} (${id})`,
  failing: (text: string, limit: string) => `${text} \u2013 fails: ${limit}`,
  spring: ({ name, freeLength, rate, rateEstimated }: Spring) =>
    `${name}, ${millimetres(freeLength)} mm, ${fixed(rate, 2, PAGE)} N/mm${rateEstimated ? ' (estimate)' : ''}`,
} as const;

export const AXLE_LABELS = { front: 'front', rear: 'rear' } as const;
export const HELD_LABELS = { height: 'the ride height', perch: 'the perch' } as const;
export const FULL_LABELS = { closed: 'the stop closed', load: 'the balance under a bump load' } as const;

export const DRAWING = {
  works: (axle: AxleName) => `${capital(axle)}: works`,
  fails: (axle: AxleName, count: number) => `${capital(axle)}: fails ${count} ${count === 1 ? 'check' : 'checks'}`,
  travel: 'Wheel travel',
  ends: ['full droop', 'standing', 'full bump'],
  picture: (axle: AxleName, place: string) =>
    `${capital(axle)} corner to scale, ${place}; its clearances stand in the table below`,
} as const;

export const TABLE = {
  caption: 'Clearances on the bench, mm along the damper',
  headers: ['clearance, mm', 'now', 'at full bump', 'margin', 'beyond it'],
  columns: ['now', 'clearance', 'margin', 'spare'],
  fails: 'fails',
  thinnest: 'nearest its margin',
  estimate: 'solid height: estimate',
  closed: (mm: number) => `${millimetres(mm)} with the stop fully closed`,
} as const;

export const ACTIONS = {
  differs:
    'Values on the bench differ from the swept result. Only this section shows them; the rest of the page is as swept:',
  fragment: 'Copy as scenario lines',
  message: 'Copy as a message',
  reset: 'Back to the swept values',
  hint: 'Changed values stand in the page’s address too: keep or send the address with the file.',
  text: 'Copied text',
  copied: 'Copied.',
  select: 'Your browser did not let the page copy: the text is selected, copy it by hand.',
} as const;

export const NOTES = {
  standing: 'standing',
  stop: 'the stop just met',
  full: 'full bump',
  droop: 'full droop',
  estimatedRate: (name: string) => `The rate of ${name} is an estimate from wire, coils and bore.`,
} as const;

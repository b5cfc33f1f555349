/** Every sentence about a corner or a pair that a person can read, as a function of its numbers. */
import { type CheckName, SPIGOT_ENGAGEMENT } from './checks.ts';
import { CONTACT_LABELS } from './corner/contactLabels.ts';
import { CLEAR_OF_STOP, CLOSED_BY, type Finding } from './corner/findings.ts';
import type { StressDoubt, StressLine } from './corner/stress.ts';

export const mm = (value: number) => `${value.toFixed(1)} mm`;

const FIT_LABELS: Readonly<Record<string, string>> = {
  spring_over_sleeve: 'the spring’s bore over the sleeve',
  spring_over_spigot: 'the spring’s bore over the perch’s spigot',
  sleeve_over_body: 'the sleeve’s bore over the damper body',
  helper_over_sleeve: 'the helper’s bore over the sleeve',
  coupler_over_sleeve: 'the coupler’s bore over the sleeve',
  stop_in_mount: 'the bump stop inside the mount’s bore',
  stop_in_isolator: 'the bump stop inside the isolator’s bore',
};

const UNIT_OF_CHECK: Partial<Record<CheckName, string>> = {
  unloaded_spring: 'N',
  overstressed: 'MPa',
  frequency: 'Hz',
  balance: '',
};

/** Unit in which a check counts its shortfall: mm unless said otherwise. */
export function unitOfCheck(check: CheckName): string {
  return UNIT_OF_CHECK[check] ?? 'mm';
}

type Sentence = (f: Finding) => string;

const SENTENCES: Readonly<Record<CheckName, Sentence>> = {
  fit: fitSentence,
  unloaded_spring: (f) =>
    `The spring carries nothing at ride height: gas and bump stop push ${Math.abs(f.found).toFixed(0)} N more than the load needs.`,
  damper_bottoms: contactSentence,
  sleeve_metal: contactSentence,
  body_metal: contactSentence,
  tyre_on_arch: contactSentence,
  coil_bind: contactSentence,
  bump_travel: (f) => travelSentence('Bump', f),
  droop_travel: (f) => travelSentence('Droop', f),
  perch_low: (f) => `The perch would have to be at ${mm(f.found)}, below its lowest place ${mm(f.needed)}.`,
  perch_high: (f) => `The perch would have to be at ${mm(f.found)}, above its highest place ${mm(f.needed)}.`,
  spring_loose: (f) =>
    f.detail === SPIGOT_ENGAGEMENT
      ? `At full droop the spring is ${mm(f.found)} loose, more than the ${mm(f.needed)} its seats hold: it can leave its seat.`
      : `At full droop the spring is ${mm(f.found)} loose; ${mm(Math.max(0, f.needed))} is allowed.`,
  overstressed: (f) => stressSentence(f.detail as StressDoubt['place'], { stress: f.found, allowed: f.needed }),
  frequency: frequencySentence,
  balance: (f) =>
    `Rear over front frequency is ${f.found.toFixed(3)}, ${f.detail === 'lowest' ? 'below' : 'above'} ${f.needed.toFixed(3)}.`,
};

export function findingMessage(finding: Finding): string {
  return SENTENCES[finding.check](finding);
}

const STRESS_PLACES: Readonly<Record<StressDoubt['place'], readonly [where: string, allowed: string]>> = {
  solid: ['pressed solid', '0.56 of its strength, EN 13906-1, from memory'],
  'full bump': ['at full bump', '0.50 of its strength, older DIN 2089, from memory'],
};

export function stressSentence(place: StressDoubt['place'], { stress, allowed }: StressLine): string {
  const [where, share] = STRESS_PLACES[place];
  return `The spring’s stress ${where} is ${stress.toFixed(0)} MPa; ${allowed.toFixed(0)} MPa is allowed (${share}).`;
}

function contactSentence(f: Finding): string {
  const [name, side] = f.detail.split(':');
  const label = CONTACT_LABELS[name as keyof typeof CONTACT_LABELS];
  const what = side === undefined ? label : `${side} side, at its own load: ${label}`;
  const metal = f.found < 0 ? `before full bump, by ${mm(-f.found)}` : `with only ${mm(f.found)} to spare at full bump`;
  return `${capital(what)} ${metal}; the margin asks for ${mm(f.needed)}.`;
}

function fitSentence(f: Finding): string {
  if (f.detail === 'thread_start')
    return `The nut would bottom on the plain shank: ${mm(-f.found)} more stack is needed below it.`;
  if (f.detail === 'thread_end')
    return `Nut and jam nut would not be on full thread: the thread ends ${mm(-f.found)} too early.`;
  const what = FIT_LABELS[f.detail] ?? f.detail;
  return `Does not fit: ${what} has ${mm(f.found)} on diameter, ${mm(f.needed)} is needed.`;
}

function travelSentence(way: string, f: Finding): string {
  if (f.detail === CLEAR_OF_STOP) return `The car would stand ${mm(-f.found)} into its bump stop.`;
  if (f.detail.startsWith(CLOSED_BY))
    return `Under ${f.detail.slice(CLOSED_BY.length)} the car would close its bump stop fully and rest on metal: the perch would have to be ${mm(-f.found)} higher.`;
  const state = f.detail === 'design load' ? '' : ` (${f.detail})`;
  return `${way} travel left${state} is ${mm(f.found)}; at least ${mm(f.needed)} is asked for.`;
}

function frequencySentence(f: Finding): string {
  if (f.detail === 'unstable') {
    return `No stable ride height: the wheel rate is ${f.found.toFixed(2)} N/mm, and must be above 0.`;
  }
  return `The frequency is ${f.found.toFixed(3)} Hz, ${f.detail === 'lowest' ? 'below' : 'above'} the ${f.needed.toFixed(3)} Hz asked for.`;
}

/** Names of the limits that end a height window. */
export function limitLabel(limit: string): string {
  const [name = '', state] = limit.split(':');
  const label = LIMIT_LABELS[name] ?? CONTACT_LABELS[name as keyof typeof CONTACT_LABELS] ?? name;
  return state === undefined ? label : `${label} (${state})`;
}

const LIMIT_LABELS: Readonly<Record<string, string>> = {
  bump_stop: 'on the bump stop',
  bump_travel: 'least bump travel',
  droop: 'full droop',
  droop_travel: 'least droop travel',
  perch_low: 'perch at its lowest',
  perch_high: 'perch at its highest',
  spring_loose: 'spring loose at droop',
  coil_bind: 'coil bind',
  overstressed: 'spring overstressed at full bump',
  unloaded_spring: 'spring unloaded',
  frequency_from: 'lowest frequency asked for',
  frequency_to: 'highest frequency asked for',
};

/** In place of a force or rate that a stop without a curve has a part in. */
export const STOP_FORCE_UNKNOWN = 'not known, the stop’s force is not given';

export const notes = {
  plansOmitted: (judged: number, most: number) =>
    `No plan over the setups was looked for: ${millions(judged)} million combinations are too many, ${millions(most)} million the most. Narrow the ranges around the best of each setup to plan with shared parts.`,
};

function millions(count: number): string {
  return Math.ceil(count / 1e6).toFixed(0);
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Every sentence about a corner or a pair that a person can read, as a function of its numbers. */
import { CHECK_LABELS, type CheckName } from './checks.ts';
import { CONTACT_LABELS } from './corner/contactLabels.ts';
import type { Finding } from './corner/findings.ts';
import type { Breach } from './validity.ts';

const mm = (value: number) => `${value.toFixed(1)} mm`;

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
    f.detail === 'spigot engagement'
      ? `At full droop the spring is ${mm(f.found)} loose, more than the ${mm(f.needed)} its seats hold: it can leave its seat.`
      : `At full droop the spring is ${mm(f.found)} loose; ${mm(Math.max(0, f.needed))} is allowed.`,
  overstressed: (f) =>
    `The spring’s stress at full bump is ${f.found.toFixed(0)} MPa; ${f.needed.toFixed(0)} MPa is allowed (0.56 of its strength, EN 13906-1, from memory).`,
  frequency: frequencySentence,
  balance: (f) =>
    `Rear over front frequency is ${f.found.toFixed(3)}, ${f.detail === 'lowest' ? 'below' : 'above'} ${f.needed.toFixed(3)}.`,
};

export function findingMessage(finding: Finding): string {
  return SENTENCES[finding.check](finding);
}

function contactSentence(f: Finding): string {
  const what = CONTACT_LABELS[f.detail as keyof typeof CONTACT_LABELS];
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
  if (f.detail === 'clear of the stop') return `The car would stand ${mm(-f.found)} into its bump stop.`;
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
};

export const notes = {
  plansOmitted: (judged: number, most: number) =>
    `No plan over the setups was looked for: ${millions(judged)} million combinations are too many, ${millions(most)} million the most. Narrow the ranges around the best of each setup to plan with shared parts.`,
};

function millions(count: number): string {
  return Math.ceil(count / 1e6).toFixed(0);
}

export const flags = {
  sideFails: (axle: string, side: string, load: number, check: CheckName, { message, shortfall, unit }: Missing) =>
    `${capital(axle)} ${side}, at its own load of ${load.toFixed(1)} kg: ${CHECK_LABELS[check]}${shortfall === null ? '' : `, by ${amount(shortfall, unit)}`}. ${message}`,
  outsideMotion: (axle: string, places: readonly (readonly [string, number])[]) =>
    `${capital(axle)}: outside the measured motion, where the curve goes on straight: ${places.map(([place, height]) => `${place} (${mm(height)})`).join(', ')}.`,
  outsideValidity: (axle: string, name: string, { row, value }: Breach) =>
    `${capital(axle)}: ${name}: ${row.quantity} ${`${value.toFixed(1)} ${row.unit}`.trim()} lies outside the range of ${row.what}, ${rangeText(row)} (${row.source}).`,
  doubtfulSolid: (axle: string, name: string, share: number) =>
    `${capital(axle)}: the solid height given for ${name} would stress its wire to ${share.toFixed(2)} of its strength at solid; springs are made for about 0.56. Ask the seller or measure: the true height may be greater.`,
  fewPairs: (axle: string, pairs: number) =>
    `${capital(axle)}: with ${pairs} measured ${pairs === 1 ? 'pair' : 'pairs'} the slope of the motion ratio is taken as 0; four or more pairs would show it.`,
  estimatedSolid: (axle: string, name: string, least: number, most: number) =>
    `${capital(axle)}: the solid height of ${name} is an estimate, ${mm(least)} to ${mm(most)}; coil bind is judged on ${mm(most)}. Measure or ask before you buy.`,
  estimatedRate: (axle: string, name: string, rate: number, share: number) =>
    `${capital(axle)}: the rate of ${name}, ${rate.toFixed(1)} N/mm, is an estimate from wire, coils and bore, good to ${(100 * share).toFixed(0)} % either way. Measure it in a press before you fit it.`,
  wireTimesCoils: (axle: string, name: string) =>
    `${capital(axle)}: the solid height of ${name} is wire times coils; half a coil miscounted is half a wire diameter.`,
  stressNotChecked: (axle: string, name: string) =>
    `${capital(axle)}: the stress of ${name} is not checked, its wire is not known.`,
  rodEndNotChecked: (axle: string) =>
    `${capital(axle)}: thread and nuts on the rod end are not checked, no rod end is given.`,
  metalBeyondFull: (axle: string, what: string, past: number) =>
    `${capital(axle)}: beyond the bump load, ${what} comes ${mm(past)} before the stop is fully closed: a harder hit finds metal.`,
  helperLonger: (axle: string) => `${capital(axle)}: the helper outlasts the main spring, an odd choice.`,
  helperNearStanding: (axle: string, share: number) =>
    `${capital(axle)}: the helper closes at ${(100 * share).toFixed(0)} % of the standing spring force: the rate jumps between load states.`,
  damping: (axle: string, zeta: number, from: number, to: number) =>
    `${capital(axle)}: the damping ratio ${zeta.toFixed(2)} lies outside ${from.toFixed(2)} to ${to.toFixed(2)}.`,
  olley: (below: number, bounceOverPitch: number, faster: number) =>
    `Olley’s criterion for a flat ride (from memory, information only): the front ride rate is ${Math.abs(below).toFixed(0)} % ${below < 0 ? 'above' : 'below'} the rear’s, about 30 % below is asked for; bounce is ${bounceOverPitch.toFixed(2)} times pitch, below 1.2 is asked for; the faster of the two is ${faster.toFixed(2)} Hz, up to about 1.3 Hz is asked for. Firm cars miss it knowingly.`,
  stopForceUnknown: (axle: string) =>
    `${capital(axle)}: the bump stop has no force curve, so a load case that reaches it is shown with the stop fully closed.`,
  unpriced: (names: readonly string[]) => `No price for ${names.join(', ')}: no total is given.`,
  looseSleeve: (axle: string, slop: number) =>
    `${capital(axle)}: the sleeve is ${mm(slop)} wider than the damper body; a shim or a wrap of tape takes it up.`,
  noWindow: (axle: string) => `${capital(axle)}: no height window, the balance is not stable over the range.`,
};

/** What a failing check lacks, with its sentence. */
interface Missing {
  readonly message: string;
  readonly shortfall: number | null;
  readonly unit: string;
}

function amount(shortfall: number, unit: string): string {
  return `${shortfall.toFixed(unit === 'mm' ? 1 : 3)} ${unit}`.trim();
}

function rangeText({ from, to, unit }: Breach['row']): string {
  const bounds = from === null ? `up to ${to}` : to === null ? `from ${from}` : `${from} to ${to}`;
  return `${bounds} ${unit}`.trim();
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

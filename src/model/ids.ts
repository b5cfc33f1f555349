/**
 * Short ids for combinations, the same on paper, in CSV, JSON and terminal: `low-F4F7-R2KD-7Q`.
 * Setup, then the front and the rear combination's index in base 32 (no I, L, O, U: they are misread on paper),
 * then two check characters over all of it and the scenario's parts, so that a typing error or an id that belongs to
 * another version of the scenario is recognised.
 */
import { AXLE_NAMES, type AxleName, FAMILIES, type Family, type Scenario, type Setup } from './scenario.ts';

const DIGITS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const LETTERS: Readonly<Record<AxleName, string>> = { front: 'F', rear: 'R' };

export interface PairId {
  readonly setup: string;
  readonly front: number;
  readonly rear: number;
}

export function toBase32(value: number): string {
  let text = '';
  let rest = value;
  do {
    text = DIGITS.charAt(rest % 32) + text;
    rest = Math.floor(rest / 32);
  } while (rest > 0);
  return text;
}

/** The number a base-32 text stands for; NaN where a character is none of ours. */
export function fromBase32(text: string): number {
  let value = 0;
  for (const letter of text.toUpperCase()) {
    const digit = DIGITS.indexOf(letter);
    if (digit < 0) return Number.NaN;
    value = value * 32 + digit;
  }
  return text === '' ? Number.NaN : value;
}

export function cornerId(axle: AxleName, index: number): string {
  return LETTERS[axle] + toBase32(index);
}

export function pairId(id: PairId, fingerprint: string): string {
  const body = `${id.setup}-${cornerId('front', id.front)}-${cornerId('rear', id.rear)}`;
  return `${body}-${checkCharacters(body, fingerprint)}`;
}

export type ParsedId =
  | { readonly ok: true; readonly id: PairId }
  | { readonly ok: false; readonly reason: 'form' | 'check' };

/** Reads an id back; case does not matter. `check`: well formed, but not of this scenario (or mistyped). */
export function parsePairId(text: string, fingerprint: string): ParsedId {
  const match = /^([a-z0-9_]+)-F([0-9A-Z]+)-R([0-9A-Z]+)-([0-9A-Z]{2})$/i.exec(text.trim());
  if (!match) return { ok: false, reason: 'form' };
  const [, setup = '', frontText = '', rearText = '', check = ''] = match;
  const id = { setup: setup.toLowerCase(), front: fromBase32(frontText), rear: fromBase32(rearText) };
  if (Number.isNaN(id.front) || Number.isNaN(id.rear)) return { ok: false, reason: 'form' };
  const wanted = pairId(id, fingerprint).slice(-2);
  return check.toUpperCase() === wanted ? { ok: true, id } : { ok: false, reason: 'check' };
}

function checkCharacters(body: string, fingerprint: string): string {
  const hash = fnv1a(`${body}|${fingerprint}`);
  return DIGITS.charAt(hash % 32) + DIGITS.charAt(Math.floor(hash / 32) % 32);
}

/**
 * All that a setup asks of the corners of one axle. Of one scenario, setups with the same text judge the axle's corners
 * alike, whatever they are called and ask of the other axle.
 */
export function askedOf(setup: Setup, axle: AxleName): string {
  // JSON knows neither infinities nor what is no number.
  const asText = (_: string, value: unknown) => (typeof value === 'number' ? String(value) : value);
  return JSON.stringify({ ...setup, name: axle, axles: setup.axles[axle] }, asText);
}

/** Digest of the option tables: what an index stands for. Ride heights and wishes do not enter. */
export function fingerprintOf(scenario: Scenario): string {
  const known = FINGERPRINTS.get(scenario) ?? newFingerprint(scenario);
  FINGERPRINTS.set(scenario, known);
  return known;
}

/** Those worked out before: reading thousands of springs takes a while. */
const FINGERPRINTS = new WeakMap<Scenario, string>();

function newFingerprint(scenario: Scenario): string {
  const tables = AXLE_NAMES.map((axle) => FAMILIES.map((family) => canonicalText(scenario, axle, family)));
  return fnv1a(`[${tables.map((texts) => `[${texts.join()}]`).join()}]`)
    .toString(16)
    .padStart(8, '0');
}

function canonicalText({ axles }: Scenario, axle: AxleName, family: Family): string {
  const keys = KEYS[family].split(' ');
  return JSON.stringify(axles[axle].options[family], (key, value) =>
    value === null || typeof value !== 'object' || Array.isArray(value)
      ? tenDigits(key, value)
      : Object.fromEntries(inOrder(value, keys).map((name) => [name, value[name]])),
  );
}

/** The fixed keys, then those added later that have a value, by name. */
function inOrder(part: Readonly<Record<string, unknown>>, fixed: readonly string[]): readonly string[] {
  const later = Object.keys(part).filter(
    (key) => !fixed.includes(key) && !UNHASHED.includes(key) && (part[key] ?? null) !== null,
  );
  return [...fixed.filter((key) => key in part), ...later.sort()];
}

/** The swept fields of a part in the order of the digits that its choices have in an index: the last turns fastest. */
export function digitOrder(family: Family, fields: Readonly<Record<string, unknown>>): readonly string[] {
  return inOrder(fields, KEYS[family].split(' '));
}

/** What a damper's body is changes the advice, not the parts, and notes change nothing: an id outlives finding out. */
const UNHASHED: readonly string[] = ['body', 'notes'];

/**
 * The keys of a part and of the records inside it, in the order in which every id so far was made, its digits too: nothing is ever added
 * here, moved or renamed. A field added to a part later is `null` or `undefined` wherever a scenario does not set it -
 * never a default number, which its readers fill in - and enters the digest only with a value: ids printed before stay.
 */
const KEYS: Readonly<Record<Family, string>> = {
  damper:
    'name price gas kind outForce inForce chargePressure rodArea gasVolume forceVelocity velocity bump rebound ' +
    'extended compressed bodyLength bodyDiameter',
  mount:
    'name price bareRaise spacer flangeDepth bore spigot lowerBush washers washerDiameter bushGive raise seat bolted',
  isolator: 'name price thickness bore spigot',
  bumpStop:
    'name price curve measuredLength points squeeze force closedAtForce uncutLength length closedFraction diameter ' +
    'packer packerDiameter',
  rodEnd: 'name price threadStart threadEnd plateThickness upperBush upperWashers nut jamNut',
  sleeve: 'name price threadPitch ledgeHeight length bore outerDiameter grooveDrop trim',
  perch: 'name price lockRing height inset spigotDiameter engagement',
  helper: 'name price freeLength blockHeight rate bore coupler couplerBore',
  spring:
    'name price freeLength rate bore solid source height least most thinWire thickWire wire diameter totalCoils ' +
    'activeCoils material materialGiven estimated rateEstimated',
};

/**
 * For `JSON.stringify` before a digest: numbers to ten digits. JavaScript engines round the last bit of a power each
 * in their own way, and that must not make another scenario of the same file.
 */
export function tenDigits(_key: string, value: unknown): unknown {
  return typeof value === 'number' ? Number(value.toPrecision(10)) : value;
}

/** FNV-1a, 32 bit (Fowler, Noll & Vo; IETF draft-eastlake-fnv): a checksum against mistakes, not against malice. */
export function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let k = 0; k < text.length; k++) {
    hash = Math.imul(hash ^ text.charCodeAt(k), 0x01000193);
  }
  return hash >>> 0;
}

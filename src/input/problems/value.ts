/** Sentences about one value: a quantity, a number, a word, a range. */
import { type Complaint, state } from './problems.ts';

// How values and lists are put into sentences.

const LONGEST_SHOWN = 60;

/** A value as the user wrote it: short, on one line, with nothing a terminal would obey. */
export function shown(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') return 'a mapping';
  const text = harmless(String(value));
  return text.length > LONGEST_SHOWN ? `\`${text.slice(0, LONGEST_SHOWN)}...\`` : `\`${text}\``;
}

/** A word to be typed as it stands. */
export const quote = (word: string) => `\`${harmless(word)}\``;

/** What to do about an unknown word. */
export const suggest = (nearest: string | null, otherwise: string) =>
  nearest === null ? otherwise : `did you mean ${quote(nearest)}?`;

/** Control and formatting characters become spaces: they could move a terminal's cursor or turn text around. */
export const harmless = (text: string) => text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();

/** `a`, `a or b`, `a, b or c`. */
export function either(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

/** A number without the noise of binary fractions. */
export const plainNumber = (value: number) => String(Number(value.toPrecision(10)));
export const quantityInWords = (value: number, unit: string) =>
  unit === '' ? plainNumber(value) : `${plainNumber(value)} ${unit}`;

/** What a value must be, in words: `a length with its unit (mm, cm, m, in or ft)`. */
export interface Wanted {
  readonly noun: string;
  /** Symbols of the units that fit, the program's own first; empty for a bare number. */
  readonly units: readonly string[];
}

export const wantedInWords = ({ noun, units }: Wanted) =>
  units.length === 0 ? `${noun} without a unit` : `${noun} with its unit (${either(units)})`;
export const missing = (wanted: Wanted) =>
  state(
    'nothing',
    wantedInWords(wanted),
    wanted.units.length === 0 ? 'write a number' : `write a number and its unit, like \`10 ${wanted.units[0]}\``,
  );

export function bareNumber(value: unknown, wanted: Wanted): Complaint {
  const [first = '', ...others] = wanted.units.map((unit) => `\`${String(value).trim()} ${unit}\``);
  const also = others.length > 0 ? ` (or ${either(others)})` : '';
  const advice = `write ${first}${also}, whichever was measured`;
  return state(`${shown(value)} without a unit`, wantedInWords(wanted), advice);
}

export const wrongUnit = (text: string, unit: string, wanted: Wanted) =>
  state(
    `${shown(text)}, whose unit ${shown(unit)} does not fit here`,
    wantedInWords(wanted),
    `give the value in ${either(wanted.units)}`,
  );
/** A number written with a comma, as it is read here. */
export interface Rewritten {
  readonly decimal: string;
  /** If the comma stands between thousands; null: it can't. */
  readonly thousands: string | null;
  readonly unit: string;
}

export function decimalComma(text: string, { decimal, thousands, unit }: Rewritten, wanted: Wanted): Complaint {
  const written = (number: string) => quote(`${number} ${unit || (wanted.units[0] ?? '')}`.trim());
  // In a list without units the comma may stand between two values.
  const apart =
    /^\d+,\d+$/.test(text) && wanted.units.length === 0
      ? `, ${quote(text.replace(',', ', '))} if it stands between two values of a list`
      : '';
  const advice = `write ${written(decimal)}${apart}${thousands === null ? '' : ` if the comma is a decimal sign, ${written(thousands)} if it stands between thousands`}`;
  return state(`${shown(text)} with a comma`, `${wantedInWords(wanted)} and a point as decimal sign`, advice);
}
export const fraction = (text: string, rewritten: string, wanted: Wanted) =>
  state(`the fraction ${shown(text)}`, wantedInWords(wanted), `write \`${rewritten}\``);

/** @param how to come by it */
export const neededValue = (expected: string, how: string) => state('`unknown`', expected, how);
export const measureIt = (how: string) =>
  `measure it: no usual value can stand for it. ${how} (springsift measure writes the sheet)`;
export const chooseIt = (why: string) => `write a value: it is ${why}`;

export const notAQuantity = (value: unknown, wanted: Wanted) =>
  state(
    shown(value),
    wantedInWords(wanted),
    `write it like \`${wanted.units.length === 0 ? '1.5' : `10 ${wanted.units[0]}`}\``,
  );

export const notFinite = (value: unknown, wanted: Wanted) =>
  state(
    `${shown(value)}, which is not a finite number`,
    wantedInWords(wanted),
    'write the measured number, or leave an optional field out',
  );
export const unitNotWanted = (text: string, number: string, wanted: Wanted) =>
  state(shown(text), wantedInWords(wanted), `write it as a bare number, like \`${number}\`, without unit or quotes`);
export const outsideRange = (value: unknown, limits: string, wanted: Wanted) =>
  state(shown(value), `${wanted.noun} ${limits}`, 'check the number, its sign and its unit');
export const emptyList = () => state('an empty list', 'at least one value', 'list the values to try');
export const repeatedValue = (value: number, unit: string) =>
  state(
    `${quantityInWords(value, unit)} a second time`,
    'values that differ',
    'remove the repeated value: it would be tried twice',
  );
export const stepNotPositive = (value: unknown) =>
  state(`the step ${shown(value)}`, 'a step above 0', 'count upwards: `from` is the least value');
export const rangeReversed = (from: number, to: number, unit: string) =>
  state(
    `a range from ${quantityInWords(from, unit)} to ${quantityInWords(to, unit)}`,
    '`to` not below `from`',
    'exchange the two values',
  );
export const rangeTooLong = (count: number, most: number) =>
  state(`a range of ${plainNumber(count)} values`, `at most ${most} values`, 'use a larger step or a shorter range');
export const notARange = () =>
  state(
    'a mapping',
    'one value, a list of values, or a range `{ from: ..., to: ..., step: ... }`',
    'write all of `from`, `to` and `step`, and nothing else',
  );
export const notTwoValues = (value: unknown, wanted: Wanted) =>
  state(
    shown(value),
    `two values \`[from, to]\`, each ${wantedInWords(wanted)}`,
    'write the lower and the upper end, like `[315 mm, 345 mm]`',
  );

// Sentences about the shape of a scenario: keys, lists, words to choose from.

export const unknownKey = (key: string, nearest: string | null, known: readonly string[]) =>
  state(
    `the unknown field ${shown(key)}`,
    known.length === 0 ? 'no further field' : `one of ${known.map(quote).join(', ')}`,
    suggest(nearest, 'remove it, or use one of the known fields'),
  );
const LACKING = 'no field ';

/** The name of the field that a complaint of `missingField` is about; null for any other. */
export function lackingField({ found }: Complaint): string | null {
  const [, name = null] = /^`(.*)`$/.exec(found.startsWith(LACKING) ? found.slice(LACKING.length) : '') ?? [];
  return name;
}

export const missingField = (name: string, description: string) =>
  state(
    `${LACKING}${quote(name)}`,
    description === '' ? quote(name) : `${quote(name)}: ${description}`,
    `add ${quote(name)} here`,
  );
export function wrongType(value: unknown, expected: string): Complaint {
  const [, advice = `write ${expected}`] = TYPE_ADVICE.find(([kind]) => kind.test(expected)) ?? [];
  return state(shown(value), expected, advice);
}

const TYPE_ADVICE = [
  [/^a list/, 'start each entry with `- ` on its own line, or put the entries in brackets [ ]'],
  [/^a mapping/, 'write `field: value` lines, indented below the name'],
  [/^text$/, 'put the text in quotes'],
] as const;

export const emptyEntries = () => state('an empty list', 'at least one entry', 'list at least one alternative');
export const tooMany = (count: number, most: number) =>
  state(`${count} entries`, `at most ${most}`, 'shorten the list');

export function notOneOf(value: unknown, choices: readonly string[], nearest: string | null): Complaint {
  const words = either(choices.map(quote));
  return state(shown(value), words, suggest(nearest, `choose ${words}`));
}

export const badName = (value: unknown) =>
  state(
    shown(value),
    'text of 1 to 80 characters on one line',
    'give a short name; put it in quotes when it looks like a number',
  );
export const badSetupName = (value: unknown) =>
  state(
    shown(value),
    'a setup name of 1 to 12 small letters, digits or underscores, like `low` or `track_day`',
    'shorten or respell the name; it becomes part of every combination id',
  );
export const badText = (value: unknown) => state(shown(value), 'text of at most 2000 characters', 'shorten the text');
export const badVersion = (value: unknown) =>
  state(
    shown(value),
    'the format version `1`',
    'start the file with `springsift: 1`; a higher number needs a newer version of the program',
  );

// Sentences about what was taken without being given.

/** Loads in kg. */
export function meanOfSides(...loads: readonly [left: number, right: number, mean: number]): string {
  const [left, right, mean] = loads.map((load) => `${Number(load.toFixed(2))} kg`);
  return `${left} left, ${right} right: ranked and toleranced at their mean, ${mean}`;
}

export const MEAN_SOURCE = 'computed; the shortlist is judged at both sides’ own loads too';

/**
 * A question asked in a few words, without a file: each option becomes lines of a scenario of the bench, which the same
 * reader reads. Lengths of one part stand together, `474/324/318 mm`: the unit behind the last serves those that have none.
 */
import { AXLE_NAMES, type AxleName } from '../model/scenario.ts';
import { findUnit } from '../model/units.ts';

/** What may be asked with, in the order of the work. */
export const FORMS = {
  damper: {
    form: 'OUT/IN/BODY mm',
    meaning:
      'lower eye to rod shoulder fully out and fully in, lower eye to the top of the body; a fourth length: its diameter',
    example: '474/324/318 mm',
    needed: true,
  },
  ledge: {
    form: 'HEIGHT mm',
    meaning: 'lower eye to the ledge the sleeve stands on',
    example: '150 mm',
    needed: true,
  },
  sleeve: {
    form: 'LENGTH-TRIM mm',
    meaning: 'length of the sleeve as bought, less what is trimmed off',
    example: '160-20 mm',
    needed: true,
  },
  perch: {
    form: 'HEIGHT mm',
    meaning: 'lock ring and perch together, from the foot of the ring to the perch seat',
    example: '19 mm',
    needed: true,
  },
  spring: {
    form: 'FREE, RATE, solid HEIGHT',
    meaning: 'free length, then what is known of rate, solid height, wire, coils and bore',
    example: '280 mm, 34 N/mm, solid 116 mm',
    needed: true,
  },
  mount: {
    form: 'RAISE/FLANGE mm',
    meaning: 'rod shoulder above the tower plane, seat flange below it',
    example: '12/-10 mm',
    needed: true,
  },
  stop: {
    form: 'LENGTH/CLOSED mm',
    meaning: 'length of the bump stop as fitted, and its height squeezed closed where that is known',
    example: '60/21 mm',
    needed: true,
  },
  isolator: { form: 'THICKNESS mm', meaning: 'under the spring’s weight', example: '6 mm', needed: false },
  load: { form: 'MASS', meaning: 'load on the wheel', example: '320 kg', needed: false },
  motion: {
    form: 'ARCH/DAMPER mm, RATIO',
    meaning: 'hub to arch and damper length taken together, and damper travel over wheel travel',
    example: '340/420 mm, 0.95',
    needed: false,
  },
} as const;
export type Option = keyof typeof FORMS;
export const OPTIONS = Object.keys(FORMS) as readonly Option[];

export type Question = Readonly<Partial<Record<Option, string>>>;

/** A line of the scenario, and the option it came from. */
interface Row {
  readonly text: string;
  readonly option: Option | null;
}

/** What is wrong with an option before anything is read. */
export interface OptionFault {
  readonly option: Option;
  readonly found: string;
}

export interface Asked {
  readonly text: string;
  readonly faults: readonly OptionFault[];
  /** The option that a line of the text came from, lines from 1. */
  readonly optionAt: (line: number) => Option | null;
}

/** The scenario that a question is. */
export function scenarioOf(question: Question, axle: AxleName = AXLE_NAMES[0] as AxleName): Asked {
  const faults: OptionFault[] = [];
  const rows: Row[] = [
    { text: 'springsift: 1', option: null },
    { text: 'axles:', option: null },
  ];
  rows.push({ text: `  ${axle}:`, option: null });
  const add = (option: Option | null, text: string) => rows.push({ text: `    ${text}`, option });
  const read = (option: Option, parse: (text: string) => readonly string[] | null) => {
    const text = question[option]?.trim();
    if (text === undefined) {
      if (FORMS[option].needed) faults.push({ option, found: 'nothing' });
      return null;
    }
    const parts = parse(text);
    if (parts === null) faults.push({ option, found: `“${text}”` });
    return parts;
  };

  const load = read('load', (text) => [text]);
  const motion = read('motion', motionIn);
  const mount = read('mount', (text) => lengthsIn(text, 2, 2));
  if (load) add('load', `wheel_load: ${quoted(load[0])}`);
  if (motion) {
    const [arch, damper, ratio] = motion.map(quoted);
    const raise = quoted(mount?.[0] ?? '0 mm');
    add(
      'motion',
      `motion: { mount_raise: ${raise}, pairs: [{ hub_to_arch: ${arch}, damper_length: ${damper} }], ratio: ${motion[2] ?? ratio} }`,
    );
  }
  const damper = read('damper', (text) => lengthsIn(text, 3, 4));
  if (damper)
    add('damper', `dampers: [${fieldsOf(['extended', 'compressed', 'body_length', 'body_diameter'], damper)}]`);
  const ledge = read('ledge', (text) => [text]);
  const sleeve = read('sleeve', (text) => lengthsIn(text, 1, 2, /(?<=\S)-/));
  if (ledge || sleeve) {
    add('sleeve', `sleeves:`);
    if (ledge) add('ledge', `  - ledge_height: ${quoted(ledge[0])}`);
    const [length, trim] = sleeve ?? [];
    if (length) add('sleeve', `    length: ${quoted(length)}`);
    if (trim) add('sleeve', `    trim: ${quoted(trim)}`);
  }
  const perch = read('perch', (text) => [text]);
  if (perch) add('perch', `perches: [{ height: ${quoted(perch[0])}, lock_ring: 0 mm }]`);
  if (mount) add('mount', `mounts: [${fieldsOf(['raise', 'flange_depth'], mount)}]`);
  const isolator = read('isolator', (text) => [text]);
  if (isolator) add('isolator', `isolators: [{ thickness: ${quoted(isolator[0])} }]`);
  const stop = read('stop', (text) => lengthsIn(text, 1, 2));
  if (stop) add('stop', `bump_stops: [{ length: ${quoted(stop[0])}, closed_fraction: ${closedShare(stop)} }]`);
  const spring = read('spring', springIn);
  if (spring) add('spring', `springs: [{ ${spring.join(', ')} }]`);

  return {
    text: `${rows.map(({ text }) => text).join('\n')}\n`,
    faults,
    optionAt: (line) => rows[line - 1]?.option ?? null,
  };
}

const quoted = (text: string | undefined) => JSON.stringify(text ?? '');

function fieldsOf(names: readonly string[], values: readonly string[]): string {
  return `{ ${values.map((value, k) => `${names[k]}: ${quoted(value)}`).join(', ')} }`;
}

const UNIT_AT_END = /([a-zµ"″′']+)\s*$/iu;

/** Several lengths with a unit for those that have none; null where there are too few or too many. */
function lengthsIn(text: string, least: number, most: number, between: RegExp = /\//): readonly string[] | null {
  const pieces = text.split(between).map((piece) => piece.trim());
  if (pieces.length < least || pieces.length > most || pieces.includes('')) return null;
  const unit = UNIT_AT_END.exec(pieces.at(-1) ?? '')?.[1] ?? '';
  return pieces.map((piece) => (UNIT_AT_END.test(piece) ? piece : `${piece} ${unit}`.trim()));
}

/** Hub to arch, damper length, and the ratio, a bare number. */
function motionIn(text: string): readonly string[] | null {
  const [pair = '', ratio = '', ...others] = text.split(',').map((piece) => piece.trim());
  const lengths = lengthsIn(pair, 2, 2);
  return lengths === null || others.length > 0 || !/^[\d.]+$/.test(ratio) ? null : [...lengths, ratio];
}

/** `unknown` where only the length was given, or units differ. */
function closedShare([length = '', closed]: readonly string[]): string {
  if (closed === undefined) return 'unknown';
  const share = Number.parseFloat(closed) / Number.parseFloat(length);
  const isSameUnit = UNIT_AT_END.exec(length)?.[1] === UNIT_AT_END.exec(closed)?.[1];
  return isSameUnit && Number.isFinite(share) ? String(Number(share.toFixed(4))) : 'unknown';
}

const WORDS = { solid: 'solid_height', wire: 'wire', bore: 'bore' } as const;

/** Fields of a spring: the free length first, the rest by their words and units. Null where a piece can't be told. */
export function springIn(text: string): readonly string[] | null {
  const fields = text.split(',').map((piece, k) => {
    const written = piece.trim();
    const [, word = '', rest = ''] = /^(solid|wire|bore)\s+(.+)$/i.exec(written) ?? [];
    if (word !== '') return `${WORDS[word.toLowerCase() as keyof typeof WORDS]}: ${quoted(rest)}`;
    const coils = /^([\d.]+)\s*coils$/i.exec(written)?.[1];
    if (coils !== undefined) return `coils: ${coils}`;
    const unit = /[a-z].*$/i.exec(written)?.[0] ?? '';
    if (findUnit('rate', unit) !== null) return `rate: ${quoted(written)}`;
    return k === 0 && written !== '' ? `free_length: ${quoted(written)}` : null;
  });
  return fields.includes(null) ? null : (fields as string[]);
}

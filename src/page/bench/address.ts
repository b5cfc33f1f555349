/**
 * The bench as a note in the page's address: `bench=low-F4F7-R2KD-7Q*rear*front.trim-12.5*bump-2.5`. It stands beside
 * what the page itself keeps there, behind a key of its own, and only of values that differ from the sweep.
 */
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { LiveRecord } from '../../result/live.ts';
import { type Bench, benchOf, canBear, type OnBench, type Values, withValues } from './bench.ts';

const KEY = 'bench';
const BETWEEN = '*';
/** Values that are kept as they are, by their word in the note. */
const PLAIN = ['trim', 'spacer', 'stop', 'helper', 'spring', 'wheelLoad'] as const;

/** Empty where nothing differs from the sweep. */
export function noteOf(bench: Bench, swept: Bench, axle: AxleName): string {
  const changed = AXLE_NAMES.flatMap((name) => valueNotes(name, bench.axles[name], swept.axles[name]));
  const bump = bench.bumpLoad === swept.bumpLoad ? [] : [`bump-${bench.bumpLoad ?? 'closed'}`];
  const notes = [...changed, ...bump];
  return notes.length === 0 ? '' : [bench.start.id, axle, ...notes].join(BETWEEN);
}

function valueNotes(axle: AxleName, values: Values, swept: Values): string[] {
  const isMoved = values.held !== swept.held || values.place !== swept.place;
  const place = isMoved ? [`${axle}.${values.held}-${values.place}`] : [];
  const plain = PLAIN.filter((key) => values[key] !== swept[key]);
  return [...place, ...plain.map((key) => `${axle}.${key}-${values[key]}`)];
}

/** What a note says; null where it is none of this page's. Unknown words are passed over. */
export function readNote(record: LiveRecord, note: string): OnBench | null {
  const [id = '', axle = '', ...words] = note.split(BETWEEN);
  const bench = benchOf(record, id);
  if (bench === null) return null;
  return { bench: words.reduce(withWord, bench), axle: axle === 'rear' ? 'rear' : 'front' };
}

function withWord(bench: Bench, word: string): Bench {
  const [, name, key = '', text = ''] = /^(?:(front|rear)\.)?(\w+)-(closed|-?[\d.]+(?:e-?\d+)?)$/.exec(word) ?? [];
  const value = Number(text);
  if (name === undefined) {
    if (key !== 'bump') return bench;
    if (text === 'closed') return { ...bench, bumpLoad: null };
    return value > 0 && canBear(bench.record) ? { ...bench, bumpLoad: value } : bench;
  }
  const axle = name === 'rear' ? 'rear' : 'front';
  return Number.isFinite(value) ? withValues(bench, axle, changeFrom(bench, axle, key, value)) : bench;
}

function changeFrom({ record }: Bench, axle: AxleName, key: string, value: number): Partial<Values> {
  const { options } = record.axles[axle];
  if (key === 'height' || key === 'perch') return { held: key, place: value };
  if (key === 'helper' || key === 'spring') return Object.hasOwn(options[key], value) ? { [key]: value } : {};
  if (key === 'wheelLoad') return value > record.axles[axle].unsprungMass ? { wheelLoad: value } : {};
  return PLAIN.some((one) => one === key) && value >= 0 ? { [key]: value } : {};
}

/** The note in an address' fragment, or empty. */
export function noteIn(fragment: string): string {
  return new URLSearchParams(settings(fragment).join('&')).get(KEY) ?? '';
}

/** The fragment with another note, or without one; everything else in it stays, letter for letter. */
export function withNote(fragment: string, note: string): string {
  const bare = fragment.replace(/^#/, '');
  const others = bare.split('&').filter((part) => part !== '' && !part.startsWith(`${KEY}=`));
  const parts = note === '' ? others : [...others, `${KEY}=${note}`];
  return parts.length === 0 ? '' : `#${parts.join('&')}`;
}

function settings(fragment: string): string[] {
  return fragment
    .replace(/^#/, '')
    .split('&')
    .filter((part) => part.includes('='));
}

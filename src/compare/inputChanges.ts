/** What differs between the inputs of two reports, value by value as they were written. */

import { parse } from 'csv-parse/sync';
import { withoutMark } from '../input/source/files.ts';
import { readYaml } from '../input/source/yaml.ts';
import type { InputChange, InputChanges } from '../model/differences.ts';
import type { InputFile } from '../result/result.ts';

type Change = Omit<InputChange, 'file'>;
type Fields = Readonly<Record<string, unknown>>;

/** The scenario is the first file of either report, whatever it is called; catalogues are known by their paths. */
export function inputChanges(before: readonly InputFile[], after: readonly InputFile[]): InputChanges {
  const pairs = pairsOf(before, after).filter(({ one, other }) => one?.sha256 !== other?.sha256);
  const found = pairs.map(({ file, one, other, read }) => ({
    file,
    changes: changesOf(valuesIn(one, read), valuesIn(other, read), []),
  }));
  return {
    changes: found.flatMap(({ file, changes }) => changes.map((change) => ({ file, ...change }))),
    reworded: found.filter(({ changes }) => changes.length === 0).map(({ file }) => file),
  };
}

interface Pair {
  readonly file: string;
  readonly one: InputFile | undefined;
  readonly other: InputFile | undefined;
  readonly read: (text: string) => unknown;
}

function pairsOf([scenario, ...before]: readonly InputFile[], [other, ...after]: readonly InputFile[]): Pair[] {
  const paths = [...new Set([...before, ...after].map(({ path }) => path))];
  const find = (files: readonly InputFile[], path: string) => files.find((file) => file.path === path);
  return [
    { file: scenario?.path ?? other?.path ?? '', one: scenario, other, read: scenarioValues },
    ...paths.map((path) => ({
      file: path,
      one: find(before, path),
      other: find(after, path),
      read: catalogueValues,
    })),
  ];
}

function valuesIn(file: InputFile | undefined, read: Pair['read']): unknown {
  return file === undefined ? undefined : read(withoutMark(file.text));
}

function scenarioValues(text: string): unknown {
  return readYaml(text).document?.data;
}

/** Rows by their name; the second of a name is called so. */
function catalogueValues(text: string): unknown {
  const rows = parse(text, { columns: true, skip_empty_lines: true, relax_column_count: true, trim: true }) as Fields[];
  const values = new Map<string, Fields>();
  for (const [k, row] of rows.entries()) {
    const name = String(row.name ?? `row ${k + 1}`);
    let key = name;
    for (let n = 2; values.has(key); n++) key = `${name} (${n})`;
    // The name is the row's key, and an empty cell says nothing.
    values.set(
      key,
      Object.fromEntries(Object.entries(row).filter(([column, cell]) => column !== 'name' && cell !== '')),
    );
  }
  return Object.fromEntries(values);
}

/** Records go field by field, lists of named parts part by part; anything else is one value. */
function changesOf(before: unknown, after: unknown, names: readonly string[]): Change[] {
  const ofParts = [before, after].some((value) => Array.isArray(value) && value.some(isFields));
  const [one, other] = [byName(before, ofParts), byName(after, ofParts)];
  if (one !== null && other !== null) {
    const keys = [...new Set([...Object.keys(one), ...Object.keys(other)])];
    return keys.flatMap((key) => changesOf(one[key], other[key], [...names, key]));
  }
  const [was, is] = [textOf(before), textOf(after)];
  return was === is ? [] : [{ names, before: was, after: is }];
}

/** A record as it is, a list of parts by their names or places; null for what is a value of its own. */
function byName(value: unknown, ofParts: boolean): Fields | null {
  if (isFields(value)) return value;
  if (!Array.isArray(value) || !ofParts) return null;
  const names = value.map((entry, k) => nameOf(entry) ?? `entry ${k + 1}`);
  // Places distinguish parts of one name.
  return Object.fromEntries(
    value.map((entry, k) => [names.indexOf(names[k] ?? '') === k ? names[k] : `${names[k]} (${k + 1})`, entry]),
  );
}

function nameOf(entry: unknown): string | null {
  if (typeof entry === 'string') return entry;
  const name = isFields(entry) ? (entry.name ?? entry.catalogue) : null;
  return typeof name === 'string' ? name : null;
}

/** `40 mm`, `322 mm, 344 mm`, `from: 0 mm, to: 40 mm`; null for nothing. */
function textOf(value: unknown): string | null {
  if (value === undefined) return null;
  if (Array.isArray(value)) return value.map(nested).join(', ');
  if (!isFields(value)) return String(value);
  return Object.entries(value)
    .map(([key, inner]) => `${key.replaceAll('_', ' ')}: ${nested(inner)}`)
    .join(', ');
}

function nested(value: unknown): string {
  const text = textOf(value) ?? '';
  if (Array.isArray(value)) return `[${text}]`;
  return isFields(value) ? `{ ${text} }` : text;
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

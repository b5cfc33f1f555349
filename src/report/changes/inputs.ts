/** Values of the inputs that are not what they were. */
import type { InputChange, InputChanges } from '../../domain/differences.ts';
import type { Result } from '../../domain/result.ts';
import { count, PAGE } from '../numbers.ts';

export interface InputsView {
  /** Nothing at all differs, a comment neither. */
  readonly same: boolean;
  readonly reworded: readonly string[];
  readonly shown: string;
  readonly one: boolean;
  readonly files: readonly { readonly file: string; readonly rows: readonly InputRow[] }[];
  /** How many more there are; null where all are shown. */
  readonly more: string | null;
}

export interface InputRow {
  /** The parts and groups that the value belongs to. */
  readonly within: string;
  readonly name: string;
  readonly before: string | null;
  readonly after: string | null;
}

/** A catalogue of thousands of rows that is another one would make the page endless. */
const MOST_ROWS = 400;

export function inputsView(before: Result, after: Result, { changes, reworded }: InputChanges): InputsView {
  const shown = changes.slice(0, MOST_ROWS);
  const files = [...new Set(shown.map(({ file }) => file))];
  return {
    same: digests(before) === digests(after),
    reworded,
    shown: count(changes.length, PAGE),
    one: changes.length === 1,
    files: files.map((file) => ({ file, rows: shown.filter((change) => change.file === file).map(rowOf) })),
    more: changes.length > shown.length ? count(changes.length - shown.length, PAGE) : null,
  };
}

function digests({ inputs }: Result): string {
  return inputs.map(({ sha256 }) => sha256).join();
}

/** Names of fields are words joined by underscores; a part's own name stays as it is written. */
function rowOf({ names, before, after }: InputChange): InputRow {
  const spoken = names.map((name) => (/^[a-z]+(?:_[a-z0-9]+)*$/.test(name) ? name.replaceAll('_', ' ') : name));
  return { within: spoken.slice(0, -1).join(' / '), name: spoken.at(-1) ?? 'whole file', before, after };
}

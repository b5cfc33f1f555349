/** All mutants of a source file, and a seeded sample of them. */
import type { SourceFile } from '../setup/source-tree.ts';
import { type Change, changesOf } from './changes.ts';
import { type Extent, extentOf } from './extent.ts';
import { parse, walk } from './tree.ts';

export interface Mutant extends Change {
  /** Path of the mutated file. */
  readonly path: string;
  readonly line: number;
  /** The line with the mutation, as a reader of the report sees it. */
  readonly shown: string;
  /** The expression that is run whenever the mutation matters; null where none can be set in brackets. */
  readonly extent: Extent | null;
}

/** In the order of the text; comments, strings, types and imports are never touched. */
export function mutantsOf({ path, text }: SourceFile): readonly Mutant[] {
  const found: Mutant[] = [];
  walk(parse(text), (node, parent) => {
    for (const change of changesOf(node, text, parent)) {
      const line = text.slice(0, change.start).split('\n').length;
      found.push({ ...change, path, line, shown: shown(text, change), extent: extentOf(node, text, parent) });
    }
  });
  return found;
}

export const mutated = (text: string, { start, end, text: other }: Change): string =>
  text.slice(0, start) + other + text.slice(end);

function shown(text: string, { start, end, text: other }: Change): string {
  const from = text.lastIndexOf('\n', start) + 1;
  const to = text.indexOf('\n', end);
  const around = `${text.slice(from, start)}[${text.slice(start, end)} => ${other}]${text.slice(end, to < 0 ? undefined : to)}`;
  return around.trim().replace(/\s+/g, ' ');
}

/**
 * From every file its share of `size`, at least one where there are any, drawn with `seed` and the file's path; in
 * an order that makes the first ones a sample as well. */
export function sampled(files: readonly SourceFile[], size: number, seed: number): readonly Mutant[] {
  const all = files.map((file) => ({ path: file.path, mutants: mutantsOf(file) }));
  const total = all.reduce((sum, { mutants }) => sum + mutants.length, 0);
  const drawn = all.flatMap(({ path, mutants }) => {
    const share = Math.min(mutants.length, Math.max(1, Math.round((size * mutants.length) / total)));
    return shuffled(mutants, chance(`${seed} ${path}`)).slice(0, share);
  });
  return shuffled(drawn, chance(`${seed}`));
}

export const countAll = (files: readonly SourceFile[]): number =>
  files.reduce((sum, file) => sum + mutantsOf(file).length, 0);

function shuffled<T>(items: readonly T[], next: () => number): T[] {
  const left = [...items];
  for (let i = left.length - 1; i > 0; i--) {
    const j = Math.floor(next() * (i + 1));
    [left[i], left[j]] = [left[j] as T, left[i] as T];
  }
  return left;
}

/** Numbers in [0, 1) that depend on the text alone: its FNV-1a hash starts a xorshift. */
function chance(text: string): () => number {
  let state = 2166136261;
  for (const sign of text) state = Math.imul(state ^ (sign.codePointAt(0) as number), 16777619);
  state ||= 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

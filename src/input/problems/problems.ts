/** A user's mistake, with its place, and how it is printed. All problems of all files are reported at once. */
import type { InputWarning } from '../../model/scenario.ts';

/** What is wrong, without its place. */
export interface Complaint {
  /** What stands there, e.g. `17,5 mm`. */
  readonly found: string;
  /** What should stand there. */
  readonly expected: string;
  /** What to do about it. */
  readonly advice: string;
}

export const state = (found: string, expected: string, advice: string): Complaint => ({ found, expected, advice });

/** Line and column, both from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

export interface PlacedComplaint extends Complaint, Place {}

export interface Problem extends PlacedComplaint {
  readonly file: string;
}

/** Lines of a file and what could stand there instead. */
export interface MendedLines {
  /** Number of the first, from 1, and how many are replaced: none where lines are put in front of it. */
  readonly line: number;
  readonly count: number;
  readonly lines: readonly string[];
}

export const FILE_START: Place = { line: 1, column: 1 };

/** A name of a file may hold the end of a line, and would write lines of its own. */
const oneLine = (file: string) => file.replace(/[\r\n]/g, (end) => (end === '\n' ? '\\u{a}' : '\\u{d}'));

/** One problem as three lines, the first of which an editor's terminal can jump to. */
export function formatProblem(problem: Problem): string {
  const { file, line, column, found, expected, advice } = problem;
  return `${oneLine(file)}:${line}:${column}: found ${found}\n  expected: ${expected}\n  advice: ${advice}`;
}

/** What lines could be instead, to be copied as they are. */
export function formatMended({ line, count, lines }: MendedLines): string {
  const last = line + count - 1;
  const place = count > 1 ? `lines ${line} to ${last}` : `line ${line}`;
  if (lines.length === 0) return `  passes: without ${place}`;
  return [`  passes: ${count === 0 ? `in front of line ${line}` : `${place} as`}`, ...lines].join('\n');
}

/** The same of a value that is read as it is and looks like a slip. */
export function formatWarning({ file, line, column, found, usual, advice }: InputWarning): string {
  return `${oneLine(file)}:${line}:${column}: warning: found ${found}\n  usual: ${usual}\n  advice: ${advice}`;
}

/** Sorted by file, line and column; the same problem at the same place is kept once. */
export function sortProblems(problems: readonly Problem[]): readonly Problem[] {
  const seen = new Set<string>();
  return [...problems].sort(byPlace).filter((problem) => {
    const key = formatProblem(problem);
    return seen.has(key) ? false : seen.add(key);
  });
}

function byPlace(a: Problem, b: Problem): number {
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  return a.line - b.line || a.column - b.column;
}

// The known word a mistyped one most likely means.

/**
 * The candidate with the least edit distance, or null when none is near enough to be worth suggesting
 * (more than a third of the longer word would have to change).
 */
export function nearestWord(word: string, candidates: readonly string[]): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const longest = Math.max(word.length, candidate.length);
    if (Math.abs(word.length - candidate.length) > longest / 3) continue;
    const distance = editDistance(word.toLowerCase(), candidate);
    if (distance < least && distance <= Math.max(1, longest / 3)) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Levenshtein distance (1966): insertions, deletions and replacements that turn one word into the other. */
export function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replace = (previous[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(replace, (previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    previous = row;
  }
  return previous[b.length] ?? 0;
}

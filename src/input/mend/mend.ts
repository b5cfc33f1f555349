/**
 * What a line with a problem could be: of the lines that may be meant, the first that passes when it is tried. Where a
 * value is wrong in itself, it only shows how one is written: what was measured nobody knows but its user.
 */
import type { MendedLines, Problem } from '../problems/problems.ts';
import { type ReadAnyLevel, readAnyLevel } from '../readScenario.ts';
import { type FileReader, toPosix, withoutMark } from '../source/files.ts';
import { readYaml } from '../source/yaml.ts';
import { UNKNOWN } from '../values/quantity.ts';
import { candidates, syntaxCandidates } from './candidates.ts';
import { type Edit, spotsIn } from './spots.ts';

/** Edits that are tried for one problem, and for all of them. */
const MOST_TRIED = 60;
const MOST_TRIED_IN_ALL = 300;
/** Longer pieces, and longer lines, are no help. */
const MOST_LINES = 12;
const LONGEST_LINE = 700;

/**
 * For each problem of the scenario's own file that is known to have one, lines that pass.
 * @param example text of a scenario without a problem
 */
export async function mend(
  path: string,
  problems: readonly Problem[],
  read: FileReader,
  example: string,
): Promise<ReadonlyMap<Problem, MendedLines>> {
  const file = toPosix(path);
  // What nobody measured has to be measured: no line stands for that.
  const own = problems.filter((problem) => problem.file === file && problem.found !== `\`${UNKNOWN}\``);
  const mended = new Map<Problem, MendedLines>();
  const text = await textOf(path, read);
  if (text === null) return mended;
  const data = readYaml(text).document?.data ?? null;
  const spots = data === null ? [] : spotsIn(text);
  const around = { text, data, example: readYaml(example).document?.data, spots };
  const before = tally(problemsOf(await readAnyLevel(path, withText(read, path, text))));
  let left = MOST_TRIED_IN_ALL;
  for (const problem of own) {
    const offset = offsetOf(text, problem);
    const edits = data === null ? syntaxCandidates(text, offset) : candidates(problem, offset, around);
    const trying = { path, text, read, most: Math.min(left, MOST_TRIED) };
    const { found, tried } = await firstThatPasses(edits, problem, before, trying);
    left -= tried;
    if (found !== null) mended.set(problem, found);
  }
  return mended;
}

async function textOf(path: string, read: FileReader): Promise<string | null> {
  try {
    return withoutMark(new TextDecoder('utf-8', { fatal: true }).decode(await read.bytes(path, MOST_BYTES)));
  } catch {
    // Said by the problem itself.
    return null;
  }
}

/** Larger files are not tried again and again. */
const MOST_BYTES = 200_000;

/** The same files with another text of the scenario. */
function withText(read: FileReader, path: string, text: string): FileReader {
  const bytes = new TextEncoder().encode(text);
  return { ...read, bytes: async (asked, most) => (asked === path ? bytes : read.bytes(asked, most)) };
}

function problemsOf(read: ReadAnyLevel): readonly Problem[] {
  return read.ok ? [] : read.problems;
}

interface Trying {
  readonly path: string;
  readonly text: string;
  readonly read: FileReader;
  readonly most: number;
}

async function firstThatPasses(
  edits: Generator<Edit>,
  problem: Problem,
  before: Tally,
  { path, text, read, most }: Trying,
): Promise<{ readonly found: MendedLines | null; readonly tried: number }> {
  let best: MendedLines | null = null;
  let least = Number.POSITIVE_INFINITY;
  const seen = new Set([text]);
  for (const edit of edits) {
    const changed = text.slice(0, edit.start) + edit.text + text.slice(edit.end);
    if (seen.has(changed)) continue;
    if (seen.size > most) break;
    seen.add(changed);
    const mended = changedLines(text, changed);
    if (!isHelpful(mended)) continue;
    const after = problemsOf(await readAnyLevel(path, withText(read, path, changed)));
    const fresh = countFresh(problem, before, after, mended, toPosix(path));
    if (fresh < least) [best, least] = [mended, fresh];
    if (least === 0) break;
  }
  return { found: best, tried: seen.size };
}

function isHelpful({ lines }: MendedLines): boolean {
  return lines.length <= MOST_LINES && lines.every((each) => each.length <= LONGEST_LINE && !UNSEEN.test(each));
}

/** What a terminal would obey instead of showing it. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;

/** How often each problem is said. */
type Tally = ReadonlyMap<string, number>;

const keyOf = ({ found, expected }: Problem): string => `${found}\n${expected}`;

function tally(problems: readonly Problem[]): Tally {
  const counts = new Map<string, number>();
  for (const each of problems) counts.set(keyOf(each), (counts.get(keyOf(each)) ?? 0) + 1);
  return counts;
}

/** Problems that come to light elsewhere once this one is gone; infinite where it stays or makes way for another. */
function countFresh(
  problem: Problem,
  before: Tally,
  after: readonly Problem[],
  { line, lines }: MendedLines,
  file: string,
): number {
  const now = tally(after);
  const rise = (one: Problem) => (now.get(keyOf(one)) ?? 0) - (before.get(keyOf(one)) ?? 0);
  if (rise(problem) >= 0) return Number.POSITIVE_INFINITY;
  const fresh = after.filter((one) => rise(one) > 0);
  const isHere = (one: Problem) => one.file === file && one.line >= line && one.line < line + Math.max(1, lines.length);
  // Leaving out what is needed is no way either.
  const isTaken = lines.length === 0 && fresh.some(({ found }) => found.startsWith('no field'));
  return isTaken || fresh.some(isHere) ? Number.POSITIVE_INFINITY : fresh.length;
}

function offsetOf(text: string, { line, column }: Problem): number {
  const before = text.split('\n').slice(0, line - 1);
  return before.reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
}

function changedLines(before: string, after: string): MendedLines {
  const [old, fresh] = [before.split('\n'), after.split('\n')];
  let same = 0;
  while (same < Math.min(old.length, fresh.length) && old[same] === fresh[same]) same++;
  let tail = 0;
  while (
    tail < Math.min(old.length, fresh.length) - same &&
    old[old.length - 1 - tail] === fresh[fresh.length - 1 - tail]
  ) {
    tail++;
  }
  const lines = fresh.slice(same, fresh.length - tail).map((each) => each.replace(/\r$/, ''));
  return { line: same + 1, count: old.length - same - tail, lines };
}

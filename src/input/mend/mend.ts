/**
 * What a line with a problem could be: of the lines that may be meant, the first that passes when it is tried. Where a
 * value is wrong in itself, it only shows how one is written: what was measured nobody knows but its user.
 */

import { isMap, isScalar } from 'yaml';
import { type MendedLines, nearestWord, type Problem } from '../problems/problems.ts';
import { lackingField, plainNumber } from '../problems/value.ts';
import { type ReadAnyLevel, readAnyLevel } from '../readScenario.ts';
import { isMapping, valueAt } from '../schema/issues.ts';
import { type FileReader, toPosix, withoutMark } from '../source/files.ts';
import { type PathKey, readYaml } from '../source/yaml.ts';
import { NUMBER, UNKNOWN } from '../values/quantity.ts';
import { type Edit, leaveOut, onOneLine, putField, replaceNode, type Spot, spotsIn, stretch } from './spots.ts';

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
  const around = { text, data, example: exampleFor(data, example), spots };
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

/** The data of the example, its prices left out where nothing says in which currency they would be. */
function exampleFor(data: unknown, example: string): unknown {
  const whole = readYaml(example).document?.data;
  return valueAt(data, ['currency']) === undefined ? withoutPrices(whole) : whole;
}

function withoutPrices(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPrices);
  if (!isMapping(value)) return value;
  const kept = Object.entries(value).filter(([key]) => key !== 'price');
  return Object.fromEntries(kept.map(([key, item]) => [key, withoutPrices(item)]));
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
  // Leaving out what is needed is no way either, nor is what lacks a field.
  const isBlank = lines.every((each) => each.trim() === '');
  const isTaken = isBlank && (lackingField(problem) !== null || fresh.some((one) => lackingField(one) !== null));
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

// Lines that could take the place of one with a problem, the likeliest first. None of them is known to pass.

/** A scenario's text, its data, and data of another that passes. */
export interface Surroundings {
  readonly text: string;
  readonly data: unknown;
  readonly example: unknown;
  /** Every key and value of the text. */
  readonly spots: readonly Spot[];
}

export function* candidates(problem: Problem, offset: number, around: Surroundings): Generator<Edit> {
  const { text } = around;
  // The innermost first: a mapping begins where its first key does.
  const spots = around.spots.filter(({ node }) => stretch(text, node)[0] === offset).reverse();
  const words = [...problem.advice.matchAll(/`([^`]+)`/g)].map((match) => match[1] ?? '');
  const missing = lackingField(problem);
  if (missing !== null) for (const spot of spots) yield* fieldsPutIn(spot, missing, around);
  const isUnknown = problem.found.startsWith('the unknown');
  for (const spot of spots) for (const word of words) yield replaceNode(text, spot.node, word);
  if (isUnknown || /second time|already/.test(problem.found)) yield* leftOut(spots, text);
  if (/exchange/.test(problem.advice)) for (const spot of spots) yield* exchanges(spot, text);
  for (const spot of spots) yield* otherValues(spot, around);
  yield* leftOut(spots, text);
  for (const spot of spots) yield* otherParents(spot, around);
}

function* leftOut(spots: readonly Spot[], text: string): Generator<Edit> {
  for (const { entry } of spots) if (entry !== null) yield leaveOut(text, entry);
}

function* fieldsPutIn({ value, path, isKey }: Spot, name: string, around: Surroundings): Generator<Edit> {
  for (const { key } of isMap(value) ? value.items : []) {
    if (isScalar(key) && nearestWord(String(key.value), [name]) !== null) yield replaceNode(around.text, key, name);
  }
  const at = [...path, name];
  for (const example of examplesAt(at, around)) {
    const field = `${name}: ${onOneLine(example)}`;
    if (isMap(value)) yield putField(around.text, value, field);
    else if (value !== null && !isKey) yield replaceNode(around.text, value, `{ ${field} }`);
  }
}

/** Values that stand at the same place elsewhere: on the other axle, in other entries of a list, in the example. */
function examplesAt(path: readonly PathKey[], { data, example }: Surroundings): readonly unknown[] {
  const mirrored = path.map((key) => OTHER[key] ?? key);
  const paths = [path, mirrored].flatMap((each) => [each, ...[0, 1, 2].map((k) => each.map(toEntry(k)))]);
  const found = [
    ...paths.slice(1).map((each) => valueAt(data, each)),
    ...paths.map((each) => valueAt(example, each)),
  ].filter((value) => value !== undefined);
  return [...new Map(found.map((value) => [JSON.stringify(value), value])).values()];
}

const OTHER: Readonly<Record<PathKey, string>> = { front: 'rear', rear: 'front' };
const toEntry = (k: number) => (key: PathKey) => (typeof key === 'number' ? k : key);

/** The values of two fields of one mapping exchanged. */
function* exchanges({ entry, value }: Spot, text: string): Generator<Edit> {
  if (!isMap(entry?.owner) || value === null) return;
  for (const { value: other } of entry.owner.items) {
    if (!isScalar(other) || other === value) continue;
    const [first, second] = [stretch(text, value), stretch(text, other)].sort(([a], [b]) => a - b);
    if (first === undefined || second === undefined) continue;
    const [a, b] = [text.slice(...first), text.slice(...second)];
    yield { start: first[0], end: second[1], text: b + text.slice(first[1], second[0]) + a };
  }
}

const FACTORS = [0.9, 1.1, 0.5, 2, 0.1, 10, 0.01, 100, 0];

function* otherValues({ value, path }: Spot, around: Surroundings): Generator<Edit> {
  if (value === null) return;
  const [, number = '', unit = ''] = isScalar(value) ? (NUMBER.exec(String(value.source ?? '')) ?? []) : [];
  if (number.startsWith('-')) yield replaceNode(around.text, value, `${number.slice(1)} ${unit}`.trim());
  for (const example of examplesAt(path, around)) yield replaceNode(around.text, value, onOneLine(example));
  if (number === '') return;
  for (const factor of FACTORS) {
    yield replaceNode(around.text, value, `${plainNumber(Number(number) * factor)} ${unit}`.trim());
  }
}

/** The mapping or list around, and the one around that, as they stand elsewhere. */
function* otherParents({ path }: Spot, around: Surroundings): Generator<Edit> {
  for (let depth = path.length - 1; depth > 0; depth--) {
    const above = path.slice(0, depth);
    const parent = around.spots.find((spot) => !spot.isKey && spot.path.join('\n') === above.join('\n'));
    if (parent?.value == null) continue;
    for (const example of examplesAt(above, around)) yield replaceNode(around.text, parent.value, onOneLine(example));
    if (parent.entry !== null) yield leaveOut(around.text, parent.entry);
  }
}

/** What can be done about a line that YAML cannot read. */
export function* syntaxCandidates(text: string, offset: number): Generator<Edit> {
  const lines = linesOf(text);
  const at = lines.findLastIndex(({ start }) => start <= offset);
  const odd = lines.flatMap(({ written }, k) => (/^[^"]*"(?:[^"]*"[^"]*")*[^"]*$/.test(written) ? [k] : []));
  const [above] = lines
    .slice(0, at)
    .flatMap(({ written }, k) => (written.trim() === '' ? [] : [k]))
    .slice(-1);
  const indents = [above, at + 1].map((k) => /^[ ]*/.exec(lines[k ?? -1]?.written ?? '')?.[0] ?? '');
  for (const k of new Set([at, above ?? at, ...odd.slice(0, 3), ...odd.slice(-3)])) {
    const { start, end, written = '' } = lines[k] ?? { start: 0, end: 0 };
    const whole = (put: string): Edit => ({ start, end, text: put });
    const body = written.trimStart();
    yield whole(written.replace(/([^\s,{[:-])\s+(?=\w+: )/, '$1, '));
    for (const indent of [...indents, '  ', `${indents[0]}  `]) yield whole(indent + body);
    for (const close of ['}', ' }', ']', '"', '}}', ' }]', '] }', ']}']) yield whole(written.trimEnd() + close);
    yield whole(written.replace(/^(\s*(?:- )?[\w]+)\s*:?\s*(?=\S)/, '$1: '));
    yield whole(written.replace(/(: )(?=\S)([^#]*[^#\s])/, (_, colon, value) => `${colon}${JSON.stringify(value)}`));
    yield whole(written.replace(/["'{}[\]]/g, ''));
    if (k === at) yield { start: offset, end: offset + 1, text: '' };
    yield whole(`# ${written}`);
    yield { start, end: Math.min(end + 1, text.length), text: '' };
  }
  // Nothing helps but to end the file here.
  const { start = 0 } = lines[at] ?? {};
  yield { start, end: text.length, text: '' };
}

function linesOf(text: string): readonly { readonly start: number; readonly end: number; readonly written: string }[] {
  let start = 0;
  return text.split('\n').map((written) => {
    const line = { start, end: start + written.length, written };
    start += written.length + 1;
    return line;
  });
}

/** Lines that could take the place of one with a problem, the likeliest first. None of them is known to pass. */
import { isMap, isScalar } from 'yaml';
import { nearestWord, type Problem } from '../problems/problems.ts';
import { plainNumber } from '../problems/value.ts';
import { valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/yaml.ts';
import { NUMBER } from '../values/quantity.ts';
import { type Edit, leaveOut, onOneLine, putField, replaceNode, type Spot, stretch } from './spots.ts';

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
  const [, missing] = /^no field `([^`]+)`/.exec(problem.found) ?? [];
  if (missing !== undefined) for (const spot of spots) yield* fieldsPutIn(spot, missing, around);
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

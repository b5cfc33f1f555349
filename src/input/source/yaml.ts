/** YAML text to plain data, with the place of every value kept. */

import {
  type Alias,
  type Document,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  visit,
  type YAMLError,
  type YAMLMap,
} from 'yaml';
import * as say from '../problems/file.ts';
import { FILE_START, type Place, type PlacedComplaint } from '../problems/problems.ts';

/** How often one anchor may be repeated, its nested repeats multiplied in. */
const MOST_ALIASES = 1_000;
/** Problems of one file that are said; a text of nothing but mistakes holds as many as characters. */
const MOST_PROBLEMS = 10_000;
/** Values in the whole scenario once every alias is filled in. */
const MOST_VALUES = 2_000_000;

export interface SourceDocument {
  /** Plain data, aliases and merge keys filled in. */
  readonly data: unknown;
  /** Where the value at a path stands, or its key; a path that leads nowhere gives the last step that exists. */
  readonly place: (path: readonly PathKey[], at: Aspect) => Place;
  /** From where to where it stands in the text, without what follows it; characters from 0. */
  readonly range: (path: readonly PathKey[], at: Aspect) => readonly [start: number, end: number];
}

export interface ReadDocument {
  readonly document: SourceDocument | null;
  readonly problems: readonly PlacedComplaint[];
}

/**
 * How scenarios are read, in a page as on the command line. Repeated keys are searched for here, in one go. A tag means
 * nothing: what some decode is decoded otherwise in browsers. The package warns of keys that are lists, on stderr.
 */
export const READING = {
  version: '1.2',
  merge: true,
  uniqueKeys: false,
  resolveKnownTags: false,
  prettyErrors: false,
  logLevel: 'error',
} as const;

/** Reads one YAML 1.2 document. Repeated keys are reported and reading goes on; other errors end it. */
export function readYaml(text: string): ReadDocument {
  const placeOf = placesIn(text);
  const { stackTraceLimit } = Error;
  // A text of quotes alone holds a million errors, each an object with the stack it was made in.
  Error.stackTraceLimit = 1;
  try {
    return convert(parseDocument(text, READING), text, placeOf);
  } catch (error) {
    // The parser works by recursion: thousands of open brackets exhaust its stack.
    if (error instanceof RangeError) return fail([{ ...FILE_START, ...say.tooDeep() }]);
    throw error;
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}

function convert(document: Document.Parsed, text: string, placeOf: (offset: number) => Place): ReadDocument {
  const [first] = document.errors.toSorted((a, b) => a.pos[0] - b.pos[0]);
  // What follows the first is mostly its echo.
  if (first) return fail([syntaxError(first, text, placeOf)]);
  const said = document.warnings.slice(0, MOST_PROBLEMS);
  const errors = said.map((e) => ({ ...placeOf(e.pos[0]), ...say.yamlError(e.message, e.code) }));
  joinSplitNumbers(document, text);
  const repeated = repeatedKeys(document).slice(0, MOST_PROBLEMS);
  const problems = [...errors, ...repeated.map((key) => ({ ...placeOf(rangeOf(key)[0]), ...say.repeatedKey() }))];
  const { aliases, unresolved } = resolveAliases(document);
  const lost = unresolved.map((a) => ({ ...placeOf(a.range?.[0] ?? 0), ...say.unresolvedAlias(a.source) }));
  if (lost.length > 0) return fail([...problems, ...lost]);
  const wrong = notMergeable(document, (alias) => aliases.get(alias));
  const unmerged = wrong.map((node) => ({
    ...placeOf(rangeOf(node)[0]),
    ...say.notMergeable(isSeq(node) ? node.items : String(node)),
  }));
  if (unmerged.length > 0) return fail([...problems, ...unmerged.slice(0, MOST_PROBLEMS)]);
  const data = toData(document);
  if ('complaint' in data) return fail([...problems, { ...FILE_START, ...data.complaint }]);
  if (typeof data.value !== 'object' || data.value === null || Array.isArray(data.value)) {
    return fail([...problems, { ...placeOf(rangeOf(document.contents)[0]), ...say.notAMapping(data.value) }]);
  }
  const range = (path: readonly PathKey[], at: Aspect) =>
    rangeOf(nodeAt(document.contents, path, at, (alias) => aliases.get(alias)));
  const place = (path: readonly PathKey[], at: Aspect) => placeOf(range(path, at)[0]);
  return { document: { data: data.value, place, range }, problems };
}

/** A tab in front of what can't be read is the cause, whatever the parser makes of it. */
function syntaxError(
  { pos, message, code }: YAMLError,
  text: string,
  placeOf: (offset: number) => Place,
): PlacedComplaint {
  const start = text.lastIndexOf('\n', pos[0] - 1) + 1;
  const [indent = ''] = /^[ \t]*/.exec(text.slice(start)) ?? [];
  const tab = indent.indexOf('\t');
  if (tab < 0 || pos[0] > start + indent.length) return { ...placeOf(pos[0]), ...say.yamlError(message, code) };
  return { ...placeOf(start + tab), ...say.yamlError(message, 'TAB_AS_INDENT') };
}

function toData(document: Document.Parsed) {
  let value: unknown;
  try {
    value = document.toJS({ maxAliasCount: MOST_ALIASES });
  } catch (error) {
    // What the package throws when aliases multiply beyond the limit.
    if (error instanceof ReferenceError) return { complaint: say.tooManyAliases() };
    throw error;
  }
  const size = expandedSize(value);
  if (size === 'circular') return { complaint: say.circularAlias() };
  return size > MOST_VALUES ? { complaint: say.tooManyAliases() } : { value };
}

/** The node each alias repeats: the last anchor of that name before it. */
function resolveAliases(document: Document.Parsed) {
  const anchors = new Map<string, Node>();
  const aliases = new Map<Alias, Node>();
  const unresolved: Alias[] = [];
  visit(document, {
    Alias(_, alias) {
      const target = anchors.get(alias.source);
      if (target === undefined) unresolved.push(alias);
      else aliases.set(alias, target);
    },
    Value(_, node) {
      if (node.anchor !== undefined) anchors.set(node.anchor, node);
    },
  });
  return { aliases, unresolved };
}

/** What stands behind a merge key and is no mapping: the package throws at it, without a place. */
function notMergeable(document: Document.Parsed, follow: Follow): readonly Node[] {
  const wrong: Node[] = [];
  visit(document, {
    Pair(_, { key, value }) {
      if (!isScalar(key) || key.type !== 'PLAIN' || keyText(key) !== '<<') return;
      const whole = isNode(value) ? target(value, follow) : null;
      const sources = isSeq(whole) ? whole.items : [isNode(value) ? value : key];
      const odd = sources.filter(isNode).find((source) => !isMap(target(source, follow)));
      if (odd !== undefined) wrong.push(odd);
    },
  });
  return wrong;
}

/** From where to where a node stands in the text; the beginning for what is no node. */
function rangeOf(node: unknown): readonly [start: number, end: number] {
  return isNode(node) && node.range ? [node.range[0], node.range[1]] : [0, 0];
}

function fail(problems: readonly PlacedComplaint[]): ReadDocument {
  return { document: null, problems };
}

// Numbers with a decimal comma inside brackets, which YAML takes for two entries.

/** `{ length: 12,5 mm }` and `[12,5 mm, 20 mm]`: the two halves become one value again, for the schema to complain about. */
export function joinSplitNumbers(document: Document.Parsed, text: string): void {
  visit(document, {
    Map(_, map) {
      if (map.flow !== true) return;
      for (let k = map.items.length - 1; k > 0; k--) {
        const [before, { key, value } = {}] = [map.items[k - 1]?.value, map.items[k]];
        const isAlone = value === null || (isScalar(value) && value.source === '');
        if (isAlone && joins(before, key, text)) map.items.splice(k, 1);
      }
    },
    Seq(_, seq) {
      if (seq.flow !== true) return;
      // Two bare numbers are one only where other commas have a space behind them.
      const hasSpaces = seq.items.some((item, k) => k > 0 && text[rangeOf(item)[0] - 1] === ' ');
      for (let k = seq.items.length - 1; k > 0; k--) {
        const isMeant = hasSpaces || !isNumber(seq.items[k]);
        if (isMeant && joins(seq.items[k - 1], seq.items[k], text)) seq.items.splice(k, 1);
      }
    },
  });
}

/** Makes `before` the whole number when nothing but a comma stands between it and what starts with the decimals. */
function joins(before: unknown, behind: unknown, text: string): boolean {
  if (!isScalar(before) || !isScalar(behind) || !isNumber(before) || !before.range || !behind.range) return false;
  const [end, start] = [before.range[1], behind.range[0]];
  if (text.slice(end, start) !== ',' || !/^\d/.test(behind.source ?? '') || behind.type !== 'PLAIN') return false;
  before.value = text.slice(before.range[0], behind.range[1]);
  before.range = [before.range[0], behind.range[1], behind.range[2]];
  return true;
}

function isNumber(node: unknown): boolean {
  return isScalar(node) && typeof node.value === 'number';
}

// How large data are once every repeat is written out.

/**
 * Number of values in plain data, shared objects counted as often as they are reached; `circular` when an object
 * contains itself. Each object is walked once, so the time does not grow with the repeats.
 */
function expandedSize(data: unknown): number | 'circular' {
  const sizes = new Map<object, number | null>();
  const measure = (value: unknown): number => {
    if (typeof value !== 'object' || value === null) return 1;
    const known = sizes.get(value);
    if (known === null) return Number.NaN;
    if (known !== undefined) return known;
    // Null marks an object still being walked.
    sizes.set(value, null);
    const size = Object.values(value).reduce((sum: number, item: unknown) => sum + measure(item), 1);
    sizes.set(value, size);
    return size;
  };
  const size = measure(data);
  return Number.isNaN(size) ? 'circular' : size;
}

// Line and column of every offset in a text. The parser's own count misses lines in documents that are broken.

/** Places in a text by offset from its start; offsets beyond its end are places of the end. */
export function placesIn(text: string): (offset: number) => Place {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return (offset) => {
    const within = Math.min(Math.max(0, offset), text.length);
    const line = lastNotAbove(starts, within);
    return { line: line + 1, column: within - (starts[line] ?? 0) + 1 };
  };
}

/** Index of the last of the rising `values` that is not above `limit`; 0 when all are. */
function lastNotAbove(values: readonly number[], limit: number): number {
  let [low, high] = [0, values.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((values[middle] ?? 0) <= limit) low = middle;
    else high = middle;
  }
  return low;
}

// Keys that stand twice in one mapping.

/**
 * The second and further of equal keys, in the order of the text. The parser's own check compares each key with all
 * before it, which takes minutes in a mapping of a hundred thousand.
 */
function repeatedKeys(document: Document.Parsed): readonly Node[] {
  const repeated: Node[] = [];
  visit(document, {
    Map(_, map) {
      const seen = new Set<string>();
      for (const { key } of map.items) {
        const text = keyText(key);
        if (text === null) continue;
        if (seen.has(text) && isNode(key)) repeated.push(key);
        seen.add(text);
      }
    },
  });
  return repeated;
}

/** As the key of the data it becomes; null for a key that is a list or a mapping. */
function keyText(key: unknown): string | null {
  if (!isScalar(key)) return null;
  return typeof key.value === 'symbol' ? (key.source ?? '<<') : String(key.value);
}

// Finds the node of a YAML document that a path of keys and indices leads to, through aliases and merge keys.

export type PathKey = string | number;
type Follow = (alias: Alias) => Node | undefined;

/**
 * What a complaint is about: a `key`; a `value` as it stands there, perhaps an alias; what is `inside` it, where an
 * alias leads; or the `owner` of something missing: its key, or where an alias leads.
 */
export type Aspect = 'key' | 'value' | 'inside' | 'owner';

/** The node of the value at a path, or of its key; where the path ends early, the last node on the way. */
function nodeAt(root: unknown, path: readonly PathKey[], at: Aspect, follow: Follow): Node | null {
  let value = isNode(root) ? root : null;
  let key = value;
  for (const step of path) {
    const next = stepInto(value === null ? null : target(value, follow), step, follow);
    if (next === null) break;
    key = next.key ?? next.value;
    value = next.value ?? next.key;
  }
  const written = value === null ? null : target(value, follow);
  if (at === 'inside') return written;
  if (at === 'owner') return written === value ? key : written;
  return at === 'key' ? key : value;
}

function stepInto(node: Node | null, step: PathKey, follow: Follow): Record<'key' | 'value', Node | null> | null {
  if (isSeq(node)) {
    const item = node.items[Number(step)];
    return isNode(item) ? { key: null, value: item } : null;
  }
  const pair = isMap(node) ? findPair(node, String(step), follow, 0) : null;
  return pair && { key: isNode(pair.key) ? pair.key : null, value: isNode(pair.value) ? pair.value : null };
}

/** Own keys first, then what the merge keys bring in, the first source first. */
function findPair(map: YAMLMap, key: string, follow: Follow, depth: number): Pair | null {
  const own = map.items.find((pair) => keyText(pair.key) === key);
  if (own) return own;
  if (depth > 100) return null;
  for (const merge of map.items.filter((pair) => keyText(pair.key) === '<<')) {
    for (const source of mergeSources(merge.value, follow)) {
      const pair = isMap(source) ? findPair(source, key, follow, depth + 1) : null;
      if (pair) return pair;
    }
  }
  return null;
}

function mergeSources(value: unknown, follow: Follow): readonly Node[] {
  if (!isNode(value)) return [];
  const node = target(value, follow);
  if (!isSeq(node)) return node === null ? [] : [node];
  return node.items.flatMap((item) => mergeSources(item, follow));
}

function target(node: Node, follow: Follow): Node | null {
  return isAlias(node) ? (follow(node) ?? null) : node;
}

/** YAML text to plain data, with the place of every value kept. */
import { type Alias, type Document, isNode, type Node, parseDocument, visit } from 'yaml';
import {
  circularAlias,
  notAMapping,
  repeatedKey,
  tooDeep,
  tooManyAliases,
  unresolvedAlias,
  yamlError,
} from '../messages/file.ts';
import { FILE_START, type Place, type PlacedComplaint } from '../problems.ts';
import { expandedSize } from './expandedSize.ts';
import { type Aspect, nodeAt, type PathKey } from './nodeAt.ts';
import { placesIn } from './places.ts';
import { repeatedKeys } from './repeatedKeys.ts';

/** How often one anchor may be repeated, its nested repeats multiplied in. */
const MOST_ALIASES = 1_000;
/** Problems of one file that are told; a text of nothing but mistakes holds as many as characters. */
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

/** Reads one YAML 1.2 document. Repeated keys are reported and reading goes on; other errors end it. */
export function readYaml(text: string): ReadDocument {
  const placeOf = placesIn(text);
  try {
    // Repeated keys are looked for here, in one go. Without the log level the package itself warns on stderr, about keys that are lists.
    const document = parseDocument(text, {
      prettyErrors: false,
      merge: true,
      version: '1.2',
      uniqueKeys: false,
      logLevel: 'error',
    });
    return convert(document, placeOf);
  } catch (error) {
    // The parser works by recursion: thousands of open brackets exhaust its stack.
    if (error instanceof RangeError) return failed([{ ...FILE_START, ...tooDeep() }]);
    throw error;
  }
}

function convert(document: Document.Parsed, placeOf: (offset: number) => Place): ReadDocument {
  const found = [...document.errors, ...document.warnings];
  const told = found.slice(0, MOST_PROBLEMS);
  const errors = told.map((e) => ({ ...placeOf(e.pos[0]), ...yamlError(e.message, e.code) }));
  if (document.errors.length > 0) return failed(errors);
  const repeated = repeatedKeys(document).slice(0, MOST_PROBLEMS);
  const problems = [...errors, ...repeated.map((key) => ({ ...placeOf(startOf(key)), ...repeatedKey() }))];
  const { aliases, unresolved } = resolveAliases(document);
  const lost = unresolved.map((a) => ({ ...placeOf(a.range?.[0] ?? 0), ...unresolvedAlias(a.source) }));
  if (lost.length > 0) return failed([...problems, ...lost]);
  const data = toData(document);
  if ('complaint' in data) return failed([...problems, { ...FILE_START, ...data.complaint }]);
  if (typeof data.value !== 'object' || data.value === null || Array.isArray(data.value)) {
    return failed([...problems, { ...placeOf(startOf(document.contents)), ...notAMapping(data.value) }]);
  }
  const node = (path: readonly PathKey[], at: Aspect) =>
    nodeAt(document.contents, path, at, (alias) => aliases.get(alias));
  const place = (path: readonly PathKey[], at: Aspect) => placeOf(startOf(node(path, at)));
  const range = (path: readonly PathKey[], at: Aspect) => rangeOf(node(path, at));
  return { document: { data: data.value, place, range }, problems };
}

function toData(document: Document.Parsed) {
  let value: unknown;
  try {
    value = document.toJS({ maxAliasCount: MOST_ALIASES });
  } catch (error) {
    // What the package throws when aliases multiply beyond the limit.
    if (error instanceof ReferenceError) return { complaint: tooManyAliases() };
    throw error;
  }
  const size = expandedSize(value);
  if (size === 'circular') return { complaint: circularAlias() };
  return size > MOST_VALUES ? { complaint: tooManyAliases() } : { value };
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

function rangeOf(node: unknown): readonly [number, number] {
  return isNode(node) && node.range ? [node.range[0], node.range[1]] : [0, 0];
}

function startOf(node: unknown): number {
  return isNode(node) ? (node.range?.[0] ?? 0) : 0;
}

function failed(problems: readonly PlacedComplaint[]): ReadDocument {
  return { document: null, problems };
}

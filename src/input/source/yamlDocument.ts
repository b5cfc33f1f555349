/** YAML text to plain data, with the place of every value kept. */
import { type Alias, type Document, isNode, LineCounter, type Node, parseDocument, visit } from 'yaml';
import { circularAlias, notAMapping, tooDeep, tooManyAliases, unresolvedAlias, yamlError } from '../messages/file.ts';
import { FILE_START, type Place, type PlacedComplaint } from '../problems.ts';
import { expandedSize } from './expandedSize.ts';
import { type Aspect, nodeAt, type PathKey } from './nodeAt.ts';

/** How often one anchor may be repeated, its nested repeats multiplied in. */
const MOST_ALIASES = 1_000;
/** Values in the whole scenario once every alias is filled in. */
const MOST_VALUES = 2_000_000;

export interface SourceDocument {
  /** Plain data, aliases and merge keys filled in. */
  readonly data: unknown;
  /** Where the value at a path stands, or its key; a path that leads nowhere gives the last step that exists. */
  readonly place: (path: readonly PathKey[], at: Aspect) => Place;
}

export interface ReadDocument {
  readonly document: SourceDocument | null;
  readonly problems: readonly PlacedComplaint[];
}

/** Reads one YAML 1.2 document. Repeated keys are reported and reading goes on; other errors end it. */
export function readYaml(text: string): ReadDocument {
  const lines = new LineCounter();
  const placeOf = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  try {
    const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, merge: true, version: '1.2' });
    return convert(document, placeOf);
  } catch (error) {
    // The parser works by recursion: thousands of open brackets exhaust its stack.
    if (error instanceof RangeError) return failed([{ ...FILE_START, ...tooDeep() }]);
    throw error;
  }
}

function convert(document: Document.Parsed, placeOf: (offset: number) => Place): ReadDocument {
  const found = [...document.errors, ...document.warnings];
  const problems = found.map((e) => ({ ...placeOf(e.pos[0]), ...yamlError(e.message, e.code) }));
  if (document.errors.some((error) => error.code !== 'DUPLICATE_KEY')) return failed(problems);
  const { aliases, unresolved } = resolveAliases(document);
  const lost = unresolved.map((a) => ({ ...placeOf(a.range?.[0] ?? 0), ...unresolvedAlias(a.source) }));
  if (lost.length > 0) return failed([...problems, ...lost]);
  const data = toData(document);
  if ('complaint' in data) return failed([...problems, { ...FILE_START, ...data.complaint }]);
  if (typeof data.value !== 'object' || data.value === null || Array.isArray(data.value)) {
    return failed([...problems, { ...placeOf(startOf(document.contents)), ...notAMapping(data.value) }]);
  }
  const place = (path: readonly PathKey[], at: Aspect) =>
    placeOf(startOf(nodeAt(document.contents, path, at, (alias) => aliases.get(alias))));
  return { document: { data: data.value, place }, problems };
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

function startOf(node: unknown): number {
  return isNode(node) ? (node.range?.[0] ?? 0) : 0;
}

function failed(problems: readonly PlacedComplaint[]): ReadDocument {
  return { document: null, problems };
}

/**
 * Changes to the text of a scenario, one at a time: each takes the text and gives the changed one. A value that stands is
 * replaced where it stands, every other byte kept; what is added comes in the order of the format, with its meaning as
 * its comment, and comments and order of everything else stay.
 */

import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  Pair,
  parseDocument,
  Scalar,
  stringify,
  type YAMLMap,
} from 'yaml';
import { type PathKey, READING } from '../source/yaml.ts';
import type { FormField, Group } from './fields.ts';

type Path = readonly PathKey[];

/** What stands where something new begins. */
export type Plain = string | number | boolean | readonly Plain[] | { readonly [key: string]: Plain };

/**
 * The text with a value written at a path of the table of fields, what leads there made where it is missing.
 * @param value as it is typed; digits alone stay a number
 */
export function write(text: string, root: Group, path: Path, value: string): string {
  const document = parse(text);
  const standing = document.getIn(path, true);
  if (isScalar(standing) && standing.range && !standing.anchor) {
    const [from, to] = standing.range;
    return text.slice(0, from) + scalarText(plainOf(root, path, value), isInFlow(document, path)) + text.slice(to);
  }
  return put(text, root, path, plainOf(root, path, value));
}

/** The text with plain data at a path, in place of what stands there. */
export function put(text: string, root: Group, path: Path, value: Plain): string {
  const document = parse(text);
  const key = path.at(-1);
  const parent = parentOf(document, root, path.slice(0, -1));
  const standing = isCollection(parent) ? parent.get(key, true) : undefined;
  const node = document.createNode(value, { aliasDuplicateObjects: false }) as Node;
  if (isScalar(standing) && standing.comment) node.comment = standing.comment;
  if (isSeq(node) && node.items.every(isScalar)) node.flow = true;
  if (isSeq(parent)) parent.set(Number(key), node);
  else if (isMap(parent)) setInOrder(parent, String(key), node, groupAt(root, path.slice(0, -1)));
  const meaning = fieldAt(root, path)?.text;
  if (isScalar(node) && meaning && !isInFlow(document, path)) node.comment ??= ` ${meaning}`;
  return print(document);
}

/** The text with an entry more in the list at a path. */
export function add(text: string, root: Group, path: Path, entry: Plain): string {
  const list = parse(text).getIn(path, true);
  return isSeq(list) ? put(text, root, [...path, list.items.length], entry) : put(text, root, path, [entry]);
}

/** The text without what stands at a path, nor the mappings and lists that it leaves empty. */
export function remove(text: string, path: Path): string {
  const document = parse(text);
  document.deleteIn(path);
  for (let above = path.slice(0, -1); above.length > 1; above = above.slice(0, -1)) {
    const left = document.getIn(above, true);
    if (!isCollection(left) || left.items.length > 0) break;
    document.deleteIn(above);
  }
  return print(document);
}

/** Whether a path can be written to: not where it leads through an alias or a merge key to what stands elsewhere. */
export function isOwn(document: Document, path: Path): boolean {
  let node: unknown = document.contents;
  for (const key of path) {
    if (isAlias(node)) return false;
    if (!isCollection(node)) return true;
    if (isMap(node) && !node.has(key)) return !node.items.some(isMerge);
    node = node.get(key, true);
  }
  return !isAlias(node);
}

/** What a merge key brings in stands elsewhere. */
function isMerge({ key }: Pair): boolean {
  return isScalar(key) && (key.value === '<<' || typeof key.value === 'symbol');
}

export function parse(text: string): Document.Parsed {
  return parseDocument(text, READING);
}

function print(document: Document): string {
  return document.toString({ lineWidth: 0 });
}

/** The mapping or list at a path, made where it is missing. */
function parentOf(document: Document, root: Group, path: Path): unknown {
  let parent: unknown = document.contents;
  path.forEach((key, k) => {
    const own = isCollection(parent) ? parent.get(key, true) : undefined;
    if (isCollection(own)) {
      // Braces without anything between them hold no comments and would stay one line for ever.
      if (own.items.length === 0) own.flow = false;
      parent = own;
      return;
    }
    const made = document.createNode(typeof path[k + 1] === 'number' ? [] : {}) as Node;
    if (isMap(parent)) setInOrder(parent, String(key), made, groupAt(root, path.slice(0, k)));
    else if (isSeq(parent)) parent.set(Number(key), made);
    parent = made;
  });
  return parent;
}

/** Behind the last of the keys that the format puts before it. */
function setInOrder(map: YAMLMap, key: string, node: Node, group: Group | null): void {
  if (map.has(key)) {
    map.set(key, node);
    return;
  }
  const order = group?.fields.map((field) => field.key) ?? [];
  const place = (item: Pair) => order.indexOf(isScalar(item.key) ? String(item.key.value) : '');
  const own = order.indexOf(key);
  const before = map.items.findLastIndex((item) => place(item) < own);
  const at = own < 0 ? map.items.length : before + 1;
  map.items.splice(at, 0, new Pair(new Scalar(key), node));
}

function isInFlow(document: Document, path: Path): boolean {
  return path.some((_, k) => {
    const above = k === 0 ? document.contents : document.getIn(path.slice(0, k), true);
    return isCollection(above) && above.flow === true;
  });
}

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;

/** What is typed into a field, as it would be if it were written by hand: digits alone are a number, but in a name. */
function plainOf(root: Group, path: Path, value: string): string | number | boolean {
  const field = fieldAt(root, path);
  if (field?.kind === 'yesNo' && (value === 'true' || value === 'false')) return value === 'true';
  return field?.kind !== 'text' && NUMBER.test(value) ? Number(value) : value;
}

function scalarText(value: string | number | boolean, isFlow: boolean): string {
  const plain = stringify(value, { lineWidth: 0 }).trimEnd();
  const isPlain = !plain.startsWith('"') && !plain.startsWith("'");
  return (isFlow && isPlain && /[,[\]{}]/.test(plain)) || plain.includes('\n') ? JSON.stringify(value) : plain;
}

// The table of fields along a path.

/** The field at a path; of several forms the one that has what the path leads to. */
export function fieldAt(root: FormField, path: Path): FormField | null {
  const [key, ...rest] = path;
  if (key === undefined) return root;
  if (root.kind === 'either')
    return root.options.map((option) => fieldAt(option, path)).find((f) => f !== null) ?? null;
  if (root.kind === 'list') return fieldAt(root.entry, rest);
  if (root.kind !== 'group') return null;
  const child = root.fields.find((field) => field.key === key);
  return child === undefined ? null : fieldAt(child, rest);
}

function groupAt(root: Group, path: Path): Group | null {
  const field = fieldAt(root, path);
  if (field?.kind === 'group') return field;
  return field?.kind === 'either' ? (field.options.find((option) => option.kind === 'group') ?? null) : null;
}

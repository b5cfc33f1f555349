/** What stands at a place of a YAML document, and how it could be written otherwise: every edit is only a suggestion. */
import { isMap, isNode, isScalar, isSeq, type Node, parseDocument, type YAMLMap, type YAMLSeq } from 'yaml';
import { joinSplitNumbers, type PathKey, READING } from '../source/yaml.ts';

/** A stretch of the text and what could stand there instead. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

interface Entry {
  readonly owner: YAMLMap | YAMLSeq;
  readonly index: number;
}

/** A key or a value. */
export interface Spot {
  readonly isKey: boolean;
  readonly node: Node;
  /** What the key names, or the value itself. */
  readonly value: Node | null;
  /** Of the value. */
  readonly path: readonly PathKey[];
  /** Null for the root. */
  readonly entry: Entry | null;
}

/** Every key and value of a document that can be read, from the root on. */
export function spotsIn(text: string): readonly Spot[] {
  const spots: Spot[] = [];
  const walk = (node: unknown, path: readonly PathKey[], entry: Entry | null): void => {
    if (!isNode(node)) return;
    spots.push({ isKey: false, node, value: node, path, entry });
    if (isSeq(node)) node.items.forEach((item, index) => void walk(item, [...path, index], { owner: node, index }));
    if (!isMap(node)) return;
    node.items.forEach(({ key, value }, index) => {
      const below = [...path, isScalar(key) ? String(key.value) : ''];
      const place = { owner: node, index };
      if (isNode(key)) {
        spots.push({ isKey: true, node: key, value: isNode(value) ? value : null, path: below, entry: place });
      }
      walk(value, below, place);
    });
  };
  const document = parseDocument(text, READING);
  joinSplitNumbers(document, text);
  walk(document.contents, [], null);
  return spots;
}

/** Where a node begins and ends, without the white space behind it. */
export function stretch(text: string, node: Node | null): readonly [start: number, end: number] {
  const [start, end] = node?.range ?? [0, 0];
  return [start, start + text.slice(start, end).trimEnd().length];
}

export function replaceNode(text: string, node: Node, put: string): Edit {
  const [start, end] = stretch(text, node);
  return { start, end, text: put };
}

/** A field or an entry of a list left out. */
export function leaveOut(text: string, { owner, index }: Entry): Edit {
  const [start, end] = stretchOf(text, owner, index);
  if (index + 1 < owner.items.length) return { start, end: stretchOf(text, owner, index + 1)[0], text: '' };
  return index === 0 ? { start, end, text: '' } : { start: stretchOf(text, owner, index - 1)[1], end, text: '' };
}

function stretchOf(text: string, owner: YAMLMap | YAMLSeq, index: number): readonly [start: number, end: number] {
  if (isSeq(owner)) return stretch(text, owner.items[index] as Node);
  const pair = owner.items[index];
  const [start, keyEnd] = stretch(text, isNode(pair?.key) ? pair.key : null);
  const [, end] = isNode(pair?.value) ? stretch(text, pair.value) : [0, keyEnd];
  return [start, Math.max(end, keyEnd)];
}

/** A field put in front of the others of a mapping. */
export function putField(text: string, map: YAMLMap, field: string): Edit {
  const [start] = stretch(text, map);
  if (map.flow === true)
    return { start: start + 1, end: start + 1, text: ` ${field}${map.items.length > 0 ? ',' : ' '}` };
  const [first] = stretchOf(text, map, 0);
  return { start: first, end: first, text: `${field}\n${' '.repeat(first - text.lastIndexOf('\n', first - 1) - 1)}` };
}

/** Plain data on one line. */
export function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    return `{ ${Object.entries(value)
      .map(([key, item]) => `${key}: ${onOneLine(item)}`)
      .join(', ')} }`;
  }
  const isPlain = typeof value === 'string' && /^[A-Za-z][\w ./-]*$|^[+-]?[\d.]+ [A-Za-z%][\w/]*$/.test(value);
  return isPlain ? value : (JSON.stringify(value) ?? 'null');
}

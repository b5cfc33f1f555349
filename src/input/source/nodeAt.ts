/** Finds the node of a YAML document that a path of keys and indices leads to, through aliases and merge keys. */
import { type Alias, isAlias, isMap, isNode, isSeq, type Node, type Pair, type YAMLMap } from 'yaml';
import { keyText } from './repeatedKeys.ts';

export type PathKey = string | number;
type Follow = (alias: Alias) => Node | undefined;

/**
 * What a complaint is about: a `key`; a `value` as it stands there, perhaps an alias; what is `inside` it, where an
 * alias leads; or the `owner` of something missing: its key, or where an alias leads.
 */
export type Aspect = 'key' | 'value' | 'inside' | 'owner';

/** The node of the value at a path, or of its key; where the path ends early, the last node on the way. */
export function nodeAt(root: unknown, path: readonly PathKey[], at: Aspect, follow: Follow): Node | null {
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

interface Step {
  readonly key: Node | null;
  readonly value: Node | null;
}

function stepInto(node: Node | null, step: PathKey, follow: Follow): Step | null {
  if (isSeq(node)) {
    const item = node.items[Number(step)];
    return isNode(item) ? { key: null, value: item } : null;
  }
  if (!isMap(node)) return null;
  const pair = findPair(node, String(step), follow, 0);
  if (pair === null) return null;
  return { key: isNode(pair.key) ? pair.key : null, value: isNode(pair.value) ? pair.value : null };
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

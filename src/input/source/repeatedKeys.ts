/** Keys that stand twice in one mapping. */
import { type Document, isNode, isScalar, type Node, visit } from 'yaml';

/**
 * The second and further of equal keys, in the order of the text. The parser's own check compares each key with all
 * before it, which takes minutes in a mapping of a hundred thousand.
 */
export function repeatedKeys(document: Document.Parsed): readonly Node[] {
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
export function keyText(key: unknown): string | null {
  if (!isScalar(key)) return null;
  return typeof key.value === 'symbol' ? (key.source ?? '<<') : String(key.value);
}

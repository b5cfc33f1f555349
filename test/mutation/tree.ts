/** A file's syntax tree, as the compiler of the test runner parses it. Only what the mutations look at has a type. */
import { parseAst } from 'vitest/node';

export interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [field: string]: unknown;
}

export const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

export const parse = (text: string): Node => parseAst(text, { lang: 'ts' }) as unknown as Node;

/** A type in an expression: only the expression under it runs. */
const TYPED = new Set(['TSAsExpression', 'TSSatisfiesExpression', 'TSNonNullExpression']);
/** Nothing to mutate: imports, exports from elsewhere, types. */
const passedOver = (node: Node) =>
  node.type === 'ImportDeclaration' ||
  node.type === 'ExportAllDeclaration' ||
  (node.type.startsWith('TS') && !TYPED.has(node.type));

/** All nodes that run, parents first, each with its parent. */
export function walk(node: Node, visit: (node: Node, parent: Node | null) => void, parent: Node | null = null): void {
  if (passedOver(node)) return;
  visit(node, parent);
  for (const value of Object.values(node)) {
    for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) walk(child, visit, node);
  }
}

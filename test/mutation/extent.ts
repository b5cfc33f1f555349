/** Which expression around a mutation can be set in brackets together with a mark. */
import type { Node } from './tree.ts';

export interface Extent {
  readonly start: number;
  readonly end: number;
}

/** A condition or a statement is marked at its expression. */
const EXPRESSION_OF: Readonly<Record<string, string>> = { IfStatement: 'test', ExpressionStatement: 'expression' };

export function extentOf(node: Node, text: string, parent: Node | null): Extent | null {
  const inner = EXPRESSION_OF[node.type];
  const { start, end } = inner === undefined ? node : (node[inner] as Node);
  return isLink(node, parent) && text.slice(start, end).includes('?.') ? null : { start, end };
}

/** A link of a chain `a?.b(c).d`: brackets would end the chain early. */
const isLink = (node: Node, parent: Node | null) =>
  (parent?.type === 'MemberExpression' && parent.object === node) ||
  (parent?.type === 'CallExpression' && parent.callee === node);

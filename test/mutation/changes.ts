/** What a mutation may change: for each node of the tree, the texts that could stand in its place. */
import { isNode, type Node } from './tree.ts';

/** A text put in place of the characters from `start` to `end`. */
export interface Change {
  readonly kind: string;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

type Changes = (node: Node, text: string, parent: Node | null) => readonly Change[];

const COMPARISONS: Readonly<Record<string, readonly string[]>> = {
  '<': ['<=', '>='],
  '<=': ['<', '>'],
  '>': ['>=', '<='],
  '>=': ['>', '<'],
  '===': ['!=='],
  '!==': ['==='],
};
const ARITHMETIC: Readonly<Record<string, string>> = { '+': '-', '-': '+', '*': '/', '/': '*', '%': '*', '**': '*' };
const ASSIGNED: Readonly<Record<string, string>> = { '+=': '-=', '-=': '+=', '*=': '/=', '/=': '*=' };
const FUNCTIONS = new Map([
  ['min', 'max'],
  ['max', 'min'],
  ['floor', 'ceil'],
  ['ceil', 'floor'],
  ['sin', 'cos'],
  ['cos', 'sin'],
  ['some', 'every'],
  ['every', 'some'],
]);
/** Methods that give back a list like the one they were called on: the call can be left out. */
const LEFT_OUT = new Set(['filter', 'toSorted', 'sort', 'reverse', 'toReversed', 'slice']);
const LEAVING = new Set(['ReturnStatement', 'ContinueStatement', 'BreakStatement', 'ThrowStatement']);

const textOf = (node: unknown, text: string) => (isNode(node) ? text.slice(node.start, node.end) : '');
const whole = (kind: string, { start, end }: Node, text: string): Change => ({ kind, start, end, text });

/** The operator between two operands, found after the left one: its characters stand nowhere else there. */
function swappedOperator(kind: string, node: Node, source: string, operator: string): Change {
  const from = (node.left as Node).end;
  const start = from + gapIndex(source.slice(from, (node.right as Node).start), node.operator as string);
  return { kind, start, end: start + (node.operator as string).length, text: operator };
}

/** Comments between operands could hold the operator's character; they are skipped. */
const gapIndex = (gap: string, operator: string) =>
  gap.replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, (comment) => ' '.repeat(comment.length)).indexOf(operator);

const isText = (node: unknown) =>
  isNode(node) && (node.type === 'TemplateLiteral' || (node.type === 'Literal' && typeof node.value === 'string'));

const binary: Changes = (node, source) => {
  const operator = node.operator as string;
  const compared = (COMPARISONS[operator] ?? []).map((other) => swappedOperator('comparison', node, source, other));
  const other = ARITHMETIC[operator];
  if (other === undefined || isText(node.left) || isText(node.right)) return compared;
  return [swappedOperator('arithmetic', node, source, other)];
};

const logical: Changes = (node, source) => {
  const operator = node.operator as string;
  if (operator !== '??') return [swappedOperator('logical', node, source, operator === '&&' ? '||' : '&&')];
  return [whole('logical', node, `(${textOf(node.left, source)})`), whole('logical', node, textOf(node.right, source))];
};

const assignment: Changes = (node, source) => {
  const other = ASSIGNED[node.operator as string];
  return other === undefined ? [] : [swappedOperator('arithmetic', node, source, other)];
};

const unary: Changes = (node, source) =>
  node.operator === '-' || node.operator === '!'
    ? [whole(node.operator === '-' ? 'sign' : 'negation', node, `(${textOf(node.argument, source)})`)]
    : [];

/** Keys of records and indices stay: the first is no value, the second is mutated where it is worked out. */
const literal: Changes = (node, source, parent) => {
  if (parent?.type === 'Property' && parent.key === node) return [];
  if (typeof node.value === 'boolean') return [whole('boolean', node, String(!node.value))];
  if (typeof node.value !== 'number') return [];
  const number = node.value;
  return [whole('constant', node, Number.isInteger(number) ? `(${textOf(node, source)} + 1)` : `(${number} * 1.1)`)];
};

const call: Changes = (node, source) => {
  const called = node.callee as Node;
  if (called.type !== 'MemberExpression' || called.computed === true) return [];
  const property = called.property as Node;
  const name = textOf(property, source);
  const other = FUNCTIONS.get(name);
  if (other !== undefined) return [whole('function', property, other)];
  if (name === 'abs') return [whole('function', node, `(${source.slice(called.end + 1, node.end - 1)})`)];
  return LEFT_OUT.has(name) ? [{ kind: 'call', start: (called.object as Node).end, end: node.end, text: '' }] : [];
};

const conditional: Changes = (node, source) => [
  whole('condition', node.test as Node, `!(${textOf(node.test, source)})`),
];

/** The only statement of a branch, braces or not. */
function onlyStatement(branch: Node): Node | undefined {
  if (branch.type !== 'BlockStatement') return branch;
  return (branch.body as Node[]).at(-1);
}

const ifStatement: Changes = (node, source) => {
  const negated = whole('condition', node.test as Node, `!(${textOf(node.test, source)})`);
  const last = onlyStatement(node.consequent as Node);
  const leaves = !isNode(node.alternate) && last !== undefined && LEAVING.has(last.type);
  return leaves ? [negated, whole('early return', node.test as Node, 'false')] : [negated];
};

const statement: Changes = (node) =>
  (node.expression as Node).type === 'CallExpression' ? [whole('statement', node, ';')] : [];

const update: Changes = (node, source, parent) =>
  // A loop's own step would only hang.
  parent?.type === 'ForStatement'
    ? []
    : [
        whole(
          'arithmetic',
          node,
          textOf(node, source).replace(/\+\+|--/, (sign) => (sign === '++' ? '--' : '++')),
        ),
      ];

const BY_TYPE: Readonly<Record<string, Changes>> = {
  BinaryExpression: binary,
  LogicalExpression: logical,
  AssignmentExpression: assignment,
  UnaryExpression: unary,
  UpdateExpression: update,
  Literal: literal,
  CallExpression: call,
  ConditionalExpression: conditional,
  IfStatement: ifStatement,
  ExpressionStatement: statement,
};

export const changesOf: Changes = (node, source, parent) => BY_TYPE[node.type]?.(node, source, parent) ?? [];

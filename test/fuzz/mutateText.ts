/** Mutations of a scenario as text and as bytes: what breaks the YAML itself. */
import { bytesOf } from './corpus.ts';
import { type Change, pick } from './mutateTree.ts';

type Mutator = (text: string, change: Change) => string;

export function changeText(text: string, change: Change): string {
  return pick(MUTATORS, change.kind)(text, change);
}

const PIECES = [
  ...[' ', '\t', '\n', '\r', ':', ': ', '- ', '-', '?', '#', ' # ', '{', '}', '[', ']', ',', '"', "'", '|', '>', '%'],
  ...[
    '&a ',
    '*a',
    '*b',
    '<<: *a',
    '!!binary ',
    '!!float ',
    '!x ',
    '---\n',
    '...\n',
    '~',
    '.nan',
    '.inf',
    '0o17',
    '1e999',
  ],
  ...[
    '\ufeff',
    '\u0000',
    '\u001b',
    '\u0085',
    '\u2028',
    '\ud800',
    '\u202e',
    '🛞',
    'é',
    '\\',
    '\\u0000',
    '@',
    '`',
    '=',
    '"\\e[2J"',
  ],
  ...['x'.repeat(500), '['.repeat(300), '{a: '.repeat(200), '- '.repeat(300), '\n'.repeat(100), '"'.repeat(9)],
];

const insert: Mutator = (text, { at, with: k }) => splice(text, at, 0, pick(PIECES, k));
const overwrite: Mutator = (text, { at, with: k }) => splice(text, at, 1, pick(PIECES, k));
const cut: Mutator = (text, { at, with: k }) => splice(text, at, pick([1, 2, 5, 20, 80, 400], k), '');
const truncate: Mutator = (text, { at }) => text.slice(0, at % (text.length + 1));
const repeatSpan: Mutator = (text, { at, with: k }) => {
  const from = at % (text.length + 1);
  const span = text.slice(from, from + pick([1, 4, 30, 200], k));
  return splice(text, from, 0, span);
};

const byLine =
  (change: (lines: string[], line: number, k: number) => void): Mutator =>
  (text, { at, with: k }) => {
    const lines = text.split('\n');
    change(lines, at % lines.length, k);
    return lines.join('\n');
  };
const removeLine = byLine((lines, line) => lines.splice(line, 1));
const repeatLine = byLine((lines, line) => lines.splice(line, 0, lines[line] ?? ''));
const moveLine = byLine((lines, line, k) => lines.splice(k % lines.length, 0, ...lines.splice(line, 1)));
const indentLine = byLine((lines, line, k) => {
  lines[line] = `${pick([' ', '  ', '\t', '    '], k)}${lines[line]}`;
});
const dedentLine = byLine((lines, line) => {
  lines[line] = lines[line]?.replace(/^ {1,2}/, '') ?? '';
});

/** The value of some number exchanged for another number: digits, sign, decimal sign. */
const digits: Mutator = (text, { at, with: k }) => {
  const numbers = [...text.matchAll(/\d+(?:\.\d+)?/g)];
  const match = pick(numbers, at);
  if (!match) return text;
  const [number] = match;
  const others = [
    '0',
    '-1',
    number.replace('.', ','),
    `${number},5`,
    `${number}0`,
    number.slice(1),
    `-${number}`,
    '1e12',
    '1e-12',
    `.${number}`,
    `${number}.`,
  ];
  return splice(text, match.index, number.length, pick(others, k));
};

/** The unit behind some number exchanged or removed. */
const units: Mutator = (text, { at, with: k }) => {
  const match = pick([...text.matchAll(/(?<=\d )[A-Za-z]+[A-Za-z/\d]*/g)], at);
  const others = ['mm', 'in', 'kg', 'lb', 'N', 'N/mm', 'Hz', 'm', '', 'psi', 'x', '"'];
  return match ? splice(text, match.index, match[0].length, pick(others, k)) : text;
};

const lineEnds: Mutator = (text, { with: k }) =>
  text.replaceAll('\n', pick(['\r\n', '\r', '\n\r', '\n\n', '\u2028'], k));
const mark: Mutator = (text) => `\ufeff${text}`;
const twice: Mutator = (text, { with: k }) => `${text}${pick(['', '\n', '\n---\n', '\n...\n'], k)}${text}`;
const bomb: Mutator = (text, { with: k }) => {
  const depth = pick([3, 9, 30], k);
  const lines = ['a0: &b0 [x, x, x, x, x, x, x, x, x]'];
  for (let i = 1; i <= depth; i++)
    lines.push(`a${i}: &b${i} [${Array.from({ length: 9 }, () => `*b${i - 1}`).join(', ')}]`);
  return `shared:\n${lines.map((line) => `  ${line}`).join('\n')}\n${text}`;
};
const circle: Mutator = (text) => `shared: &round { inner: *round }\n${text}`;

const MUTATORS: readonly Mutator[] = [
  ...[insert, insert, overwrite, overwrite, cut, truncate, repeatSpan, removeLine, removeLine, repeatLine, moveLine],
  ...[
    indentLine,
    dedentLine,
    digits,
    digits,
    digits,
    digits,
    digits,
    units,
    units,
    lineEnds,
    mark,
    twice,
    bomb,
    circle,
  ],
];

/** Bytes exchanged, dropped or added, whatever the text meant. */
export function changeBytes(bytes: Uint8Array, { kind, at, with: k }: Change): Uint8Array {
  if (kind % 23 === 0) return bytesOf('');
  if (kind % 23 === 1) return new Uint8Array([0x50, 0x4b, 3, 4, ...bytes.slice(0, 50), 0, 0xff]);
  const copy = bytes.slice();
  copy[at % Math.max(1, copy.length)] = k % 256;
  return copy;
}

export function splice(text: string, at: number, drop: number, put: string): string {
  const from = at % (text.length + 1);
  return text.slice(0, from) + put + text.slice(from + drop);
}

import { expect, test } from 'vitest';
import { placesIn, readYaml } from '../../../src/input/source/yaml.ts';

const placesOf = (text: string) => readYaml(text).problems.map(({ line, column }) => [line, column]);
const foundIn = (text: string) =>
  readYaml(text)
    .problems.map(({ found }) => found)
    .join('\n');

test('values and keys have their place, through aliases and merge keys', () => {
  const { document, problems } = readYaml('a: &x { p: 1, q: 2 }\nb: *x\nc: { <<: [*x], r: 3 }\nd:\n  - 5\n');
  expect(problems).toEqual([]);
  expect(document?.data).toEqual({ a: { p: 1, q: 2 }, b: { p: 1, q: 2 }, c: { p: 1, q: 2, r: 3 }, d: [5] });
  expect(document?.place(['a', 'q'], 'value')).toEqual({ line: 1, column: 18 });
  expect(document?.place(['b', 'q'], 'key')).toEqual({ line: 1, column: 15 });
  expect(document?.place(['b'], 'value')).toEqual({ line: 2, column: 4 });
  expect(document?.place(['b'], 'inside')).toEqual({ line: 1, column: 7 });
  expect(document?.place(['c', 'p'], 'value')).toEqual({ line: 1, column: 12 });
  expect(document?.place(['d', 0], 'value')).toEqual({ line: 5, column: 5 });
  expect(document?.place(['d', 7, 'x'], 'key')).toEqual({ line: 4, column: 1 });
});

test('the last anchor of a name before an alias counts', () => {
  const { document } = readYaml('a: &x 1\nb: &x 2\nc: *x\n');
  expect(document?.data).toMatchObject({ c: 2 });
  expect(document?.place(['c'], 'inside')).toEqual({ line: 2, column: 7 });
});

test('repeated keys are reported and reading goes on', () => {
  const { document, problems } = readYaml('a: 1\nb: 2\na: 3\n');
  expect(document).not.toBeNull();
  expect(problems).toMatchObject([{ line: 3, column: 1 }]);
});

test.each([
  ['a: [1, 2\nb: 3\n', 2],
  ['a: 1\n\tb: 2\n', 2],
  ['a: "open\n', 2],
  ['a: 1\n b: 2\n', 1],
  ['a: 1\n---\nb: 2\n', 2],
  ['a: !!python/object x\n', 1],
  ['a: *nowhere\n', 1],
])('%j is not readable, and the line is named', (text, line) => {
  const { problems } = readYaml(text);
  expect(problems.length).toBeGreaterThan(0);
  expect(Math.abs((problems[0]?.line ?? 99) - line)).toBeLessThanOrEqual(1);
  expect(problems.every(({ column }) => column >= 1)).toBe(true);
});

test('a document that is no mapping is refused', () => {
  expect(placesOf('- 1\n- 2\n')).toEqual([[1, 1]]);
  expect(placesOf('# nothing but a remark\n')).toHaveLength(1);
  expect(foundIn('just text')).toBe('`just text`');
});

test('aliases that multiply are refused in no time', () => {
  const levels = Array.from({ length: 30 }, (_, i) => `a${i + 1}: &a${i + 1} [${Array(9).fill(`*a${i}`).join(', ')}]`);
  expect(foundIn(['a0: &a0 [x, x]', ...levels].join('\n'))).toContain('multiply');
});

test('many repeats of one large anchor are refused by their total size', () => {
  const large = `a: &a [${Array(5000).fill('1').join(', ')}]\n`;
  const repeats = Array.from({ length: 900 }, (_, i) => `b${i}: *a`).join('\n');
  expect(foundIn(large + repeats)).toContain('multiply');
});

test('an anchor used a few hundred times is accepted', () => {
  const repeats = Array.from({ length: 900 }, (_, i) => `b${i}: *a`).join('\n');
  expect(readYaml(`a: &a { p: 1 }\n${repeats}`).problems).toEqual([]);
});

test('an alias inside its own anchor is refused', () => {
  expect(readYaml('a: &a [1, *a]\n').problems.length).toBeGreaterThan(0);
});

test('thousands of open brackets are refused', () => {
  expect(readYaml(`a: ${'['.repeat(50_000)}`).problems.length).toBeGreaterThan(0);
  expect(readYaml(`a: ${'['.repeat(50_000)}${']'.repeat(50_000)}`).problems.length).toBeGreaterThan(0);
});

test('Windows line ends count as one line end', () => {
  expect(placesOf('a: 1\r\nb: 2\r\na: 3\r\n')).toEqual([[3, 1]]);
});

test('every offset has a line and a column from 1', () => {
  const text = 'ab\n\ncd\r\ne';
  const place = placesIn(text);
  const places = Array.from({ length: text.length + 1 }, (_, offset) => place(offset));
  expect(places.map(({ line, column }) => `${line}:${column}`)).toEqual(
    '1:1 1:2 1:3 2:1 3:1 3:2 3:3 3:4 4:1 4:2'.split(' '),
  );
});

test('offsets outside the text are places of its ends', () => {
  expect([-5, 99].map(placesIn('a\nb'))).toEqual([
    { line: 1, column: 1 },
    { line: 2, column: 2 },
  ]);
});

test('of what cannot be read the first cause is said, and nothing of what follows from it', () => {
  for (const text of ['a: {b: 1}}\nc: 1\n', 'a:\n  - b\n - c\nd: [\n', 'a: b: c\nd: e: f\n']) {
    expect(readYaml(text).problems).toHaveLength(1);
  }
  expect(readYaml('a: {b: 1}}\nc: 1\n').problems).toMatchObject([{ line: 1, column: 10 }]);
});

test.each([
  ['a:\n\tb: 2\n', 2, 1],
  ['a:\n  - name: x\n  \tb: 2\n', 3, 3],
  ['a:\n  {\n\tb: 1\n  }\n', 3, 1],
])('a tab in front of a field is called a tab, at its place: %j', (text, line, column) => {
  expect(readYaml(text).problems).toMatchObject([{ line, column, found: 'a tab in front of a field' }]);
});

test.each([
  ['a: { length: 12,5 mm, b: 3 }', { length: '12,5 mm', b: 3 }],
  ['a: { b: 12,5 }', { b: '12,5' }],
  ['a: { b: 1.234,5 mm,c: 2 }', { b: '1.234,5 mm', c: 2 }],
  ['a: [12,5 mm, 20 mm,7,25 mm]', ['12,5 mm', '20 mm', '7,25 mm']],
  ['a: [7,5, 8]', ['7,5', 8]],
  ['a: [7,5,8]', [7, 5, 8]],
  ['a: [7, 5]', [7, 5]],
  ['a: { b: 12, 5 mm: }', { b: 12, '5 mm': null }],
  ['a: { b: 12,5: 6 }', { b: 12, '5': 6 }],
  ['a: [12,"5 mm"]', [12, '5 mm']],
])('a decimal comma inside brackets does not part a number: %s', (text, a) => {
  expect(readYaml(text).document?.data).toEqual({ a });
});

// The package throws at these, without a place.
test.each([
  ['<<: 5\n', [1, 5], '`5`'],
  ['a: 1\n<<:\n', [2, 4], '`null`'],
  ['a: 1\n? <<\n', [2, 3], '`Symbol(<<)`'],
  ['x: &x 3\nb: { <<: *x }\n', [2, 10], '`*x`'],
  ['x: &x { a: 1 }\nb: { <<: [*x, 5] }\n', [2, 15], '`5`'],
  ['x: &x { a: 1 }\nb: { <<: [[*x]] }\n', [2, 11], 'a list of 1'],
])('what stands behind a merge key and is no mapping is a problem at its place: %j', (text, place, found) => {
  expect(placesOf(text)).toEqual([place]);
  expect(readYaml(text).problems[0]?.found).toBe(`${found} behind \`<<\``);
});

test('a merge key brings in a mapping, an alias of one, or a list of these; in quotes it is a key like any other', () => {
  const data = (text: string) => readYaml(text).document?.data;
  expect(data('x: &x { a: 1 }\n<<: *x\n')).toEqual({ x: { a: 1 }, a: 1 });
  expect(data('x: &x { a: 1 }\n<<: [*x, { b: 2 }]\n')).toEqual({ x: { a: 1 }, a: 1, b: 2 });
  expect(data('"<<": 5\n')).toEqual({ '<<': 5 });
});

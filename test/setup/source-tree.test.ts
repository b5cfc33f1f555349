import { expect, test } from 'vitest';
import { findCircle, importsOf, withoutComments, withoutCommentsAndStrings } from './source-tree.ts';

const specifiers = (text: string) => importsOf({ path: 'src/sweep/pool.ts', text }).map((found) => found.specifier);

test('every form of import is seen', () => {
  const text = [
    "import a, { type B } from './a.ts';",
    "import type { C } from '../domain/c.ts';",
    'import {\n  d,\n  e,\n} from "node:fs";',
    "import './side-effect.ts';",
    "export { f } from './f.ts';",
    "export * from './g.ts';",
    "const h = await import('vega');",
  ].join('\n');
  expect(specifiers(text).sort()).toEqual(
    ['./a.ts', '../domain/c.ts', 'node:fs', './side-effect.ts', './f.ts', './g.ts', 'vega'].sort(),
  );
});

test('imports in comments and words in strings are not imports', () => {
  expect(specifiers("// import a from 'b';\n/* import c from 'd'; */\nexport const e = 'from here';\n")).toEqual([]);
});

test('an export before an import does not swallow it', () => {
  expect(specifiers("export const a = 1\nexport { b } from './b.ts';")).toEqual(['./b.ts']);
});

test('relative imports resolve to files and packages to their names', () => {
  const text = "import a from '../domain/a.ts'; \nimport b from '@scope/name/part';\nimport c from 'csv-parse/sync';";
  const found = importsOf({ path: 'src/sweep/pool.ts', text });
  expect(found.map((one) => one.file ?? one.package)).toEqual(['src/domain/a.ts', '@scope/name', 'csv-parse']);
});

test('comments go and strings that look like comments stay', () => {
  expect(withoutComments("const a = 'http://b'; // c")).toBe("const a = 'http://b'; ");
  // biome-ignore lint/suspicious/noTemplateCurlyInString: the text under test is itself a template
  expect(withoutCommentsAndStrings("f('Date', `${Date.now()}`)")).toBe("f('', `${Date.now()}`)");
});

test('a circle is found and a diamond is not one', () => {
  const circle = new Map([
    ['a', ['b']],
    ['b', ['c']],
    ['c', ['b']],
  ]);
  const diamond = new Map([
    ['a', ['b', 'c']],
    ['b', ['d']],
    ['c', ['d']],
  ]);
  expect(findCircle(circle)).toEqual(['b', 'c', 'b']);
  expect(findCircle(diamond)).toBeNull();
});

/** The rules of the house that no compiler checks. A failing test lists every file that breaks its rule. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import {
  findCircle,
  importsOf,
  ROOT,
  readFiles,
  type SourceFile,
  topLevelNames,
  withoutCommentsAndStrings,
} from './setup/source-tree.ts';

/** The parts of src, each with what it may import besides itself. What it may import is above it, so no circle is left. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  model: [],
  result: ['model'],
  advice: ['result', 'model'],
  sweep: ['advice', 'result', 'model'],
  input: ['result', 'model'],
  report: ['advice', 'result', 'model'],
  // The page's scripts: the model and what draws, see below.
  page: ['fitting', 'report', 'input', 'sweep', 'advice', 'result', 'model'],
  compare: ['report', 'input', 'advice', 'result', 'model'],
  fitting: ['report', 'input', 'advice', 'result', 'model'],
  pipeline: ['compare', 'report', 'input', 'sweep', 'advice', 'result', 'model'],
  measure: ['pipeline', 'report', 'input', 'sweep', 'result', 'model'],
  audit: ['measure', 'pipeline', 'report', 'input', 'sweep', 'advice', 'result', 'model'],
  cli: ['audit', 'measure', 'fitting', 'compare', 'pipeline', 'report', 'input', 'sweep', 'advice', 'result', 'model'],
};

/** Physics and choices: no package, no node module, no clock, no chance, no console. */
const PURE = /^src\/(?:model|result|advice|audit\/fit)\//;

/** The one folder that knows each third-party package. */
const PACKAGE_OWNER: Readonly<Record<string, string>> = {
  commander: 'src/cli/',
  'csv-parse': 'src/(?:input|audit/read|compare)/',
  yaml: 'src/(?:input|audit/read)/',
  zod: 'src/(?:input|audit/read|measure)/',
  piscina: 'src/sweep/',
  'csv-stringify': 'src/report/',
  handlebars: 'src/report/',
  vega: 'src/report/',
  'vega-lite': 'src/report/',
  'lit-html': 'src/page/',
  '@noble/hashes': 'src/page/form/',
  brotli: 'src/page/form/',
};

const LONGEST_FILE = 400;
/** Files of pure tables, which may be longer. */
const TABLES: readonly string[] = ['src/model/corner/checks.ts'];

/** Test folders that follow a purpose, not a file of src. */
const FREE_TEST_FOLDERS = ['reference', 'golden', 'browser', 'fuzz', 'cover', 'bench', 'setup'];

const TOP_LEVEL = [
  ...['src', 'scenarios', 'reports', 'test', 'README.md', 'DEVELOPERS.md'],
  ...['package.json', 'package-lock.json', 'tsconfig.json'],
];

const sources = readFiles(['src'], '.ts');
const tests = readFiles(['test'], '.ts');
const pure = sources.filter((file) => PURE.test(file.path));
const outsideCli = sources.filter((file) => !file.path.startsWith('src/cli/'));

const partOf = (path: string) => path.split('/')[1]?.replace(/\.ts$/, '') ?? '';
const codeOf = (file: SourceFile) => withoutCommentsAndStrings(file.text);
const pathsOf = (files: readonly SourceFile[]) => files.map((file) => file.path);
const importEdges = sources.flatMap((file) => importsOf(file).map((found) => ({ from: file.path, ...found })));
const fileEdges = importEdges.flatMap(({ from, file }) => (file === null ? [] : [{ from, to: file }]));

/** `path:line: text` of each line that matches, comments left in. */
function linesMatching(files: readonly SourceFile[], pattern: RegExp): readonly string[] {
  return files.flatMap(({ path, text }) =>
    text.split('\n').flatMap((line, index) => (pattern.test(line) ? [`${path}:${index + 1}: ${line.trim()}`] : [])),
  );
}

test('the sources were found at all', () => {
  expect(sources.length).toBeGreaterThan(3);
  expect(pure.length).toBeGreaterThan(3);
  expect(fileEdges.length).toBeGreaterThan(0);
});

test('imports run one way, and nothing in src imports from outside it', () => {
  const wrong = fileEdges.filter(({ from, to }) => {
    const allowed = MAY_IMPORT[partOf(from)] ?? [];
    return !to.startsWith('src/') || (partOf(from) !== partOf(to) && !allowed.includes(partOf(to)));
  });
  expect(wrong).toEqual([]);
});

test('the live bench takes from report only what draws and writes numbers, and nobody imports it', () => {
  const drawing = /^src\/report\/(?:drawing\/|text\/(?:textWidth|numbers)\.ts$)/;
  const reached = new Set(['src/page/bench/live.ts']);
  for (const path of reached) for (const edge of fileEdges) if (edge.from === path) reached.add(edge.to);
  // Types of the result's record are named by what draws from it; nothing of it is in the bundle.
  const own = [...reached].filter((path) => path.startsWith('src/page/'));
  const taken = fileEdges.filter(({ from, to }) => own.includes(from) && to.startsWith('src/report/'));
  expect(taken.length).toBeGreaterThan(5);
  expect(taken.filter(({ to }) => !drawing.test(to))).toEqual([]);
  expect(fileEdges.filter(({ from, to }) => to.startsWith('src/page/') && !from.startsWith('src/page/'))).toEqual([]);
  const packages = importEdges.filter(({ from, file }) => reached.has(from) && file === null);
  expect([...new Set(packages.map(({ package: name }) => name))]).toEqual(['lit-html']);
});

test('nothing in src names the build', () => {
  expect(linesMatching(readFiles(['src']), /\.ci\b/)).toEqual([]);
});

test('src holds the named parts and nothing else', () => {
  expect(pathsOf(sources).filter((path) => !Object.hasOwn(MAY_IMPORT, partOf(path)))).toEqual([]);
});

test('relative imports carry the .ts extension and lead to a file', () => {
  const known = new Set(pathsOf(sources));
  expect(fileEdges.filter(({ to }) => !to.endsWith('.json') && !known.has(to))).toEqual([]);
});

test('folders import each other in no circle, types included', () => {
  const folder = (path: string) => path.replace(/\/[^/]+$/, '');
  const edges = new Map<string, string[]>(sources.map(({ path }) => [folder(path), []]));
  for (const { from, to } of fileEdges) if (folder(from) !== folder(to)) edges.get(folder(from))?.push(folder(to));
  expect(findCircle(edges)).toBeNull();
});

test('no import leads in a circle, types included', () => {
  const edges = new Map(
    sources.map(({ path }) => [path, fileEdges.filter(({ from }) => from === path).map(({ to }) => to)]),
  );
  expect(findCircle(edges)).toBeNull();
});

test('the worker reaches only sweep, result and model', () => {
  const reached = new Set<string>(['src/sweep/worker.ts']);
  // A set being walked also visits what is added on the way.
  for (const path of reached) {
    for (const edge of fileEdges) if (edge.from === path) reached.add(edge.to);
  }
  expect([...reached].filter((path) => !['sweep', 'result', 'model'].includes(partOf(path)))).toEqual([]);
});

test('physics and choices import no package and no node module', () => {
  expect(importEdges.filter(({ from, file }) => PURE.test(from) && file === null)).toEqual([]);
});

test('physics and choices know no clock, no chance, no console, no process, no network', () => {
  const impure =
    /\bDate\b\s*[.(]|\bnew\s+Date\b|\bperformance\s*\.|\bMath\s*\.\s*random\b|\bcrypto\s*\.|\bconsole\s*\.|\bprocess\s*[.[]|\bglobalThis\b|\bfetch\s*\(|\bset(?:Timeout|Interval|Immediate)\s*\(/;
  expect(pathsOf(pure.filter((file) => impure.test(codeOf(file))))).toEqual([]);
});

test('each package is imported by its one owner', () => {
  const wrong = importEdges.filter(
    ({ from, package: name }) => name !== null && !new RegExp(`^${PACKAGE_OWNER[name] ?? 'no owner'}`).test(from),
  );
  expect(wrong).toEqual([]);
});

test('the packages with an owner are the dependencies, all at exact versions', () => {
  const manifest = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as Record<
    'dependencies' | 'devDependencies',
    Record<string, string>
  >;
  expect(Object.keys(manifest.dependencies).sort()).toEqual(Object.keys(PACKAGE_OWNER).sort());
  const versions = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies });
  expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
});

test('no index.ts in src', () => {
  expect(pathsOf(sources).filter((path) => path.endsWith('/index.ts'))).toEqual([]);
});

test('the process ends in src/cli only', () => {
  const exits = /\bprocess\s*\.\s*(?:exit|exitCode|abort|kill)\b/;
  expect(pathsOf(outsideCli.filter((file) => exits.test(codeOf(file))))).toEqual([]);
});

test('files are written in src/cli only', () => {
  const writers =
    /\b(?:writeFile|appendFile|copyFile|createWriteStream|mkdir|mkdtemp|rename|rm|rmdir|unlink|truncate|symlink|link|cp|chmod|utimes|write|open)(?:Sync)?\b/;
  const usesFiles = (file: SourceFile) => importsOf(file).some(({ specifier }) => /^node:fs/.test(specifier));
  const writing = outsideCli.filter((file) => usesFiles(file) && writers.test(codeOf(file)));
  expect(pathsOf(writing)).toEqual([]);
});

test(`files of src have at most ${LONGEST_FILE} lines, tables excepted`, () => {
  const long = sources.filter((file) => file.text.trimEnd().split('\n').length > LONGEST_FILE);
  expect(pathsOf(long).filter((path) => !TABLES.includes(path))).toEqual([]);
  expect(TABLES.filter((path) => !sources.some((file) => file.path === path))).toEqual([]);
});

test('test mirrors src path for path', () => {
  const mirrored = pathsOf(sources).flatMap((path) => [path.replace(/\.ts$/, ''), path.replace(/\/[^/]+$/, '')]);
  const known = new Set(mirrored.map((path) => path.replace(/^src\//, '')));
  const strays = pathsOf(tests)
    .filter((path) => path.endsWith('.test.ts') && path !== 'test/architecture.test.ts')
    .filter((path) => !FREE_TEST_FOLDERS.includes(path.split('/')[1] ?? ''))
    // `corner/contacts.random.test.ts` belongs to `corner/contacts.ts` as well.
    .filter((path) => !known.has(path.replace(/^test\//, '').replace(/\.[^/]*$/, '')));
  expect(strays).toEqual([]);
});

test('no reminders are left over and the compiler is nowhere silenced', () => {
  // The brackets keep this line from matching itself.
  const reminders = /\b(?:TO[D]O|FIX[M]E|X[X]X|HA[C]K)\b|@[t]s-(?:ignore|nocheck|expect-error)/;
  expect(linesMatching([...sources, ...tests], reminders)).toEqual([]);
  const untyped = /\bas\s+any\b|[:<]\s*any\b/;
  expect(pathsOf([...sources, ...tests].filter((file) => untyped.test(codeOf(file))))).toEqual([]);
});

test('no test is singled out or left out', () => {
  const singled = /\b(?:test|it|describe|suite|bench)\s*\.\s*(?:only|skip|skipIf|runIf|todo|fails)\b/;
  expect(pathsOf(tests.filter((file) => singled.test(codeOf(file))))).toEqual([]);
});

test('tests and sources outside the command line print nothing', () => {
  const prints = /\bconsole\s*\.\s*\w+\s*\(|\bprocess\s*\.\s*std(?:out|err)\b/;
  // Programs that are started by hand speak to whoever started them.
  const programs = /^test\/(?:bench\/|fuzz\/main\.ts$)/;
  const silent = [...outsideCli, ...tests.filter((file) => !programs.test(file.path))];
  // Strings go, pages written into browser tests may print.
  expect(pathsOf(silent.filter((file) => prints.test(codeOf(file))))).toEqual([]);
});

test('the top level holds the agreed names and dot files only', () => {
  expect(topLevelNames().filter((name) => !name.startsWith('.') && !TOP_LEVEL.includes(name))).toEqual([]);
});

test('no file names a folder of one machine', () => {
  const machinePath = /(?<![\w.~>-])\/(?:work|tmp|root|home|Users|var\/folders)\/\w|\b[A-Z]:\\Users\b/;
  const files = readFiles(topLevelNames()).filter((file) => !file.text.includes('\0'));
  expect(linesMatching(files, machinePath)).toEqual([]);
});

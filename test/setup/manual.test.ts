import { expect, test } from 'vitest';
import {
  anchorsOf,
  commandsOf,
  cutOut,
  exampleFieldsOf,
  filesOf,
  linksOf,
  pathsIn,
  withId,
  withShown,
} from './manual.ts';

const PAGE = [
  '# A page: with `code`',
  '```yaml build/scenario.yaml',
  'name: x',
  '```',
  '```yaml',
  'title: only shown',
  '```',
  '```console',
  '$ springsift check a.yaml    # exit code 2',
  'one',
  '...',
  'three',
  'npx springsift --version',
  '```',
  '```sh',
  'springsift not run',
  '```',
  'See [there](reports/x.html) and `src/model/units.ts`.',
].join('\n');

test('files are the fences that name one', () => {
  expect(filesOf(PAGE)).toEqual([{ path: 'build/scenario.yaml', text: 'name: x\n' }]);
});

test('fields are those of examples, not of files and remarks', () => {
  expect(exampleFieldsOf(PAGE)).toEqual(['title']);
  expect(exampleFieldsOf('```yaml\ntrim: { from: 0 mm, to: 1 mm } # note: x\nbump:\n```')).toEqual([
    'trim',
    'from',
    'to',
    'bump',
  ]);
});

test('commands carry their line, exit code and output', () => {
  expect(commandsOf(PAGE)).toEqual([
    { line: 9, args: ['check', 'a.yaml'], exitCode: 2, shown: ['one', '...', 'three'] },
    { line: 13, args: ['--version'], exitCode: 0, shown: [] },
  ]);
});

test('a cut-out starts at its first line, keeps its length before dots, and goes on to the end without', () => {
  const output = ['a', 'b', 'c', 'd', 'e'];
  expect(cutOut(['x'], output)).toEqual(output);
  expect(cutOut(['x', 'y', '...'], output)).toEqual(['a', 'b', '...']);
  expect(cutOut(['x', '...', 'c', 'z', '...'], output)).toEqual(['a', '...', 'c', 'd', '...']);
  expect(cutOut(['...', 'd'], output)).toEqual(['...', 'd', 'e']);
  expect(cutOut(['x', '...', 'gone'], output)).toBeNull();
});

test('fresh lines take the place of those shown', () => {
  const command = commandsOf(PAGE)[0];
  const text = command ? withShown(PAGE, command, ['fresh']) : '';
  expect(commandsOf(text)[0]?.shown).toEqual(['fresh']);
  expect(commandsOf(text)[1]?.line).toBe(11);
});

test('links, anchors and paths are found outside of fences', () => {
  expect(linksOf(PAGE)).toEqual(['reports/x.html']);
  expect(anchorsOf(PAGE)).toEqual(['#a-page-with-code']);
  expect(pathsIn(PAGE)).toEqual(['src/model/units.ts']);
});

test('another id takes the place of the old one, and its corners of theirs', () => {
  expect(withId('a-F1-R2-33: `F1` in front, `R2` behind', 'a-F1-R2-33', 'b-F4-R5-66')).toBe(
    'b-F4-R5-66: `F4` in front, `R5` behind',
  );
});

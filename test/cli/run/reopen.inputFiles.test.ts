import { expect, test } from 'vitest';
import { inputFiles } from '../../../src/cli/run/reopen.ts';

const SCENARIO = { path: 'scenario.yaml', text: 'a' };

test('inputs keep their paths below a folder of their own', () => {
  expect(inputFiles([SCENARIO, { path: './lists//springs.csv', text: 'b' }])).toEqual({
    files: { 'inputs/scenario.yaml': 'a', 'inputs/lists/springs.csv': 'b' },
  });
});

test.each([
  '../evil',
  'a/../../evil',
  '..',
  '/etc/evil',
  'C:\\evil',
  'a\\..\\b',
  'folder/',
  '.',
  '',
  'a\u0000b',
  'SCENARIO.yaml',
  './scenario.yaml',
])('the path %j is refused: it leads out of the folder, or to the place of another file', (path) => {
  expect(inputFiles([SCENARIO, { path, text: 'b' }])).toEqual({ unsafe: path });
});

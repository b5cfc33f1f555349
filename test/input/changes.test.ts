import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { inputChanges } from '../../src/input/changes.ts';

function file(path: string, text: string) {
  return { path, text, bytes: text.length, sha256: createHash('sha256').update(text).digest('hex') };
}

const SCENARIO = `
name: car # mine
axles:
  front:
    wheel_load: 268 kg
    mounts:
      - { name: flat mount, raise: 12 mm, spacer: [0 mm, 3 mm] }
      - { name: tall mount, raise: 27 mm }
    helpers: [none]
`;
const CATALOGUE = 'name,rate_n_per_mm,wire_mm\nA,22,8\nB,26,\nB,28,9\n';

test('values that differ are told by the names of their parts, as they are written', () => {
  const edited = SCENARIO.replace('268 kg', '274 kg')
    .replace('[0 mm, 3 mm]', '[0 mm, 6 mm]')
    .replace('      - { name: tall mount, raise: 27 mm }\n', '')
    .replace('helpers: [none]', 'helpers: [none, { name: helper 50, rate: 3 N/mm }]');
  expect(inputChanges([file('a.yaml', SCENARIO)], [file('b.yaml', edited)]).changes).toEqual([
    { file: 'a.yaml', names: ['axles', 'front', 'wheel_load'], before: '268 kg', after: '274 kg' },
    {
      file: 'a.yaml',
      names: ['axles', 'front', 'mounts', 'flat mount', 'spacer'],
      before: '0 mm, 3 mm',
      after: '0 mm, 6 mm',
    },
    {
      file: 'a.yaml',
      names: ['axles', 'front', 'mounts', 'tall mount'],
      before: 'name: tall mount, raise: 27 mm',
      after: null,
    },
    {
      file: 'a.yaml',
      names: ['axles', 'front', 'helpers', 'helper 50'],
      before: null,
      after: 'name: helper 50, rate: 3 N/mm',
    },
  ]);
});

test('catalogue rows are told by their names, a second row of a name too', () => {
  const edited = CATALOGUE.replace('A,22', 'A,24').replace('B,28', 'B,30').concat('C,40,10\n');
  const scenario = file('s.yaml', SCENARIO);
  const { changes } = inputChanges([scenario, file('c.csv', CATALOGUE)], [scenario, file('c.csv', edited)]);
  expect(changes).toEqual([
    { file: 'c.csv', names: ['A', 'rate_n_per_mm'], before: '22', after: '24' },
    { file: 'c.csv', names: ['B (2)', 'rate_n_per_mm'], before: '28', after: '30' },
    { file: 'c.csv', names: ['C'], before: null, after: 'rate n per mm: 40, wire mm: 10' },
  ]);
});

test('a catalogue that only one report has is one change', () => {
  const scenario = file('s.yaml', SCENARIO);
  const { changes } = inputChanges([scenario, file('c.csv', CATALOGUE)], [scenario]);
  expect(changes).toHaveLength(1);
  expect(changes[0]).toMatchObject({ file: 'c.csv', names: [], after: null });
});

test('comments, order and spacing are another text, no other value', () => {
  const edited = SCENARIO.replace('# mine', '# yours').replace('268 kg', '268 kg ');
  const { changes, reworded } = inputChanges([file('s.yaml', SCENARIO)], [file('s.yaml', edited)]);
  expect(changes).toEqual([]);
  expect(reworded).toEqual(['s.yaml']);
  expect(inputChanges([file('s.yaml', SCENARIO)], [file('s.yaml', SCENARIO)])).toEqual({ changes: [], reworded: [] });
});

test('parts without a name are told by their places, and parts of one name are told apart', () => {
  const before =
    'name: car\npairs:\n  - { height: 1 mm }\n  - { height: 2 mm }\n  - { name: a, height: 3 mm }\n  - { name: a, height: 4 mm }\n';
  const after = before.replace('2 mm', '5 mm').replace('4 mm', '6 mm');
  expect(inputChanges([file('s.yaml', before)], [file('s.yaml', after)]).changes).toEqual([
    { file: 's.yaml', names: ['pairs', 'entry 2', 'height'], before: '2 mm', after: '5 mm' },
    { file: 's.yaml', names: ['pairs', 'a (4)', 'height'], before: '4 mm', after: '6 mm' },
  ]);
});

test('lists inside a part that came are written in brackets, records in braces', () => {
  const added = SCENARIO.concat('extra: { range: { from: 1 mm, ends: [2 mm, 3 mm] }, empty: }\n');
  const { changes } = inputChanges([file('s.yaml', SCENARIO)], [file('s.yaml', added)]);
  const after = 'range: { from: 1 mm, ends: [2 mm, 3 mm] }, empty: null';
  expect(changes).toEqual([{ file: 's.yaml', names: ['extra'], before: null, after }]);
});

test('rows of a catalogue without names are told by their numbers', () => {
  const scenario = file('s.yaml', SCENARIO);
  const rows = (rate: number) => file('c.csv', `rate_n_per_mm,bore_mm\n22,61\n${rate},61\n`);
  expect(inputChanges([scenario, rows(26)], [scenario, rows(28)]).changes).toEqual([
    { file: 'c.csv', names: ['row 2', 'rate_n_per_mm'], before: '26', after: '28' },
  ]);
});

test('reports without any file differ in nothing', () => {
  expect(inputChanges([], []).changes).toEqual([]);
});

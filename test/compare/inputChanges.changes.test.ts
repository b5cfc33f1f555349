import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { inputChanges } from '../../src/compare/inputChanges.ts';

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

/** What changed of the scenario's text, and of a catalogue beside an unchanged scenario, as `[names, before, after]`. */
const rowsOf = ({ changes }: ReturnType<typeof inputChanges>) =>
  changes.map(({ file: path, names, before, after }) => [path, names.join(' / '), before, after]);
const inScenario = (before: string, after: string) =>
  inputChanges([file('s.yaml', before)], [file('renamed.yaml', after)]);
const inCatalogue = (before: string, after?: string) => {
  const [scenario, ...catalogues] = [file('s.yaml', SCENARIO), ...(after === undefined ? [] : [file('c.csv', after)])];
  return inputChanges([scenario, file('c.csv', before)], [scenario, ...catalogues]);
};
const PLACES =
  'name: car\npairs:\n  - { height: 1 mm }\n  - { height: 2 mm }\n  - { name: a, height: 3 mm }\n  - { name: a, height: 4 mm }\n';
const UNNAMED = 'rate_n_per_mm,bore_mm\n22,61\n26,61\n';

test.each([
  [
    'values that differ are named by their parts, as they are written',
    inScenario(
      SCENARIO,
      SCENARIO.replace('268 kg', '274 kg')
        .replace('[0 mm, 3 mm]', '[0 mm, 6 mm]')
        .replace('      - { name: tall mount, raise: 27 mm }\n', '')
        .replace('helpers: [none]', 'helpers: [none, { name: helper 50, rate: 3 N/mm }]'),
    ),
    [
      ['s.yaml', 'axles / front / wheel_load', '268 kg', '274 kg'],
      ['s.yaml', 'axles / front / mounts / flat mount / spacer', '0 mm, 3 mm', '0 mm, 6 mm'],
      ['s.yaml', 'axles / front / mounts / tall mount', 'name: tall mount, raise: 27 mm', null],
      ['s.yaml', 'axles / front / helpers / helper 50', null, 'name: helper 50, rate: 3 N/mm'],
    ],
  ],
  [
    'parts without a name are known by their places, and parts of one name are distinguished',
    inScenario(PLACES, PLACES.replace('2 mm', '5 mm').replace('4 mm', '6 mm')),
    [
      ['s.yaml', 'pairs / entry 2 / height', '2 mm', '5 mm'],
      ['s.yaml', 'pairs / a (4) / height', '4 mm', '6 mm'],
    ],
  ],
  [
    'lists inside a part that came are written in brackets, records in braces',
    inScenario(SCENARIO, SCENARIO.concat('extra: { range: { from: 1 mm, ends: [2 mm, 3 mm] }, empty: }\n')),
    [['s.yaml', 'extra', null, 'range: { from: 1 mm, ends: [2 mm, 3 mm] }, empty: null']],
  ],
  [
    'catalogue rows are known by their names, a second row of a name too',
    inCatalogue(CATALOGUE, CATALOGUE.replace('A,22', 'A,24').replace('B,28', 'B,30').concat('C,40,10\n')),
    [
      ['c.csv', 'A / rate_n_per_mm', '22', '24'],
      ['c.csv', 'B (2) / rate_n_per_mm', '28', '30'],
      ['c.csv', 'C', null, 'rate n per mm: 40, wire mm: 10'],
    ],
  ],
  [
    'rows of a catalogue without names are known by their numbers',
    inCatalogue(UNNAMED, UNNAMED.replace('26', '28')),
    [['c.csv', 'row 2 / rate_n_per_mm', '26', '28']],
  ],
  [
    'a catalogue that only one report has is one change',
    inCatalogue(CATALOGUE),
    [['c.csv', '', expect.any(String), null]],
  ],
  ['reports without any file differ in nothing', inputChanges([], []), []],
])('%s', (_, found, expected) => {
  expect(rowsOf(found)).toEqual(expected);
});

test('comments, order and spacing are another text, no other value', () => {
  const edited = SCENARIO.replace('# mine', '# yours').replace('268 kg', '268 kg ');
  expect(inScenario(SCENARIO, edited)).toEqual({ changes: [], reworded: ['s.yaml'] });
  expect(inScenario(SCENARIO, SCENARIO)).toEqual({ changes: [], reworded: [] });
});

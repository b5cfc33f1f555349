/** What fuzzing once found, each as the smallest text that showed it. */

import { expect, test } from 'vitest';
import { formatProblem, type Problem, readScenario } from '../../src/input/readScenario.ts';
import { memoryFiles } from '../../src/input/source/files.ts';
import { within } from '../setup/limit.ts';
import { SEEDS } from './corpus.ts';

const HEADER = 'name,free_length_mm,rate_n_per_mm,bore_mm\n';
const [seed] = SEEDS;
const scenario = seed?.scenario ?? '';
const catalogue = seed?.catalogue ?? '';

async function problemsIn(yaml: string, csv = catalogue): Promise<readonly Problem[]> {
  const files = [
    { path: 'scenario.yaml', text: yaml },
    { path: 'springs.csv', text: csv },
  ];
  const read = await readScenario('scenario.yaml', memoryFiles(files));
  return read.ok ? [] : read.problems;
}

const placesOf = (problems: readonly Problem[]) => problems.map(({ line, column }) => [line, column]);

/** The scenario with one piece exchanged, which must be there. */
function edited(from: string, to: string): string {
  if (!scenario.includes(from)) throw new Error(`not in the scenario: ${from}`);
  return scenario.replace(from, () => to);
}

test('lines are counted right in a broken document: a comma before the first bracket', async () => {
  const problems = await problemsIn(',{\n "springsift": 1,\n "name": "x",\n "car": {\n  "wheelbase": 1\n }\n}\n');
  const lines = [2, 17, 12, 10, 18, 2, 1, 0];
  expect(problems.length).toBeGreaterThan(0);
  for (const { line, column } of problems) expect(column).toBeLessThanOrEqual((lines[line - 1] ?? 0) + 1);
});

test('null in place of a load case says what is expected', async () => {
  const problems = await problemsIn(edited('- { name: fast bend, lateral: 0.8 }', '- null'));
  expect(problems.map(({ expected }) => expected)).toEqual(['a mapping of fields']);
});

test('a quoted line break in the header of a catalogue does not move the places of the rows below', async () => {
  for (const end of ['\n', '\r\n', '\r']) {
    const csv = `name,free_length_mm,rate_n_per_mm,"bore\r\nkg"${end}A,200,50,60${end}`;
    expect(placesOf(await problemsIn(scenario, csv))).toContainEqual([1, 35]);
    const below = `${HEADER.trim()}${end}"A\r\nB",200,50,60${end}${end},,,${end}C,x,50,60${end}`;
    expect(placesOf(await problemsIn(scenario, below))).toContainEqual([6, 3]);
  }
});

test('a key that is a list is an unknown field, and nothing else is printed about it', async () => {
  const warnings: string[] = [];
  const note = (warning: Error) => warnings.push(warning.message);
  process.on('warning', note);
  const problems = await problemsIn(`${scenario}? [a, b]\n: 1\n`);
  await new Promise((resolve) => setImmediate(resolve));
  process.off('warning', note);
  expect(problems).toHaveLength(1);
  expect(warnings).toEqual([]);
});

test('a mapping with a field `toString` in place of a word is refused like any other', async () => {
  const problems = await problemsIn(edited('seat: fixed', 'seat: { toString: 1 }'));
  expect(problems.map(formatProblem).join('\n')).toContain('`fixed` or `moving`');
});

test('a field that stands twice is reported at its second place, whatever the size of the mapping', {
  timeout: 240_000,
}, async () => {
  const twice = await problemsIn(`${scenario}name: again\n`);
  expect(twice).toMatchObject([{ line: scenario.split('\n').length, column: 1 }]);
  const many = Array.from({ length: 120_000 }, (_, k) => `  k${k}: 1`).join('\n');
  const start = process.cpuUsage();
  expect(await problemsIn(`${scenario}shared:\n${many}\n  k7: 2\n`)).toHaveLength(1);
  expect(processorSeconds(start)).toBeLessThan(within(30));
});

test.each([
  ['brackets', '['.repeat(1_900_000)],
  ['quotes', '"'.repeat(1_900_000)],
  ['fields nobody knows', `${scenario}${Array.from({ length: 100_000 }, (_, k) => `key_${k}: 1\n`).join('')}`],
  ['merges', `a: &a {x: 1}\nb: {${'<<: *a, '.repeat(200_000)}}\n`],
])('2 MB of %s are refused in seconds, with at most some thousand problems', { timeout: 600_000 }, async (_, text) => {
  const start = process.cpuUsage();
  const problems = await problemsIn(text);
  expect(problems.length).toBeGreaterThan(0);
  expect(problems.length).toBeLessThanOrEqual(10_001);
  expect(processorSeconds(start)).toBeLessThan(within(60));
});

test.each([
  ['rows of words', HEADER + 'a,b,c,d\n'.repeat(6_000_000), 'further problems'],
  ['one open quote', `${HEADER}"${'x'.repeat(49_000_000)}`, 'never closed'],
  ['springs', HEADER + springRows(1_700_000), 'more than 200000 springs'],
  ['commas', HEADER + ','.repeat(49_000_000), 'tens of thousands of characters'],
])('a catalogue of 50 MB of %s is refused in seconds', { timeout: 600_000 }, async (_, csv, found) => {
  expect(csv.length).toBeGreaterThan(40_000_000);
  const start = process.cpuUsage();
  const problems = await problemsIn(scenario, csv);
  expect(problems.map((problem) => problem.found).join('\n')).toContain(found);
  expect(processorSeconds(start)).toBeLessThan(within(60));
});

/** Against hangs, whatever else the machine does. */
function processorSeconds(start: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}

function springRows(count: number): string {
  return Array.from({ length: count }, (_, k) => `s${k},${200 + (k % 100)},${(20 + k / 1e5).toFixed(5)},60\n`).join('');
}

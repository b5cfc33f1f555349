/** Files that are broken, huge or meant to do harm: a problem each time, never a stack trace, never a long wait. */

import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { type Problem, readScenario } from '../../src/input/readScenario.ts';
import { diskFiles } from '../../src/input/source/disk.ts';
import { CATALOGUE, edited, problemsOf, readTexts, SCENARIO } from './edit.ts';

const folder = mkdtempSync(join(tmpdir(), 'input-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function problemsOfFile(name: string, content: string | Uint8Array): Promise<readonly Problem[]> {
  const path = join(folder, name);
  writeFileSync(path, content);
  const read = await readScenario(path, diskFiles);
  return read.ok ? [] : read.problems;
}

const foundIn = (problems: readonly Problem[]) => problems.map(({ found }) => found).join('\n');

test('a byte order mark and Windows line ends change nothing', async () => {
  const read = await readTexts(
    `\uFEFF${SCENARIO.replaceAll('\n', '\r\n')}`,
    `\uFEFF${CATALOGUE.replaceAll('\n', '\r\n')}`,
  );
  const plain = await readTexts(SCENARIO);
  expect(read.ok && read.scenario).toEqual(plain.ok && plain.scenario);
});

test.each<[string, string | Uint8Array, string]>([
  ['empty.yaml', '', 'an empty file'],
  ['blank.yaml', ' \n\t\n', 'an empty file'],
  ['binary.yaml', new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 0xff]), 'not UTF-8'],
  ['utf16.yaml', new Uint8Array([0xff, 0xfe, 0x61, 0, 0x3a, 0]), 'not UTF-8'],
  ['latin1.yaml', new Uint8Array([0x6e, 0x3a, 0x20, 0xe9]), 'not UTF-8'],
  ['large.yaml', `a: ${'x'.repeat(10_000_001)}`, 'a file of 10.0 MB'],
  ['remark.yaml', '# only a remark\n', 'nothing'],
])('%s is refused', async (name, content, found) => {
  expect(foundIn(await problemsOfFile(name, content))).toContain(found);
});

test('a missing file and a folder are refused with a problem', async () => {
  for (const path of [join(folder, 'nowhere.yaml'), folder, join(folder, 'a\0b')]) {
    const read = await readScenario(path, diskFiles);
    expect(read.ok).toBe(false);
    expect(read.ok || read.problems).toHaveLength(1);
  }
});

test.each(['../springs.csv', '/etc/hostname', 'sub/../../springs.csv', '..'])(
  'the catalogue %s outside the folder is refused',
  async (path) => {
    const problems = await problemsOf([['catalogue: springs.csv', `catalogue: ${path}`]]);
    expect(foundIn(problems)).toContain('outside');
  },
);

test('a catalogue that is a link out of the folder is refused, one into a folder below is read', async () => {
  const inner = join(folder, 'inner');
  mkdirSync(join(inner, 'below'), { recursive: true });
  writeFileSync(join(folder, 'outside.csv'), CATALOGUE);
  writeFileSync(join(inner, 'below', 'real.csv'), CATALOGUE);
  symlinkSync(join(folder, 'outside.csv'), join(inner, 'springs.csv'));
  const path = join(inner, 'scenario.yaml');
  writeFileSync(path, SCENARIO);
  const refused = await readScenario(path, diskFiles);
  expect(foundIn(refused.ok ? [] : refused.problems)).toContain('outside');
  writeFileSync(path, edited(SCENARIO, [['catalogue: springs.csv', 'catalogue: ./below/real.csv']]));
  const read = await readScenario(path, diskFiles);
  expect(read.ok && read.files.map((file) => file.path)).toEqual(['scenario.yaml', 'below/real.csv']);
});

test('keys that every object has are unknown fields like others', async () => {
  const problems = await problemsOf([['car:', '__proto__: { polluted: 1 }\nconstructor: 1\ntoString: 2\ncar:']]);
  expect(problems.map(({ found }) => found)).toEqual([
    'the unknown field `__proto__`',
    'the unknown field `constructor`',
    'the unknown field `toString`',
  ]);
  expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
});

test('what is quoted from a file holds no control characters', async () => {
  const problems = await problemsOf([['seat: fixed', 'seat: "\\e[2Jx\\u202e"']]);
  expect(JSON.stringify(problems)).not.toMatch(/\\u001b|\u202e/);
});

test('any text in place of any value gives a scenario or placed problems', async () => {
  const values = [...SCENARIO.matchAll(/: ([^\s{}[\],&*]+(?: [a-zA-Z/]+\d?)?)(?=[\n,}\]])/g)];
  expect(values.length).toBeGreaterThan(100);
  const lines = SCENARIO.split('\n').length;
  const yamlText = fc.oneof(
    fc.string(),
    fc.constantFrom('[]', '{}', '~', '.nan', '-.inf', '1e999 mm', '{ from: 1 mm }', '*stop', '- 1'),
  );
  await fc.assert(
    fc.asyncProperty(fc.nat(values.length - 1), yamlText, async (index, text) => {
      const match = values[index];
      const at = (match?.index ?? 0) + 2;
      const read = await readTexts(`${SCENARIO.slice(0, at)}${text}${SCENARIO.slice(at + (match?.[1]?.length ?? 0))}`);
      if (read.ok) return;
      expect(read.problems.length).toBeGreaterThan(0);
      for (const { line, column, found, expected, advice } of read.problems) {
        expect(line >= 1 && line <= lines + text.split('\n').length && column >= 1).toBe(true);
        expect(found !== '' && expected !== '' && advice !== '').toBe(true);
      }
    }),
    { numRuns: 300, seed: 20_240_511 },
  );
});

test('a scenario of 1 MB is read', async () => {
  const perch = (i: number) => `{ name: p${i}, lock_ring: 8 mm, height: ${i + 1} um, engagement: 5 mm }`;
  const many = Array.from(
    { length: 12_000 },
    (_, i) =>
      `      - ${perch(i)
        .replace(' um', ' mm')
        .replace(/height: \d+/, 'height: 12')}`,
  );
  const text = edited(SCENARIO, [['    perches: [*perch]', `    perches:\n${many.join('\n')}`]]);
  expect(text.length).toBeGreaterThan(800_000);
  const read = await readTexts(text);
  expect(read.ok && read.scenario.axles.front.options.perch.length).toBe(12_000);
});

test('thousands of mistakes are all reported', async () => {
  const many = Array.from(
    { length: 3_000 },
    (_, i) => `      - { name: p${i}, lock_ring: 8, hight: 12 mm, engagement: 5 mm }`,
  );
  const problems = await problemsOf([['    perches: [*perch]', `    perches:\n${many.join('\n')}`]]);
  // The bare number, the unknown field and the missing one.
  expect(problems).toHaveLength(9_000);
});

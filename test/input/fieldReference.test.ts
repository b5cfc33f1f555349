import { expect, test } from 'vitest';
import { fieldReference } from '../../src/input/fieldReference.ts';
import { scenarioJsonSchema } from '../../src/input/schema/jsonSchema.ts';

const reference = fieldReference();

test('every field of the JSON Schema has a row', () => {
  const names = new Set<string>();
  const visit = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties } = node as { properties?: object };
    for (const name of Object.keys(properties ?? {})) names.add(name);
    Object.entries(node).forEach(([key, child]) => {
      if (key !== '$defs') visit(child);
    });
  };
  visit(JSON.parse(scenarioJsonSchema()));
  expect(names.size).toBeGreaterThan(100);
  expect([...names].filter((name) => !reference.includes(`| \`${name}\` |`))).toEqual([]);
});

test('a row says what to write, what happens when it is left out, and what it means', () => {
  expect(reference).toContain(
    '| `coil_bind` | a length with its unit (mm, cm, m, in or ft), 0 or more | `6 mm` (common practice, no source) | least clearance to coil bind, along the damper |',
  );
});

test('a field that takes one value only names it', () => {
  expect(reference).toContain('| `springsift` | `1` |');
});

test('every line of every table has its five bars', () => {
  const rows = reference.split('\n').filter((line) => line.startsWith('|'));
  expect(rows.filter((line) => (line.match(/(?<!\\)\|/g)?.length ?? 0) !== 5)).toEqual([]);
});

test('no table says the same twice', () => {
  const tables = reference.split('#### ').map((table) => table.split('\n').filter((line) => line.startsWith('| `')));
  expect(tables.flatMap((rows) => rows.filter((line, k) => rows.indexOf(line) !== k))).toEqual([]);
});

import { expect, test } from 'vitest';
import { fieldSections, fieldsBelow } from '../../../src/input/schema/fieldReference.ts';
import { scenarioJsonSchema } from '../../../src/input/schema/jsonSchema.ts';

const sections = fieldSections();
const rowsOf = (path: string) => sections.find((section) => section.path === path)?.rows ?? [];

test('every field of the JSON Schema has a row', () => {
  const names = new Set<string>();
  const visit = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties } = node as { properties?: object };
    for (const name of Object.keys(properties ?? {})) names.add(name);
    Object.entries(node).forEach(([key, child]) => {
      // A range is a way to write a value: its ends and its step are no fields.
      if (!key.endsWith('_swept')) visit(child);
    });
  };
  visit(JSON.parse(scenarioJsonSchema()));
  const known = new Set(sections.flatMap(({ rows }) => rows.map(({ field }) => field)));
  expect(names.size).toBeGreaterThan(100);
  expect([...names].filter((name) => !known.has(name))).toEqual([]);
});

test('a row says what to write, what happens when it is left out, and what it means', () => {
  expect(rowsOf('margins')).toContainEqual({
    field: 'passing',
    kind: 'a length with its unit (mm, cm, m, in or ft), 0 or more',
    whenLeftOut: '`1 mm` (common practice, no source)',
    text: 'least difference in diameter for one part to pass through another',
  });
});

test('a field that takes one value only names it', () => {
  expect(rowsOf('')).toContainEqual(expect.objectContaining({ field: 'springsift', kind: '`1`' }));
});

test('no section says the same twice', () => {
  const twice = sections.flatMap(({ rows }) => {
    const lines = rows.map((row) => JSON.stringify(row));
    return lines.filter((line, k) => lines.indexOf(line) !== k);
  });
  expect(twice).toEqual([]);
});

test('a path is found with its brackets or without, on either axle, and holds what lies below it', () => {
  const paths = (path: string) => fieldsBelow(path).map((section) => section.path);
  expect(paths('axles.rear.motion')).toEqual(['axles.front.motion', 'axles.front.motion.pairs[]']);
  expect(paths('axles.front.motion.pairs')).toEqual(paths('axles.front.motion.pairs[]'));
  expect(paths('axle')).toEqual([]);
  expect(paths('')).toEqual(sections.map((section) => section.path));
});

test('the path of a single field finds its row', () => {
  const [only] = fieldsBelow('axles.rear.sleeves.trim');
  expect(only?.path).toBe('axles.front.sleeves[]');
  expect(only?.rows.map((row) => row.field)).toEqual(['trim']);
});

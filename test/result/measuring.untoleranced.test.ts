import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { numberFields } from '../../src/measure/measurable.ts';
import { NOT_MEASURED, ROWS, untoleranced } from '../../src/result/measuring.ts';
import { TOLERANCE_INPUTS } from '../../src/result/tolerance/inputs.ts';
import { PITCH_INERTIA } from '../../src/result/tolerance/settling.ts';

test('what has no tolerance is named part by part', () => {
  const text = untoleranced();
  expect(text).toMatch(/^car: tyre rate; |car: tyre rate/);
  for (const named of [
    'rod end: thread start',
    'perch: inset, engagement',
    'isolator: spigot',
    'damper: force velocity',
  ])
    expect(text).toContain(named);
  for (const moved of ['unsprung', 'tyre on arch', 'closed', 'bore', 'wheel load', 'price'])
    expect(text).not.toContain(moved);
});

test('every number of the format that the study does not move is in it, and no other', () => {
  const ids = new Set([...TOLERANCE_INPUTS, PITCH_INERTIA].map(({ id }) => id));
  const rows = Object.values(ROWS).flat();
  const text = untoleranced();
  for (const { paths, inputs = [], within = [], isExact } of rows) {
    for (const id of [...inputs, ...within]) expect(ids, id).toContain(id);
    for (const path of paths) {
      const name = path.replaceAll('[]', '').replaceAll('_', ' ').split('.').slice(-1)[0] as string;
      if (isExact || inputs.length + within.length === 0) expect(text, path).toContain(name);
    }
  }
  // The rows and the list of what is not measured hold all fields; the words are made of their paths.
  const known = new Set(rows.flatMap(({ paths }) => paths));
  const left = numberFields().filter(({ path }) => {
    return !known.has(path) && !path.endsWith('.price') && !NOT_MEASURED.some(({ start }) => path.startsWith(start));
  });
  expect(left.map(({ path }) => path)).toEqual([]);
});

test('the manual says the same', () => {
  const manual = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  expect(manual).toContain(`Without a tolerance, and taken as exact: ${untoleranced()}.`);
});

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../setup/source-tree.ts';
import { type FileCounts, figuresOf, LIMITS, partOf, patternOf, tableOf } from './parts.ts';

const counts = (lines: number, branches: number): FileCounts => ({
  lines: { total: 1000, covered: lines },
  branches: { total: 1000, covered: branches },
});

test('every part of src has limits', () => {
  const names = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' }).filter((n) => n.endsWith('.ts'));
  expect([...new Set(names.map((name) => partOf(`src/${name}`)))].sort()).toEqual(Object.keys(LIMITS).sort());
});

test('the pipeline’s own file and its folder are one part', () => {
  const files = { 'src/pipeline.ts': counts(800, 1000), 'src/pipeline/build.ts': counts(1000, 1000) };
  const figures = figuresOf(new Map(Object.entries(files)));
  expect(figures.find(({ part }) => part === 'pipeline')).toMatchObject({ files: 2, lines: 90, branches: 100 });
  expect(patternOf('pipeline')).toBe('src/pipeline{.ts,/**}');
});

test('a part is marked when its lines or its branches fall short, and what falls short by a hair is not rounded up', () => {
  const table = tableOf([
    { part: 'model', files: 2, lines: 100, branches: 99.996 },
    { part: 'sweep', files: 1, lines: 100, branches: 100 },
    { part: 'input', files: 1, lines: 89.99, branches: 95 },
    { part: 'report', files: 1, lines: 90, branches: 90 },
  ]);
  const rows = table.split('\n').slice(1);
  expect(rows.map((row) => [row.slice(0, 10).trim(), row.endsWith(' !')])).toEqual([
    ['model', true],
    ['sweep', false],
    ['input', true],
    ['report', false],
  ]);
  expect(rows[0]).toContain(' 99.99 ');
});

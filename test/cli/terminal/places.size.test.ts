import { expect, test } from 'vitest';
import { KnownError } from '../../../src/cli/terminal/exit.ts';
import { guardSize, HUGE_BYTES, LARGE_BYTES } from '../../../src/cli/terminal/places.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { combination, result, setup } from '../../report/fixture.ts';

function told(files: Record<string, string>, force = false): string[] {
  const warnings: string[] = [];
  guardSize(files, force, (text) => warnings.push(text));
  return warnings;
}

test('a page is told of above 2 MB and refused above 8 MB, bytes counted, unless forced', () => {
  expect(told({ 'report.html': 'x'.repeat(LARGE_BYTES) })).toEqual([]);
  expect(told({ 'report.html': 'é'.repeat(LARGE_BYTES / 2 + 1) })[0]).toContain('2.0 MB');
  const huge = { 'report.html': 'x'.repeat(HUGE_BYTES + 1) };
  expect(() => told(huge)).toThrow(KnownError);
  expect(() => told(huge)).toThrow(/Nothing was written.*--force/);
  expect(told(huge, true)).toHaveLength(1);
});

test('tables and records may be as large as they are', () => {
  expect(told({ 'results.json': 'x'.repeat(HUGE_BYTES + 1), 'shortlist.csv': 'x'.repeat(HUGE_BYTES + 1) })).toEqual([]);
});

test('a result with very many names makes a page that is told of', { timeout: 240_000 }, async () => {
  const notes = Array.from({ length: 30_000 }, (_, k) => `what the reader must know about the whole, number ${k}`);
  const shortlist = [combination('low', 1)];
  const html = await reportHtml(result({ notes, setups: [setup('low', { shortlist })] }));
  expect(told({ 'report.html': html })).toHaveLength(1);
});

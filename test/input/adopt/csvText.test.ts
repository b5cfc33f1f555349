import { expect, test } from 'vitest';
import { cellEdit, cellText, csvRows } from '../../../src/input/adopt/csvText.ts';
import { edited } from '../../../src/input/adopt/textEdits.ts';

const TEXT = '\uFEFFname,free_length_mm,note\r\n\r\n"a, b",180,"two\r\nlines"\r\n c ,200,\r\nlast,220,x';

test('rows and cells are found through quotes, empty lines and both line ends', () => {
  const rows = csvRows(TEXT);
  expect(rows.map((row) => row.line)).toEqual([1, 3, 5, 6]);
  expect(rows.map((row) => row.cells.map((_, k) => cellText(TEXT, row, k)))).toEqual([
    ['name', 'free_length_mm', 'note'],
    ['a, b', '180', 'two\r\nlines'],
    ['c', '200', ''],
    ['last', '220', 'x'],
  ]);
});

test('one cell is changed and every other byte stays', () => {
  const rows = csvRows(TEXT);
  const at = (k: number, cell: number, text: string) => cellEdit(rows[k] as (typeof rows)[number], cell, text);
  expect(edited(TEXT, [at(1, 1, '179.6'), at(3, 1, '221')])).toBe(
    TEXT.replace(',180,', ',179.6,').replace(',220,', ',221,'),
  );
});

test('two edits of one place that differ are refused, the same one twice is done once', () => {
  const edit = { start: 1, end: 2, text: 'x' };
  expect(edited('abc', [edit, edit])).toBe('axc');
  expect(edited('abc', [edit, { ...edit, text: 'y' }])).toBeNull();
  expect(edited('abc', [edit, { start: 0, end: 3, text: '' }])).toBeNull();
  expect(edited('abc', [])).toBe('abc');
});

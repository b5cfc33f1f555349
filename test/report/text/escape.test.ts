import { expect, test } from 'vitest';
import {
  anchorOf,
  formulaSafe,
  jsonInScript,
  mapStrings,
  visible,
  visibleInPage,
} from '../../../src/report/text/escape.ts';

test('a terminal sees control characters, direction marks and invisible joins as escapes', () => {
  expect(visible('a\u001B[2Jb\r\n\tc\u007f\u009b')).toBe('a\\u{1b}[2Jb\\u{d}\\u{a}\\u{9}c\\u{7f}\\u{9b}');
  expect(visible('\u202Egnp\u2066\u200f\u061c')).toBe('\\u{202e}gnp\\u{2066}\\u{200f}\\u{61c}');
  expect(visible('\u2028\u2029\u200b\ufeff\ud800')).toBe('\\u{2028}\\u{2029}\\u{200b}\\u{feff}\\u{d800}');
});

test('names in any script, signs and emoji stay as they are', () => {
  for (const name of ['Fahrwerk Größe 60 ½', 'пружина', 'バネ', '🔧', 'coil 60×200 ¼"'])
    expect(visible(name)).toBe(name);
});

test('a page keeps plain white space', () => {
  expect(visibleInPage('two\nlines\t\u202E')).toBe('two\nlines\t\\u{202e}');
});

test('strings are changed at any depth, numbers, nulls and keys are not', () => {
  const data = { a: ['x', { x: 'x', n: 1, none: null, yes: true }] };
  expect(mapStrings(data, (s) => s.toUpperCase())).toEqual({ a: ['X', { x: 'X', n: 1, none: null, yes: true }] });
});

test('JSON for a script element cannot end it and still means the same', () => {
  const data = { name: '</script><!-- \u2028 \u2029' };
  const text = jsonInScript(data);
  expect(text).not.toMatch(/[<\u2028\u2029]/);
  expect(JSON.parse(text)).toEqual(data);
});

test('a text cell that starts like a formula gets an apostrophe, any other none', () => {
  for (const start of ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠']) {
    expect(formulaSafe(`${start}1`)).toBe(`'${start}1`);
  }
  for (const text of ['60 mm', 'a=b', "'quoted", '']) expect(formulaSafe(text)).toBe(text);
});

test('what would begin a cell where the file is read with semicolons or tabs gets an apostrophe too', () => {
  expect(formulaSafe('a;=1+1')).toBe("a;'=1+1");
  expect(formulaSafe('a\t@b;-c')).toBe("a\t'@b;'-c");
  expect(formulaSafe('a\r\n=b')).toBe("a\r\n'=b");
  // Spreadsheets take blanks and empty quotes away before they look.
  expect(formulaSafe('a; "=1')).toBe('a;\' "=1');
  expect(formulaSafe(' =1')).toBe("' =1");
  for (const text of ['a;b', 'a; 5 - 3', "a;'=1", '\u00b5;a=b']) expect(formulaSafe(text)).toBe(text);
});

test('an element id holds letters, digits, dash and underscore only', () => {
  expect(anchorOf('low-F4 "x">é_9')).toBe('low-F4--x---_9');
});

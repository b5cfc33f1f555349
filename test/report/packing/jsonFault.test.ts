import fc from 'fast-check';
import { expect, test } from 'vitest';
import { jsonFaultAt } from '../../../src/report/packing/jsonFault.ts';

const isJson = (text: string) => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

test('the place where JSON ends being JSON', () => {
  const cases: readonly (readonly [string, number | null])[] = [
    ['{"a": [1, 2.5e3, null], "b": {}}', null],
    [' "\\u00e9\\n" ', null],
    ['[]', null],
    ['', 0],
    ['[1, 2', 5],
    ['[1, x]', 4],
    ['[1,]', 3],
    ['{"a":1,}', 7],
    ['{"a" 1}', 5],
    ['{a:1}', 1],
    ['[1] 2', 4],
    ['["a\nb"]', 1],
    ['["\\q"]', 1],
    ['[01]', 2],
    ['[1}', 2],
    ['{]', 1],
  ];
  for (const [text, at] of cases) expect(jsonFaultAt(text), text).toBe(at);
});

test('a text has a faulty place exactly where it can’t be read, whatever sign was lost or put in', () => {
  const sign = fc.constantFrom('', '"', '{', '}', '[', ']', ',', ':', '0', 'e', '\\', 'x', '\n', '-', '\u007f');
  fc.assert(
    fc.property(fc.json(), fc.nat(), sign, (json, place, put) => {
      const at = place % (json.length + 1);
      const text = json.slice(0, at) + put + json.slice(at + 1);
      expect(jsonFaultAt(text) === null).toBe(isJson(text));
    }),
    { numRuns: 5000 },
  );
});

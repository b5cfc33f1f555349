import { expect, test } from 'vitest';
import * as say from '../../../src/cli/terminal/reopenMessages.ts';
import type { EmbedFault } from '../../../src/report/embed.ts';

const place = { line: 3, column: 7 };

test('whatever is wrong with a report is told with its place, what was expected and what to do', () => {
  const faults: readonly EmbedFault[] = [
    { kind: 'cut off', place },
    { kind: 'no JSON', place },
    { kind: 'damaged', place, where: 'setups.0', what: 'no \u001b[31mname' },
    { kind: 'newer', place, what: 'result', version: 9, known: 2 },
    { kind: 'input changed', place, path: 'springs.csv' },
    { kind: 'result changed', place },
  ];
  const said = faults.map((fault) => say.noResult('report.html', fault, '0.1.0'));
  for (const text of said) {
    expect(text).toMatch(/^report\.html:3:7: found [^\n]+\n {2}expected: [^\n]+\n {2}advice: [^\n]+$/);
    expect(text).not.toContain('\u001b');
  }
  expect(new Set(said).size).toBe(faults.length);
  expect(said[3]).toContain('version 9 of the result\n  expected: version 2\n');
  expect(said[3]).toContain('this is 0.1.0');
  expect(say.noResult('page.html', { kind: 'no result' }, '0.1.0')).toContain('page.html:1:1: found a page without');
});

test('differences are counted, the first shown short, the rest counted', () => {
  const one = { path: 'score', before: '1', after: null };
  expect(say.differsAgain([one])).toBe('Different: 1 value.\n  score: 1 in the report, nothing now');
  const long = { ...one, before: `"${'x'.repeat(200)}"` };
  const many = say.differsAgain(Array.from({ length: 25 }, () => long));
  expect(many).toMatch(/^Different: 25 values\./);
  expect(many).toMatch(/\n {2}and 5 more$/);
  expect(Math.max(...many.split('\n').map((line) => line.length))).toBeLessThan(130);
});

test('inputs that no longer read are counted in words that fit', () => {
  expect(say.inputsNoLongerRead(1)).toMatch(/^1 problem in/);
  expect(say.inputsNoLongerRead(3)).toMatch(/^3 problems in/);
});

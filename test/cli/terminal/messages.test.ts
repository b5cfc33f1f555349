/** What the command line says, and that each thing it says names what to do. */

import { expect, test } from 'vitest';
import * as say from '../../../src/cli/terminal/messages.ts';

test('large counts are grouped in threes, the largest rounded, and the limit to ask for lies above', () => {
  expect(say.whole(1234567)).toBe('1,234,567');
  const families = [{ axle: 'front', family: 'bumpStop', count: 4000 }] as const;
  const all = say.tooMuch('demo', { kind: 'combinations', count: 2.34e13, most: 1e12, families });
  expect(all).toContain('demo holds 23,400,000,000,000 combinations over both axles and all setups');
  expect(all).toContain('front bump_stops: 4,000');
  expect(all).toContain('--limit 1e14');
  const product = say.tooMuch('demo', { kind: 'product', count: 3.21e17, most: 1e7, families });
  expect(product).toContain('holds about 3.2e17 combinations of parts that are held at once; at most 10,000,000');
  expect(product).not.toContain('--limit');
});

test('progress tells share, rate, time left and the best so far; the time left is unknown before anything is done', () => {
  const progress = { judged: 2.5e8, of: 1e9, workable: 1234, best: 0.71234 };
  expect(say.progress('demo', progress, 10)).toBe(
    'demo: 25 % of 1,000,000,000, 25.0 million/s, 30 s left, 1,234 work so far, best corner 0.712',
  );
  expect(say.progress('demo', { ...progress, judged: 2.5e7 }, 10)).toContain('7 min left');
  expect(say.progress('demo', { judged: 0, of: 1e9, workable: 0, best: null }, 0)).toBe(
    'demo: 0 % of 1,000,000,000, 0.0 million/s, unknown time left, none works so far',
  );
  expect(say.progress('demo', { judged: 0, of: 0, workable: 0, best: null }, 1)).toContain('100 % of 0');
  expect(say.step('demo', { what: 'cures', done: 5, of: 20 }, 10)).toBe('demo: swept; cures: 5 of 20, 30 s left');
  expect(say.step('demo', { what: 'cures', done: 0, of: 20 }, 10)).toContain('unknown time');
});

test('one setup and several, one build and a sweep are told apart', () => {
  expect(say.checked('demo', 1, 1, ['low'], true)).toBe('demo: no problem. One given build, 1 setup (low).');
  const sweep = say.checked('demo', 2000, 30, ['low', 'street'], false);
  expect(sweep).toContain('2 setups (low, street): 4,060 corners to judge, up to 60,000 pairs a setup');
});

test('what stopped says whether anything could have been kept', () => {
  expect(say.stopped(10, 1000, true)).toContain('--keep-partial would have written');
  expect(say.stopped(10, 1000, false)).not.toContain('--keep-partial');
});

test('an id that does not fit says why', () => {
  const said = (['form', 'check', 'setup', 'index'] as const).map((reason) => say.notAnId('low-1', reason));
  expect(said[0]).toContain('is not an id');
  expect(said[1]).toContain('mistyped');
  expect(said[2]).toContain('a setup that this scenario does not have');
  expect(said[3]).toBe(said[1]);
});

test('parts that do not join say which, and what to do', () => {
  expect(say.doesNotJoin({ kind: 'other scenario', part: 2 })).toMatch(/Part 2 belongs to another.*Sweep it again/);
  expect(say.doesNotJoin({ kind: 'other count', part: 3 })).toMatch(/Part 3 was cut.*same cut/);
  expect(say.doesNotJoin({ kind: 'twice', part: 4 })).toBe('Part 4 is given twice.');
  expect(say.doesNotJoin({ kind: 'missing', parts: [1, 5] })).toBe('Missing: part 1, part 5. Give all parts.');
});

test('measurements that are not adopted say why, by unit where there is one', () => {
  const units = [
    { axle: 'front', side: 'left' },
    { axle: 'rear', side: null },
  ] as const;
  expect(say.notAdopted({ kind: 'unsettled', units })).toContain('disagrees at: front left, rear.');
  expect(say.notAdopted({ kind: 'shared', axle: 'rear' })).toContain('The rear axle could not');
  expect(say.notAdopted({ kind: 'problems', lines: ['a', 'b'] })).toMatch(/would have problems:\na\nb$/);
});

test('what is left to enter into a catalogue names file, row, column, old and new value', () => {
  expect(say.adopted('a.yaml', 'low-F1-R1-00', [])).toBe(
    'The measured values stand in a.yaml; the build is low-F1-R1-00 there.',
  );
  const cell = { file: 'springs.csv', row: 23, spring: 'A', column: 'rate_n_per_mm', isNewColumn: false };
  const cells = [
    { ...cell, before: '50', after: '51.5' },
    { ...cell, before: '', after: '51.5' },
    { ...cell, column: 'solid_height_mm', isNewColumn: true, before: '', after: '63' },
  ];
  expect(say.adopted('a.yaml', 'low-F1-R1-00', cells).split('\n')).toEqual([
    'Left to enter in the catalogue, or in a copy of it that a.yaml then names:',
    '  springs.csv, row 23 (A), column rate_n_per_mm: 51.5 in place of 50.',
    '  springs.csv, row 23 (A), column rate_n_per_mm: 51.5 where nothing stands.',
    '  springs.csv, row 23 (A): a new column solid_height_mm, and 63 in it.',
    'The other measured values stand in a.yaml; once the catalogue holds these values, the build is low-F1-R1-00 there.',
  ]);
  expect(say.adopted('a.yaml', 'low-F1-R1-00', cells.slice(1, 2))).toContain('holds this value,');
});

test('one problem and many are counted in words that fit', () => {
  expect([say.problemCount(1), say.problemCount(2)]).toEqual([
    '1 problem. Nothing was swept.',
    '2 problems. Nothing was swept.',
  ]);
  expect([say.auditProblems(1), say.auditProblems(2)]).toEqual([
    '1 problem. Nothing was audited.',
    '2 problems. Nothing was audited.',
  ]);
});

test('an error of the disk is told in words, an unknown one by its code', () => {
  expect(say.cannotWrite('out', 'ENOSPC')).toContain('the disk is full');
  expect(say.cannotWrite('out', 'EWHAT')).toContain('Cannot write to out: EWHAT.');
  expect(say.cannotPrint('EIO')).toBe('Cannot print: the disk does not work properly.');
  expect(say.cannotPrint('EWHAT')).toBe('Cannot print: EWHAT.');
});

import { expect, test } from 'vitest';
import { paperNotes } from '../../../src/report/sections/answer.ts';
import type { Flag } from '../../../src/result/result.ts';
import { combination, setup } from '../fixture.ts';

const note = (message: string): Flag => ({ kind: 'note', message });

function withFlags(name: string, flags: readonly Flag[]) {
  const best = combination(name, 1);
  const bare = (axle: 'front' | 'rear') => ({ ...best.axles[axle], flags: [] });
  const flagged = { ...best, axles: { front: bare('front'), rear: bare('rear') }, flags };
  return { setup: setup(name), combination: flagged, plan: null, builds: null };
}

test('a note of all setups stands once, one of some names them', () => {
  const answers = [
    withFlags('low', [note('both'), note('low only')]),
    withFlags('street', [note('street only'), note('both')]),
  ];
  expect(paperNotes(answers)).toEqual([
    { text: 'both', setups: '' },
    { text: 'low only', setups: 'low' },
    { text: 'street only', setups: 'street' },
  ]);
});

test('warnings, estimates and the ranges of formulas are said elsewhere', () => {
  const flags: Flag[] = [
    { kind: 'warning', message: 'w' },
    { kind: 'estimate', message: 'e' },
    { kind: 'note', message: 'r', topic: 'range' },
  ];
  expect(paperNotes([withFlags('low', flags)])).toEqual([]);
});

test('what is true of both axles stands once for both, at the place of the front’s', () => {
  const flags: Flag[] = [
    { kind: 'note', message: 'Front: no force curve.' },
    { kind: 'note', message: 'Front: loose by 0.5 mm.' },
    { kind: 'note', message: 'Rear: no force curve.' },
    { kind: 'note', message: 'Rear: loose by 0.6 mm.' },
  ];
  expect(paperNotes([withFlags('low', flags)]).map(({ text }) => text)).toEqual([
    'Front and rear: no force curve.',
    'Front: loose by 0.5 mm.',
    'Rear: loose by 0.6 mm.',
  ]);
});

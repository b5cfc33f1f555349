import { expect, test } from 'vitest';
import type { Flag } from '../../../src/domain/result.ts';
import { paperNotes, screenOnly } from '../../../src/report/sections/paper.ts';
import { combination, setup } from '../fixture.ts';

const note = (message: string): Flag => ({ kind: 'note', message });

function withFlags(name: string, flags: readonly Flag[]) {
  const best = combination(name, 1);
  const bare = (axle: 'front' | 'rear') => ({ ...best.axles[axle], flags: [] });
  return setup(name, { shortlist: [{ ...best, axles: { front: bare('front'), rear: bare('rear') }, flags }] });
}

test('a note of all setups stands once, one of some names them', () => {
  const setups = [
    withFlags('low', [note('both'), note('low only')]),
    withFlags('street', [note('street only'), note('both')]),
  ];
  expect(paperNotes(setups)).toEqual([
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

test('what is not on the page is not named as left to the screen', () => {
  expect(
    screenOnly([
      ['maps', true],
      ['cures', false],
      ['other weights', true],
    ]),
  ).toBe('maps, other weights');
});

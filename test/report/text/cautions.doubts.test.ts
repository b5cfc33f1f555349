import { expect, test } from 'vitest';
import { doubtsOf } from '../../../src/report/text/cautions.ts';
import { build, combination } from '../fixture.ts';

const best = combination('low', 1);

/** The same combination with nothing to know about. */
const sure = {
  ...best,
  flags: [],
  axles: {
    front: {
      ...best.axles.front,
      tight: [],
      flags: [],
      words: { ...best.axles.front.words, solid_height_source: 'given' },
    },
    rear: {
      ...best.axles.rear,
      tight: [],
      flags: [],
      words: { ...best.axles.rear.words, solid_height_source: 'given' },
    },
  },
};

test('where there is nothing to know, nothing is said', () => {
  expect(doubtsOf(sure)).toEqual([]);
});

test('tight clearances come with their worst case in both worlds, estimates with their axle', () => {
  const tight = [{ contact: 'coil bind', clearance_mm: 6, worst_mm: -2.54, measure: 'the spring' }];
  const words = { ...sure.axles.rear.words, solid_height_source: 'estimated' };
  const axles = { front: { ...sure.axles.front, tight }, rear: { ...sure.axles.rear, words } };
  expect(doubtsOf({ ...sure, axles })).toEqual([
    'tight front: coil bind, at worst \u22122.5 mm (\u22120.10 in)',
    'estimate rear: solid height',
  ]);
});

test('each different warning counts once, notes do not', () => {
  const warning = { kind: 'warning', message: 'outside its range' } as const;
  const flags = [warning, warning, { kind: 'note', message: 'a note' } as const];
  expect(doubtsOf({ ...sure, flags })).toEqual(['1 warning in its report']);
});

test('what does not work says so first', () => {
  const given = build().setups[0]?.shortlist[0];
  expect(given && doubtsOf(given)[0]).toBe('does not work: 2 checks fail');
});

import { expect, test } from 'vitest';
import { sweepSummary } from '../../../src/report/files/summary.ts';
import { isUnbalanced } from '../../../src/report/text/answers.ts';
import { result } from '../fixture.ts';
import { oneSet, planned, plans } from '../planFixture.ts';

const flat = (text: string) => text.replace(/\s+/g, ' ');

test('the plan stands first; each setup shows its part of it, with what it would choose alone behind', () => {
  const text = flat(sweepSummary(planned()));
  expect(text).toMatch(
    /^Hill hatch plan for low, street bought plan-0000001, score 0\.400 of 1 \(low 0\.500, street 0\.320\); 800\.00 EUR/,
  );
  expect(text).toContain('plan low-F4F1-R2K1-7Q, score 0.782 of 1 front coil 60 x 190 x 50');
  expect(text).toContain('alone if the car had only low: low-F4F1-R2K1-7Q, score 0.782 of 1: coil 60 x 190 x 50 /');
  expect(text).toContain('lifts the score from 0.400 to 0.600 (+0.200), for 300.50 EUR more');
});

test('where no plan works that is said first, with what a set for each setup would give', () => {
  const { comparison } = plans();
  const text = flat(sweepSummary(planned({ plans: [], comparison: { ...comparison, one_set: null } })));
  expect(text).toMatch(
    /^Hill hatch plan for low, street NOTHING works in every setup: 1,204 front and 77 rear combinations do/,
  );
  expect(text).toContain('best low-F4F1-R2K1-7Q');
  expect(text).not.toContain('alone');
  expect(text).toContain('no single set works in every setup; with a set for each the plan scores 0.600 of 1');
});

test('no line is longer than 100 columns, and without plans there is no block', () => {
  expect(
    sweepSummary(planned())
      .split('\n')
      .filter((line) => line.length > 100),
  ).toEqual([]);
  expect(sweepSummary(result())).not.toContain('plan for');
});

const summaryOf = (change: Parameters<typeof planned>[0]) => flat(sweepSummary(planned(change)));

test('where not even swapped parts make a plan that is said', () => {
  expect(summaryOf({ plans: [], swapped: ['spring'] })).toContain(
    'NOTHING works in every setup, even with swapped parts: each needs a build of its own.',
  );
});

test('a plan without prices says nothing about money', () => {
  const free = { ...oneSet, price: null, springs_price: null };
  const { comparison } = plans();
  const text = summaryOf({ plans: [free], comparison: { ...comparison, one_set: free } });
  expect(text).toContain('(low 0.500, street 0.320) springs low coil');
  expect(text).not.toContain('EUR more');
});

test('a set for each setup that is not there, or that is the same set, gains nothing', () => {
  const { comparison } = plans();
  expect(summaryOf({ comparison: { ...comparison, own_sets: null } })).toContain(
    'a set for each setup was not found to work either',
  );
  expect(summaryOf({ comparison: { ...comparison, own_sets: oneSet } })).toContain(
    'a set for each setup would gain nothing',
  );
});

test('balance is blamed only where both axles have combinations that work in every setup', () => {
  expect(isUnbalanced({ front: 3, rear: 14 })).toBe(true);
  expect(isUnbalanced({ front: 0, rear: 14 })).toBe(false);
  expect(isUnbalanced({ front: 3, rear: 0 })).toBe(false);
});

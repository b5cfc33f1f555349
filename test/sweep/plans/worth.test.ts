import { expect, test } from 'vitest';
import type { Ranking, Setup } from '../../../src/domain/scenario.ts';
import { planSetupOf } from '../../../src/sweep/plans/worth.ts';

const setup = { axles: { front: { wantedFrequency: 1.8 } } } as unknown as Setup;
const weights = { bump_travel: 1, height_coverage: 2, balance: 3, front_frequency: 4, price: 5, clearance: 6 };
const ranking = { weights, price: { good: 1, worst: 2 }, goodClearance: 12, keep: 1 } as Ranking;

test('a setup weighs what its criteria weigh, those left out that it has no use for', () => {
  expect(planSetupOf(setup, ranking).weight).toBe(21);
  expect(planSetupOf(setup, { ...ranking, price: null }).weight).toBe(16);
  expect(planSetupOf(setup, { ...ranking, goodClearance: null }).weight).toBe(15);
  const unwanted = { axles: { front: { wantedFrequency: null } } } as unknown as Setup;
  expect(planSetupOf(unwanted, ranking).weight).toBe(17);
});

test('without any weight every score is 1, whatever it is divided by', () => {
  const none = { bump_travel: 0, height_coverage: 0, balance: 0, front_frequency: 0, price: 0, clearance: 0 };
  expect(planSetupOf(setup, { ...ranking, weights: none }).weight).toBe(1);
});

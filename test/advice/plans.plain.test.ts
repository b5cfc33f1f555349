/** Plans on one plain corner: what the record says where something is missing. */

import { expect, test } from 'vitest';
import { type PlanFindings, plansResultOf as plansSteps } from '../../src/advice/plans.ts';
import type { Scenario, Setup } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { type JudgedPair, workingOf } from '../../src/result/records/combination.ts';
import { noTolerances as none, plainCorner, plainSite, plainTarget } from '../setup/corners.ts';

const weights = { bump_travel: 1, height_coverage: 0, balance: 0, front_frequency: 0, price: 0, clearance: 0 };
const options = Object.fromEntries(Object.entries(plainCorner()).map(([family, part]) => [family, [part]]));
const scenario = {
  car: { wheelbase: 2460, pitchInertiaRatio: 0.92, sprungCentreHeight: 545 },
  axles: { front: { roll: null, options }, rear: { roll: null, options } },
  ranking: { weights, price: null, goodClearance: null, keep: 1 },
  tolerances: none,
} as unknown as Scenario;
const setups = ['low', 'street'].map((name) => ({
  ...{ name, loadStates: [], loadCases: [], balance: { target: 1, from: 0.5, to: 2 } },
  axles: { front: plainTarget, rear: plainTarget },
  frequencyBasis: 'body',
})) as unknown as readonly Setup[];

const priced = (price: number | null) => {
  const corner = plainCorner();
  const parts = Object.entries(corner).map(([family, part]) => [family, part && { ...part, price }]);
  return Object.fromEntries(parts) as typeof corner;
};

/** As after a sweep, a pair is judged once. */
function judging(price: number | null) {
  const corner = priced(price);
  const known = new Map<string, JudgedPair>();
  return (setup: Setup, indices: { front: number; rear: number }): JudgedPair => {
    const workings = { front: workingOf(plainSite(), corner), rear: workingOf(plainSite({ axle: 'rear' }), corner) };
    const key = `${setup.name} ${indices.front} ${indices.rear}`;
    const pair = known.get(key) ?? { scenario, setup, indices, workings };
    known.set(key, pair);
    return pair;
  };
}

const plansResultOf = (...given: Parameters<typeof plansSteps>) => finish(plansSteps(...given));

const wish = { setups: ['low', 'street'], swapped: ['spring' as const], keep: 1 };
const nothing = {
  wish,
  setups,
  workable: { front: 0, rear: 0 },
  plans: [],
  oneSet: null,
  ownSets: null,
  alone: [null, null],
};

test('where no plan works the record has none, no sheets, and nothing to compare', () => {
  const found = plansResultOf(nothing as unknown as PlanFindings, judging(10), [], '1a2b3c4d');
  expect(found.plans).toEqual([]);
  expect(found.sheets).toBeUndefined();
  expect(found.comparison).toEqual({ one_set: null, own_sets: null, alone: [null, null] });
  expect(found.combinations).toEqual([]);
});

const choice = [
  { front: 0, rear: 0 },
  { front: 0, rear: 0 },
];

test('a plan has a price only where every part has one: two of each a car, shared parts bought once', () => {
  const findings = { ...nothing, plans: [choice], oneSet: choice, alone: [choice[0], null] };
  const priceOf = (price: number | null) =>
    plansResultOf(findings as unknown as PlanFindings, judging(price), [], '1a2b3c4d').plans[0];
  // Seven parts a corner, two corners an axle, two axles.
  expect(priceOf(10)).toMatchObject({ price: 280, springs_price: 40 });
  expect(priceOf(null)).toMatchObject({ price: null, springs_price: null });
});

test('the id of a plan is seven signs long, the same for the same plan, another for another', () => {
  const judge = judging(10);
  const idOf = (fingerprint: string) =>
    plansResultOf({ ...nothing, plans: [choice] } as unknown as PlanFindings, judge, [], fingerprint).plans[0]?.id;
  const ids = Array.from({ length: 40 }, (_, k) => idOf(`1a2b3c${String(k).padStart(2, '0')}`));
  for (const id of ids) expect(id).toMatch(/^plan-[0-9A-Z]{7}$/);
  expect(new Set(ids).size).toBe(40);
  expect(idOf('1a2b3c07')).toBe(ids[7]);
});

test('the sheets of a plan end in the frequency that its setups are judged by', () => {
  const last = (frequencyBasis: 'body' | 'ride') => {
    const judged = setups.map((setup) => ({ ...setup, frequencyBasis }));
    const findings = { ...nothing, setups: judged, plans: [choice] } as unknown as PlanFindings;
    return plansResultOf(findings, judging(10), [], '1a2b3c4d').sheets?.[0]?.working.axles.front.at(-1)?.symbol;
  };
  const working = plansResultOf({ ...nothing, plans: [choice] } as unknown as PlanFindings, judging(10), [], '1a2b3c4d')
    .sheets?.[0]?.working;
  // Of front and rear together the frequencies alone.
  expect(working?.pair.map(({ symbol }) => symbol)).toEqual(['ratio']);
  expect(last('body')).toBe('f_body');
  expect(last('ride')).toBe('f_ride');
});

test('a setup’s own best, in full already, is not repeated; any other combination of the best plan stands in full', () => {
  const findings = { ...nothing, plans: [choice] } as unknown as PlanFindings;
  const [low, street] = plansResultOf(findings, judging(10), [], '1a2b3c4d').combinations;
  if (low === undefined || street === undefined) throw new Error('Nothing is known, so both are brought.');
  expect(low.combination.axles.front.force_curve?.height_mm.length).toBeGreaterThan(1);
  const known = (rank: number) => [{ ...low.combination, rank }];
  const brought = (rank: number) => plansResultOf(findings, judging(10), known(rank), '1a2b3c4d').combinations;
  expect(brought(1).map(({ setup }) => setup)).toEqual(['street']);
  expect(brought(2).map(({ setup }) => setup)).toEqual(['low', 'street']);
});

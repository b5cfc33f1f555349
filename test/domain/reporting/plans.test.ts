/** The plans of the hill-hatch scenario end to end: records, prices and ids, against the parts themselves. */
import { expect, test } from 'vitest';
import { fingerprintOf, parsePairId } from '../../../src/domain/ids.ts';
import type { PlanRecord, Result } from '../../../src/domain/result.ts';
import { AXLE_NAMES, FAMILIES, type Family, type Scenario } from '../../../src/domain/scenario.ts';
import { sift } from '../../../src/pipeline.ts';
import { combinationOf } from '../../../src/report/planParts.ts';
import { cornerAt } from '../../../src/sweep/options.ts';
import { scenarioOf } from '../advice/scenarios.ts';

const scenario = await scenarioOf('hill-hatch');
const result = await sift({ scenario, files: [] }, 'test');
const single = await sift({ scenario: { ...scenario, plan: null }, files: [] }, 'test');
const helpers = await planned({ swapped: ['helper'], keep: 2 });

async function planned(wish: Partial<NonNullable<Scenario['plan']>>): Promise<Result> {
  const plan = { setups: ['street', 'low'], swapped: [], keep: 5, ...wish };
  return sift({ scenario: { ...scenario, plan }, files: [] }, 'test');
}

function indicesOf(plan: PlanRecord) {
  return plan.setups.map(({ id }) => {
    const parsed = parsePairId(id, fingerprintOf(scenario));
    if (!parsed.ok) throw new Error(id);
    return parsed.id;
  });
}

/** Price of the named families, each distinct option once, for both sides; told apart by its place in the option list. */
function priceOf(plan: PlanRecord, families: readonly Family[]): number {
  const bought = new Map<string, number>();
  for (const id of indicesOf(plan)) {
    for (const axle of AXLE_NAMES) {
      const { options } = scenario.axles[axle];
      const corner = cornerAt(options, id[axle]);
      for (const family of families) {
        const list: readonly unknown[] = options[family];
        bought.set(`${axle} ${family} ${list.indexOf(corner[family])}`, 2 * (corner[family]?.price ?? 0));
      }
    }
  }
  return [...bought.values()].reduce((sum, price) => sum + price, 0);
}

const records = ({ plans }: Result) =>
  [...(plans?.plans ?? []), plans?.comparison.one_set, plans?.comparison.own_sets].flatMap((plan) => plan ?? []);

test('a shared plan exists, a set of springs for each setup gains, and no plan beats the setups alone', () => {
  const { plans } = result;
  const { one_set, own_sets, alone } = plans?.comparison ?? { alone: [] };
  expect(plans?.plans[0]).toEqual(one_set);
  expect(own_sets?.score).toBeGreaterThan(one_set?.score ?? 1);
  for (const plan of records(result)) {
    for (const [s, part] of plan.setups.entries()) expect(part.score).toBeLessThanOrEqual(alone[s]?.score ?? 0);
  }
  expect(alone.map((part) => part?.id)).toEqual(result.setups.map(({ shortlist }) => shortlist[0]?.id));
});

test('shared families are one choice in all setups, and every part works in its setup', () => {
  for (const plan of [...records(result).slice(0, -1), ...records(helpers)]) {
    const swapped: readonly Family[] = plan === records(helpers).at(-1) ? ['helper', 'spring'] : ['helper'];
    for (const axle of AXLE_NAMES) {
      const corners = indicesOf(plan).map((id) => cornerAt(scenario.axles[axle].options, id[axle]));
      const shared = FAMILIES.filter((family) => !swapped.includes(family));
      for (const family of shared) expect(new Set(corners.map((corner) => corner[family])).size).toBe(1);
    }
  }
  for (const given of [result, helpers]) {
    for (const part of records(given).flatMap((plan) => plan.setups)) {
      expect(combinationOf(given, part)).toMatchObject({ workable: true, score: part.score, criteria: part.criteria });
    }
  }
});

test('the score is the geometric mean of the setups, the price counts every part once', () => {
  for (const plan of [...records(result), ...records(helpers)]) {
    const product = plan.setups.reduce((sum, { score }) => sum * score, 1);
    expect(plan.score).toBeCloseTo(Math.sqrt(product), 12);
    expect(plan.price).toBeCloseTo(priceOf(plan, FAMILIES), 9);
    expect(plan.springs_price).toBeCloseTo(priceOf(plan, ['helper', 'spring']), 9);
  }
});

test('the setups stand in the order of the wish, and combinations of a shortlist are not repeated', () => {
  expect(helpers.plans?.setups).toEqual(['street', 'low']);
  expect(helpers.plans?.plans.length).toBeLessThanOrEqual(2);
  const listed = result.setups.flatMap(({ shortlist }) => shortlist.map(({ id }) => id));
  const brought = result.plans?.combinations.map(({ combination }) => combination) ?? [];
  expect(brought.filter(({ id, rank }) => listed.includes(id) || rank !== 0)).toEqual([]);
  expect(new Set(brought.map(({ id }) => id)).size).toBe(brought.length);
});

test('a scenario that wants no plan gets none', () => {
  expect(single.plans).toBeUndefined();
});

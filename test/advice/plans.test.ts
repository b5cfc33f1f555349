/** The plans of the hill-hatch scenario end to end: records, prices and ids, against the parts themselves. */

import { expect, test } from 'vitest';
import { findingsOf } from '../../src/model/corner/findings.ts';
import { cornerAt } from '../../src/model/corner/options.ts';
import { siteOf } from '../../src/model/corner/site.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { fingerprintOf, parsePairId } from '../../src/model/ids.ts';
import { AXLE_NAMES, FAMILIES, type Family, type Scenario } from '../../src/model/scenario.ts';
import { sift } from '../../src/pipeline.ts';
import { combinationOf } from '../../src/report/text/answers.ts';
import type { PlanRecord, Result } from '../../src/result/result.ts';
import { realScenario, sweptScenario } from '../setup/scenarios.ts';

const scenario = await realScenario('hill-hatch');
const result = await sweptScenario('hill-hatch');
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

test('the best plan’s combinations carry all that a setup’s own best does', () => {
  for (const given of [result, helpers]) {
    const [best] = given.plans?.plans ?? [];
    expect(best?.setups.map(({ id }) => id)).toEqual(given.plans?.purchase?.setups.map(({ id }) => id));
    for (const [s, part] of (best?.setups ?? []).entries()) {
      const [own] = given.setups.find(({ name }) => name === part.setup)?.shortlist ?? [];
      const planned = combinationOf(given, part);
      for (const axle of AXLE_NAMES) {
        const [corner, other] = [planned.axles[axle], own?.axles[axle]];
        expect(Object.keys(corner.bands)).toEqual(Object.keys(other?.bands ?? {}));
        expect(Object.keys(corner).sort()).toEqual(Object.keys(other ?? {}).sort());
      }
      expect(Object.keys(given.plans?.sheets?.[s]?.bands.front ?? {})).toEqual(
        Object.keys(own?.sheet?.bands.front ?? {}),
      );
    }
  }
});

test('the cuts of the best plan that are called free work in every setup, and no other listed ones', () => {
  const [best] = result.plans?.plans ?? [];
  const [front] = indicesOf(best as PlanRecord).map((id) => cornerAt(scenario.axles.front.options, id.front));
  const range = result.plans?.purchase?.ranges.front.find(
    (one) => one.kind === 'dimension' && one.dimension === 'trim',
  );
  if (front === undefined || range?.kind !== 'dimension') throw new Error('The front sleeve has several trims.');
  const works = scenario.axles.front.options.sleeve.filter((sleeve) =>
    scenario.setups.every(
      (setup) => findingsOf(cornerState(siteOf(scenario, setup, 'front'), { ...front, sleeve })).length === 0,
    ),
  );
  expect(range.works_mm).toEqual(works.map(({ trim }) => trim));
  expect(range.works_mm.length).toBeLessThan(range.options);
});

test('the bench starts from what is bought, then from each setup’s own shortlist', () => {
  const [best] = result.plans?.plans ?? [];
  for (const part of best?.setups ?? []) {
    const live = result.live?.setups.find(({ name }) => name === part.setup);
    const listed = result.setups.find(({ name }) => name === part.setup)?.shortlist ?? [];
    expect(live?.starts[0]).toMatchObject({ id: part.id, isPlan: true });
    expect(live?.starts.slice(1).map(({ id }) => id)).toEqual(
      listed.map(({ id }) => id).filter((id) => id !== part.id),
    );
    expect(live?.starts.filter(({ isPlan }) => isPlan)).toHaveLength(1);
  }
  expect(single.live?.setups.flatMap(({ starts }) => starts).some(({ isPlan }) => isPlan)).toBe(false);
});

test('the setups stand in the order of the wish, and what a shortlist holds is repeated only in full', () => {
  expect(helpers.plans?.setups).toEqual(['street', 'low']);
  expect(helpers.plans?.plans.length).toBeLessThanOrEqual(2);
  const listed = result.setups.flatMap(({ shortlist }) => shortlist.map(({ id }) => id));
  const brought = result.plans?.combinations.map(({ combination }) => combination) ?? [];
  const bests = result.setups.map(({ shortlist }) => shortlist[0]?.id);
  const planned = result.plans?.plans[0]?.setups.map(({ id }) => id) ?? [];
  expect(brought.every(({ rank }) => rank === 0)).toBe(true);
  expect(brought.filter(({ id }) => listed.includes(id) && (bests.includes(id) || !planned.includes(id)))).toEqual([]);
  expect(new Set(brought.map(({ id }) => id)).size).toBe(brought.length);
});

test('a scenario that wants no plan gets none', () => {
  expect(single.plans).toBeUndefined();
});

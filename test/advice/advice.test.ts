import { expect, test } from 'vitest';
import { withWeight } from '../../src/advice/taste.ts';
import { fingerprintOf } from '../../src/model/ids.ts';
import type { Scenario } from '../../src/model/scenario.ts';
import { RANK_BYS } from '../../src/result/advice.ts';
import { combinationOf } from '../../src/result/records/combination.ts';
import { sweepScenario } from '../../src/sweep/outcome.ts';
import { NAMES, scenarioOf } from './scenarios.ts';
import { adviceFor, requestOf, withoutDead, withRearTravel } from './small.ts';

/** Whole scenarios are swept. What never works is left to `whyNot.test.ts`. */
const advised = (...asked: Parameters<typeof requestOf>) => adviceFor(withoutDead(requestOf(...asked)));

test.each(NAMES)('changing a weight of %s gives what the table of weights said', async (name) => {
  const scenario = await scenarioOf(name);
  const { taste } = advised(scenario).advice;
  expect(taste?.basis).toBe('sweep');
  for (const row of taste?.rows ?? []) {
    const changed = withWeight(scenario, row.criterion, row.tried / row.weight);
    const [pair] = requestOf(changed).judged;
    const best = pair && combinationOf(pair, 1, fingerprintOf(changed));
    expect(best?.id).toBe(row.winner);
    expect(best?.score).toBeCloseTo(row.score, 3);
  }
});

test('a weight changed in the YAML text gives what the table of weights said', async () => {
  const { taste } = advised(await scenarioOf('kit-two-seater')).advice;
  const row = taste?.rows.find((r) => r.criterion === 'front_frequency' && r.tried === 0.5);
  const changed = await scenarioOf('kit-two-seater', [['front_frequency: 1,', 'front_frequency: 0.5,']]);
  expect(advised(changed).shortlist[0]?.id).toBe(row?.winner);
});

test('with too many combinations the table of weights stays within the shortlist and says so', async () => {
  const { shortlist, advice } = advised(await scenarioOf('kit-two-seater'), 'nominal', 2_000_001);
  expect(advice.taste?.basis).toBe('shortlist');
  const ids = shortlist.map((one) => one.id);
  expect(advice.taste?.rows.every((row) => ids.includes(row.winner) && row.place > 0)).toBe(true);
});

test('each order holds the same purchases, ranked from 1, best first by what it says', async () => {
  const scenario = await scenarioOf('hill-hatch');
  const lists = RANK_BYS.map((rankBy) => advised(scenario, rankBy));
  for (const [k, { shortlist, advice }] of lists.entries()) {
    expect(advice.ranked_by).toBe(RANK_BYS[k]);
    expect(shortlist.map((one) => one.rank)).toEqual(shortlist.map((_, n) => n + 1));
    expect(advice.purchases.map((p) => p.id)).toEqual(shortlist.map((one) => one.id));
    expect(new Set(shortlist.map((one) => one.id))).toEqual(new Set(lists[0]?.shortlist.map((one) => one.id)));
  }
  const shares = lists[2]?.advice.purchases.map((p) => p.share) ?? [];
  expect(shares).toEqual([...shares].sort((a, b) => b - a));
  expect(lists[2]?.shortlist[0]?.axles.front.force_curve).toBeDefined();
});

test('without tolerances every draw works and the worst score is the score', async () => {
  const scenario = await scenarioOf('hill-hatch');
  const none = Object.fromEntries(Object.keys(scenario.tolerances).map((key) => [key, 0]));
  const sure = { ...scenario, tolerances: none as unknown as Scenario['tolerances'] };
  const { shortlist, advice } = advised(sure);
  const exact = advice.purchases.filter((_, k) => shortlist[k]?.flags.every((f) => f.kind !== 'estimate'));
  expect(exact.length).toBeGreaterThan(0);
  for (const [k, purchase] of advice.purchases.entries()) {
    expect(purchase.share).toBe(1);
    expect(purchase.worst_score).toBeCloseTo(shortlist[k]?.score ?? Number.NaN, 3);
  }
});

test('the same scenario gives the same advice', async () => {
  const scenario = await scenarioOf('kit-two-seater');
  const [one, other] = [adviceFor(requestOf(scenario)), adviceFor(requestOf(scenario))];
  expect(one.advice).toEqual(other.advice);
});

test('what the best combination leaves free works in every listed value, and the chosen value is among them', async () => {
  const { advice } = advised(await scenarioOf('kit-two-seater'));
  for (const { ranges } of advice.purchases) {
    for (const range of [...ranges.front, ...ranges.rear]) {
      if (range.kind === 'part') expect(range.works).toContain(range.chosen);
      else {
        expect(range.works_mm).toContain(range.chosen_mm);
        expect(range.works_mm.length + range.gaps_mm.length).toBeLessThanOrEqual(range.options);
      }
    }
  }
});

test('a setup asked for too much bump travel is told by how much to give in, and giving in helps', async () => {
  const { shortlist, advice } = advised(await withRearTravel(95));
  expect(shortlist).toEqual([]);
  const row = advice.relaxations?.rows.find((r) => r.requirement === 'least bump travel');
  expect(row?.axles).toEqual(['rear']);
  expect(row?.winner).not.toBeNull();
  const least = 95 - (row?.by ?? 0);
  expect(sweepScenario(await withRearTravel(least))[0]?.pairs.best.length).toBeGreaterThan(0);
  expect(sweepScenario(await withRearTravel(least + 0.5))[0]?.pairs.best).toEqual([]);
});

test('relaxations on thinned lists say so and name no combination', async () => {
  const { relaxations } = advised(await withRearTravel(95), 'nominal', 50_001).advice;
  expect(relaxations?.basis).toBe('thinned');
  expect(relaxations?.rows.some((row) => row.by !== null)).toBe(true);
  expect(relaxations?.rows.every((row) => row.winner === null)).toBe(true);
});

test('where both axles have parts that work but no pair is balanced, what both ask for may give in', async () => {
  const scenario = await scenarioOf('kit-two-seater');
  const setups = scenario.setups.map((setup) => ({ ...setup, balance: { from: 2.9, target: 3, to: 3.1 } }));
  const { advice } = advised({ ...scenario, setups });
  const rows = advice.relaxations?.rows ?? [];
  expect(rows.length).toBeGreaterThan(0);
  for (const { axles } of rows) expect(axles).toEqual(['front', 'rear']);
});

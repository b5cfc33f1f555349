/** Advice on cut-down scenarios, each figure found again by trying everything. */

import { describe, expect, test } from 'vitest';
import { withWeight } from '../../src/advice/taste.ts';
import { findingsOf } from '../../src/model/corner/findings.ts';
import { combinationCount, cornerAt } from '../../src/model/corner/options.ts';
import { judgedFrequency } from '../../src/model/corner/rates.ts';
import { siteOf } from '../../src/model/corner/site.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Scenario, type Setup } from '../../src/model/scenario.ts';
import { combinationOf, workingOf } from '../../src/result/records/combination.ts';
import { NAMES, type Name } from './scenarios.ts';
import { adviceFor, requestOf, smallScenario, withoutDead } from './small.ts';

const small = {
  'hill-hatch': await smallScenario('hill-hatch', 3),
  'kit-two-seater': await smallScenario('kit-two-seater', 2),
  'loaded-estate': await smallScenario('loaded-estate', 2),
};
const each = <T>(of: (name: Name) => T) =>
  Object.fromEntries(NAMES.map((name) => [name, of(name)])) as Readonly<Record<Name, T>>;
const request = each((name) => requestOf(small[name]));
const answer = each((name) => adviceFor(request[name]));
const setupOf = (scenario: Scenario) => scenario.setups[0] as Setup;

function passes(scenario: Scenario, axle: AxleName, index: number): boolean {
  const corner = cornerAt(scenario.axles[axle].options, index);
  return findingsOf(cornerState(siteOf(scenario, setupOf(scenario), axle), corner)).length === 0;
}

test.each(NAMES)('%s: each weight doubled and halved is swept again, and what wins then is told', (name) => {
  const scenario = small[name];
  const { taste } = answer[name].advice;
  expect(taste?.basis).toBe('sweep');
  expect(taste?.rows.length).toBeGreaterThan(0);
  const [best] = answer[name].shortlist;
  for (const row of taste?.rows ?? []) {
    expect([2, 0.5]).toContain(row.tried / row.weight);
    const changed = requestOf(withWeight(scenario, row.criterion, row.tried / row.weight));
    const pair = changed.judged[0];
    const winner = pair && combinationOf(pair, 1, request[name].fingerprint);
    expect(row.winner).toBe(winner?.id);
    expect(winner?.score).toBeCloseTo(row.score, 3);
    if (row.winner === best?.id) expect(row).toMatchObject({ place: 1, changes: false });
  }
});

test.each(NAMES)('%s: the springs that never work are those with which no combination passes', (name) => {
  const scenario = small[name];
  for (const axle of AXLE_NAMES) {
    const { options } = scenario.axles[axle];
    const working = new Set<string>();
    for (let k = 0; k < combinationCount(options); k++) {
      if (passes(scenario, axle, k)) working.add(JSON.stringify(cornerAt(options, k).spring));
    }
    const dead = options.spring.filter((spring) => !working.has(JSON.stringify(spring)));
    const { springs, combinations, looked_at } = answer[name].advice.why_not[axle];
    expect(springs.map((one) => [one.spring, one.free_length_mm, one.rate_n_per_mm])).toEqual(
      dead.map((spring) => [spring.name, spring.freeLength, spring.rate]),
    );
    // All combinations with one spring are few enough to be looked at.
    expect(combinations).toBe(combinationCount(options) / options.spring.length);
    expect(looked_at).toBe(combinations);
    for (const one of springs) expect(one.distance).toBeGreaterThan(0);
  }
});

test.each(NAMES)('%s: a value works where the corner passes with it and all else as chosen', (name) => {
  const scenario = small[name];
  const { judged, advice } = answer[name];
  let seen = 0;
  for (const [k, { ranges }] of advice.purchases.entries()) {
    for (const axle of AXLE_NAMES) {
      const { corner, site } = judged[k]?.workings[axle].state ?? {};
      if (!corner || !site) throw new Error('a judged pair');
      for (const range of ranges[axle]) {
        if (range.kind !== 'dimension') continue;
        seen++;
        const { family, dimension } = range;
        const sizeOf = (part: object | null) => (part as Record<string, number> | null)?.[dimension] ?? Number.NaN;
        expect(range.chosen_mm).toBeCloseTo(sizeOf(corner[family]), 2);
        const listed = scenario.axles[axle].options[family].filter((part) => part?.name === corner[family]?.name);
        const alike = listed.filter((part) => {
          const others = (one: object | null) =>
            Object.entries(one ?? {}).filter(([key]) => ![dimension, 'raise', 'packerDiameter'].includes(key));
          return JSON.stringify(others(part)) === JSON.stringify(others(corner[family]));
        });
        expect(range.options).toBe(alike.length);
        const working = alike.filter(
          (part) => findingsOf(cornerState(site, { ...corner, [family]: part })).length === 0,
        );
        const sizes = [...new Set(working.map((part) => Number(sizeOf(part).toFixed(2))))].sort((a, b) => a - b);
        expect(range.works_mm).toEqual(sizes);
        for (const gap of range.gaps_mm) {
          expect(gap).toBeGreaterThan(sizes[0] ?? Number.NaN);
          expect(gap).toBeLessThan(sizes.at(-1) ?? Number.NaN);
          expect(sizes).not.toContain(gap);
        }
      }
    }
  }
  expect(seen).toBeGreaterThan(0);
});

describe('the rate an axle asks for', () => {
  const scenario = small['hill-hatch'];
  const front = judgedFrequency(
    request['hill-hatch'].judged[0]?.workings.front.state as Parameters<typeof judgedFrequency>[0],
  );
  const ratesWith = (wanted: number | null) => {
    const setup = setupOf(scenario);
    const target = (axle: AxleName) => ({ ...setup.axles[axle], wantedFrequency: wanted });
    const changed = { ...setup, axles: { front: target('front'), rear: target('rear') } };
    const given = withoutDead(request['hill-hatch']);
    const judged = given.judged.map(({ workings, ...pair }) => {
      const anew = (axle: AxleName) => {
        const { site, corner } = workings[axle].state;
        return workingOf({ ...site, target: changed.axles[axle] }, corner);
      };
      return { ...pair, setup: changed, workings: { front: anew('front'), rear: anew('rear') } };
    });
    return adviceFor({ ...given, judged, setup: changed }).advice.rates;
  };

  test('is for the frequency wanted, where one is', () => {
    const rates = ratesWith(1.75);
    for (const axle of AXLE_NAMES) expect(rates[axle]).toMatchObject({ from: 'wanted', frequency_hz: 1.75 });
  });

  test('else for the middle of the window in front, and for the balance with the chosen front behind', () => {
    const { balance, axles } = setupOf(scenario);
    const rates = ratesWith(null);
    const middle = (axles.front.frequencyFrom + axles.front.frequencyTo) / 2;
    expect(rates.front?.from).toBe('middle of the window');
    expect(rates.front?.frequency_hz).toBeCloseTo(middle, 3);
    expect(rates.rear?.from).toBe('balance');
    expect(rates.rear?.frequency_hz).toBeCloseTo(front * balance.target, 3);
  });
});

test('the rates are those that the best pair asks for, without one those of the first parts listed', () => {
  const given = withoutDead(request['hill-hatch']);
  const [best] = given.judged;
  if (!best) throw new Error('a pair that works');
  const ratesWith = (judged: readonly (typeof best)[]) => adviceFor({ ...given, judged }).advice.rates;
  /** The same pair on dampers whose gas pushes ten times as hard, more so as they are compressed. */
  const gassy = (axle: AxleName) => {
    const { site, corner } = best.workings[axle].state;
    const gas = { kind: 'linear', outForce: 400, inForce: 1400 } as const;
    return workingOf(site, { ...corner, damper: { ...corner.damper, gas } });
  };
  const other = { ...best, workings: { front: gassy('front'), rear: gassy('rear') } };
  expect(ratesWith([best, other])).toEqual(ratesWith([best]));
  expect(ratesWith([other, best])).not.toEqual(ratesWith([best]));
  for (const axle of AXLE_NAMES) {
    const { site, corner } = best.workings[axle].state;
    const { rate_n_per_mm: rate, frequency_hz: frequency } = ratesWith([best])[axle] ?? {};
    const spring = {
      ...corner.spring,
      rate: rate ?? 0,
      freeLength: 900,
      solid: { ...corner.spring.solid, height: 50 },
    };
    // Shown to 0.01 N/mm and 0.001 Hz.
    expect(judgedFrequency(cornerState(site, { ...corner, helper: null, spring }))).toBeCloseTo(frequency ?? 0, 2);
  }
  expect(ratesWith([]).rear?.from).toBe('middle of the window');
});

describe('orders of the shortlist', () => {
  const orders = ['nominal', 'worst', 'share'] as const;
  const found = orders.map((rankBy) => adviceFor({ ...withoutDead(request['kit-two-seater']), rankBy }));
  const [nominal, worst, share] = found;

  test('hold the same purchases, ranked from 1, and are said', () => {
    const ids = nominal?.shortlist.map(({ id }) => id);
    expect(new Set(ids).size).toBeGreaterThan(5);
    for (const [k, { shortlist, advice, judged }] of found.entries()) {
      expect(advice.ranked_by).toBe(orders[k]);
      expect(new Set(shortlist.map(({ id }) => id))).toEqual(new Set(ids));
      expect(shortlist.map(({ rank }) => rank)).toEqual(shortlist.map((_, n) => n + 1));
      expect(advice.purchases.map(({ id }) => id)).toEqual(shortlist.map(({ id }) => id));
      expect(judged.map((pair) => combinationOf(pair, 1, request['kit-two-seater'].fingerprint).id)).toEqual(
        shortlist.map(({ id }) => id),
      );
    }
  });

  test('fall in what they are by; equal worst cases go by the share', () => {
    const scores = nominal?.shortlist.map(({ score }) => score) ?? [];
    expect(scores).toEqual(scores.toSorted((a, b) => b - a));
    const byShare = share?.advice.purchases.map((p) => p.share) ?? [];
    expect(byShare).toEqual(byShare.toSorted((a, b) => b - a));
    const byWorst = worst?.advice.purchases ?? [];
    for (const [k, one] of byWorst.entries()) {
      const next = byWorst[k + 1];
      if (!next) continue;
      expect(one.worst_score).toBeGreaterThanOrEqual(next.worst_score);
      if (one.worst_score === 0 && next.worst_score === 0) expect(one.share).toBeGreaterThanOrEqual(next.share);
    }
  });

  test('only the first carries its bands', () => {
    for (const { shortlist } of found) {
      const [first, ...others] = shortlist;
      expect(Object.keys(first?.axles.front.bands ?? {}).length).toBeGreaterThan(0);
      for (const other of others) expect(Object.keys(other.axles.front.bands)).toEqual([]);
    }
  });
});

test('one build alone has nothing to weigh against', async () => {
  const scenario = await smallScenario('hill-hatch', 1);
  const { shortlist, advice } = adviceFor(requestOf(scenario));
  expect(shortlist).toHaveLength(1);
  expect(advice.taste).toBeNull();
  expect(advice.relaxations).toBeNull();
  for (const axle of AXLE_NAMES) expect(advice.why_not[axle].springs).toEqual([]);
});

test('beyond two million combinations weights are re-tried within the shortlist, up to there swept again', () => {
  const basis = (combinations: number) =>
    adviceFor({ ...withoutDead(request['kit-two-seater']), combinations }).advice.taste?.basis;
  expect(basis(2_000_000)).toBe('sweep');
  expect(basis(2_000_001)).toBe('shortlist');
});

describe('a setup without an answer', () => {
  const scenario = small['kit-two-seater'];
  const setup = setupOf(scenario);
  /** Both axles' springs have to work further up and down than any does. */
  const asking = (travel: number, axles: readonly AxleName[]): Scenario => {
    const target = (axle: AxleName) => {
      return axles.includes(axle) ? { ...setup.axles[axle], leastBumpTravel: travel } : setup.axles[axle];
    };
    return { ...scenario, setups: [{ ...setup, axles: { front: target('front'), rear: target('rear') } }] };
  };
  const most = (axle: AxleName) => {
    const { options } = scenario.axles[axle];
    const travels = Array.from({ length: combinationCount(options) }, (_, k) =>
      passes(scenario, axle, k) ? cornerState(siteOf(scenario, setup, axle), cornerAt(options, k)).bumpTravel : 0,
    );
    return Math.max(...travels);
  };

  test('is told by how much the axle in the way has to give in, and names what works then', () => {
    const travel = Math.ceil(most('rear')) + 7;
    const { shortlist, advice } = adviceFor(withoutDead(requestOf(asking(travel, ['rear']))));
    expect(shortlist).toEqual([]);
    expect(advice.taste).toBeNull();
    const row = advice.relaxations?.rows.find(({ requirement }) => requirement === 'least bump travel');
    expect(advice.relaxations?.basis).toBe('all');
    // In steps of half a millimetre, until the rear has what the longest of its combinations gives.
    expect(row).toMatchObject({ axles: ['rear'], by: Math.ceil(2 * (travel - most('rear'))) / 2, most: travel });
    expect(row?.winner).not.toBeNull();
    const efforts = (advice.relaxations?.rows ?? []).map(({ by, most: all }) => (by ?? Number.POSITIVE_INFINITY) / all);
    expect(efforts).toEqual(efforts.toSorted((a, b) => (a === b ? 0 : a - b)));
  });

  test('where both axles have nothing, both give in', () => {
    const travel = Math.ceil(Math.max(most('front'), most('rear'))) + 5;
    const { advice } = adviceFor(withoutDead(requestOf(asking(travel, AXLE_NAMES))));
    for (const { axles } of advice.relaxations?.rows ?? []) expect(axles).toEqual(['front', 'rear']);
  });

  test('of more than fifty thousand combinations is tried on thinned lists, which name no combination', () => {
    const at = (combinations: number) =>
      adviceFor(withoutDead(requestOf(asking(Math.ceil(most('rear')) + 7, ['rear']), 'nominal', combinations))).advice;
    expect(at(50_000).relaxations?.basis).toBe('all');
    const { relaxations } = at(50_001);
    expect(relaxations?.basis).toBe('thinned');
    expect(relaxations?.rows.map(({ winner }) => winner).every((winner) => winner === null)).toBe(true);
    expect(relaxations?.rows.some(({ by }) => by !== null)).toBe(true);
  });
});

test.each(NAMES)('%s: what is ordered makes two corners an axle, at the prices of their parts', (name) => {
  const { judged, advice } = answer[name];
  for (const [k, { order }] of advice.purchases.entries()) {
    const parts = AXLE_NAMES.flatMap((axle) =>
      FAMILIES.flatMap((family) => judged[k]?.workings[axle].state.corner[family] ?? []),
    );
    expect(order.lines.reduce((sum, { count }) => sum + count, 0)).toBe(2 * parts.length);
    const price = parts.reduce((sum, part) => sum + 2 * (part.price ?? 0), 0);
    expect(order.total).toBeCloseTo(price, 2);
  }
});

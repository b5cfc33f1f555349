/** Setups without an answer: one axle that fails, both, and two that pass and are out of balance. */
import { expect, test } from 'vitest';
import { genericHelpers } from '../../src/advice/generic.ts';
import { nothingWorks } from '../../src/advice/nothing.ts';
import { distanceOf } from '../../src/advice/trials.ts';
import { cornerAt } from '../../src/model/corner/options.ts';
import { balanceLimits } from '../../src/model/corner/pairBalance.ts';
import { type Corner, siteOf } from '../../src/model/corner/site.ts';
import { findingsAt, lightState, works } from '../../src/model/corner/verdict.ts';
import { fromBase32 } from '../../src/model/ids.ts';
import type { Scenario } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import type { HelpfulChange } from '../../src/result/nothing.ts';
import { changed, foundOf, nothingOf, stiff } from './nothingScenarios.ts';
import { smallScenario } from './small.ts';

const small = await smallScenario('hill-hatch', 3);

/** All combinations of an axle, by how far from working they are. */
function distances(scenario: Scenario, axle: 'front' | 'rear'): number[] {
  const { options } = scenario.axles[axle];
  const site = siteOf(scenario, scenario.setups[0] as Scenario['setups'][number], axle);
  const count = Object.values(options).reduce((n, list) => n * list.length, 1);
  return Array.from({ length: count }, (_, k) => distanceOf(findingsAt(site, cornerAt(options, k))));
}

const indexOf = (id: string, axle: 'front' | 'rear') =>
  fromBase32(id.split('-')[axle === 'front' ? 1 : 2]?.slice(1) ?? '');

test('one axle fails: its closest combination with the best of the other, which stands in full', () => {
  const scenario = stiff(small, 'front');
  const found = foundOf(scenario);
  const { nearest, axles } = finish(nothingWorks(found));
  const all = distances(scenario, 'front');
  expect(all[indexOf(nearest.id, 'front')]).toBe(Math.min(...all));
  expect(nearest).toMatchObject({ rank: 0, workable: false, score: 0 });
  expect(nearest.axles.front.failures.length).toBeGreaterThan(0);
  expect(nearest.axles.rear.failures).toEqual([]);
  expect(axles.front.passing).toEqual([]);
  expect(axles.rear).toMatchObject({ change: null, would_work: null });
  const scores = axles.rear.passing.map(({ score }) => score);
  expect(scores.length).toBeGreaterThan(1);
  expect(scores).toEqual([...scores].sort((a, b) => b - a));
  expect(
    new Set(axles.rear.passing.map(({ corner }) => JSON.stringify([corner.parts.spring, corner.parts.helper]))).size,
  ).toBe(scores.length);
  for (const { corner } of axles.rear.passing) expect(corner.failures).toEqual([]);
  expect(axles.front.would_work?.balanced).toBe(true);
});

test('both axles fail: each has its change and its map, and the other nothing to be in balance with', () => {
  const { axles, nearest } = nothingOf(stiff(stiff(small, 'front'), 'rear'));
  for (const axle of ['front', 'rear'] as const) {
    expect(nearest.axles[axle].failures.length).toBeGreaterThan(0);
    expect(axles[axle].passing).toEqual([]);
    expect(axles[axle].would_work).toMatchObject({ balanced: false });
    expect(axles[axle].change).toMatchObject({ balanced_with: null });
  }
});

const unbalanced = (scenario: Scenario, from: number, to: number): Scenario => ({
  ...scenario,
  setups: scenario.setups.map((setup) => ({ ...setup, balance: { target: (from + to) / 2, from, to } })),
});

test.each([
  ['above', 0.5, 0.9],
  ['below', 1.5, 1.6],
])('both pass, every pair is %s the limits: the pair nearest to them', (_, from, to) => {
  const scenario = unbalanced(small, from, to);
  const found = foundOf(scenario);
  const { nearest, axles } = finish(nothingWorks(found));
  const { front, rear } = found.sides;
  const limits = balanceLimits(found.setup.balance);
  const lacks = front.candidates.flatMap((one) =>
    rear.candidates.map((other) => {
      const ratio = other.frequency / one.frequency;
      return Math.max(limits.from - ratio, ratio - limits.to);
    }),
  );
  expect(nearest.axles.front.failures.concat(nearest.axles.rear.failures)).toEqual([]);
  expect(nearest.failures.map(({ check }) => check)).toEqual(['balance']);
  expect(nearest.failures[0]?.shortfall).toBeCloseTo(Math.min(...lacks), 12);
  expect(axles.front.passing.length).toBeGreaterThan(0);
  expect(axles.rear.passing.length).toBeGreaterThan(0);
});

// The change that helps most.

type Axle = 'front' | 'rear';

/** The changed corner, made anew from what the record tells; its spring one of the axle's list. */
function remade({ axles }: Scenario, axle: Axle, { on, changes }: HelpfulChange): Corner {
  const corner = cornerAt(axles[axle].options, fromBase32(on?.slice(1) ?? ''));
  const made = { ...corner };
  for (const { kind, part, to_mm } of changes) {
    if (kind === 'trim') made.sleeve = { ...made.sleeve, trim: to_mm };
    else if (kind === 'mount') made.mount = { ...made.mount, raise: to_mm, bareRaise: to_mm, spacer: 0 };
    else made.helper = genericHelpers(made.spring.bore).find(({ name }) => name === part) ?? null;
  }
  return made;
}

/** How many of the listed springs pass in a corner's place of its own. */
function passing(scenario: Scenario, axle: Axle, corner: Corner): number {
  const site = siteOf(scenario, scenario.setups[0] as Scenario['setups'][number], axle);
  return scenario.axles[axle].options.spring.filter((spring) => works(site, { ...corner, spring })).length;
}

const long = (scenario: Scenario) =>
  changed(scenario, 'front', ({ sleeve }) => ({
    sleeve: sleeve.map((one) => ({ ...one, trim: 0, length: one.length + 40 })),
  }));
const bare = (scenario: Scenario) =>
  changed(
    changed(scenario, 'front', () => ({ helper: [null] })),
    'rear',
    () => ({ helper: [null] }),
  );

test.each([
  ['a cut of sleeves that are too long', 'front', 'trim', long(small)],
  ['a generic helper where no list has one', 'rear', 'helper', bare(small)],
  ['another mount where droop is short', 'rear', 'mount', changed(small, 'rear', () => ({}), { leastDroopTravel: 84 })],
] as const)(
  '%s is the one change, made on a listed combination, and so many springs pass with it',
  (_, axle, kind, scenario) => {
    const { change } = nothingOf(scenario).axles[axle];
    expect(change?.changes.map((one) => one.kind)).toEqual([kind]);
    const corner = remade(scenario, axle, change as HelpfulChange);
    const site = siteOf(scenario, scenario.setups[0] as Scenario['setups'][number], axle);
    expect(findingsAt(site, corner)).toEqual([]);
    expect(change).toMatchObject({
      spring: { name: corner.spring.name, free_length_mm: corner.spring.freeLength },
      springs: { work: passing(scenario, axle, corner), of: scenario.axles[axle].options.spring.length },
    });
    const { perch, springForce } = lightState(site, corner).standing;
    expect(springForce).toBeGreaterThan(0);
    expect(change?.corner.perch_mm).toBeCloseTo(perch, 9);
    expect(change?.balanced_with).toBeGreaterThan(0);
  },
);

test.each([
  ['as listed', 'front', [], stiff(small, 'front')],
  ['with a cut', 'front', ['trim'], long(stiff(small, 'front'))],
  [
    'with a generic helper',
    'rear',
    ['helper'],
    changed(stiff(bare(small), 'rear', 3), 'rear', () => ({}), { frequencyFrom: 2.2 }),
  ],
  [
    'with another mount',
    'front',
    ['mount'],
    changed(stiff(small, 'front'), 'front', () => ({}), { leastDroopTravel: 85 }),
  ],
] as const)('where no listed spring can do it another one is named, %s, of no list', (_, axle, kinds, scenario) => {
  const { change, would_work } = nothingOf(scenario).axles[axle];
  expect(change).toMatchObject({ on: null, springs: null, spring: { name: null, solid_height_source: 'estimated' } });
  expect(change?.changes.map(({ kind }) => kind)).toEqual(kinds);
  const { free_length_mm, rate_n_per_mm } = change?.spring ?? {};
  const cell = would_work?.cells.find(
    (one) => one.free_length_mm === free_length_mm && one.rate_n_per_mm === rate_n_per_mm,
  );
  expect(cell?.[kinds[0] ?? 'as_listed']).not.toBeNull();
});

test('two changes together are told only where nothing less does it', () => {
  const stops = ({ bumpStop }: { bumpStop: readonly Corner['bumpStop'][] }) => ({
    bumpStop: bumpStop.map((one) => ({ ...one, length: 60 })),
  });
  const scenario = changed(long(small), 'front', stops, { leastBumpTravel: 38 });
  const { change, would_work } = nothingOf(scenario).axles.front;
  expect(would_work?.cells.some(({ as_listed, trim }) => as_listed !== null || trim !== null)).toBe(false);
  expect(change?.changes.map(({ kind }) => kind).sort()).toEqual(['stop', 'trim']);
});

test('where nothing was found that helps none is told, and the map is blank', () => {
  const { change, would_work } = nothingOf(
    changed(stiff(small, 'front'), 'front', () => ({}), { leastBumpTravel: 500 }),
  ).axles.front;
  expect(change).toBeNull();
  expect(
    would_work?.cells.every(({ as_listed, trim, helper, mount }) =>
      [as_listed, trim, helper, mount].every((one) => one === null),
    ),
  ).toBe(true);
});

test('where no frequency of the window is in balance with the other axle no spring is looked for if both pass, and it is said if one fails', () => {
  const both = nothingOf(unbalanced(small, 5, 6));
  expect(both.axles).toMatchObject({
    front: { change: null, would_work: null },
    rear: { change: null, would_work: null },
  });
  const one = nothingOf(unbalanced(stiff(small, 'front'), 5, 6));
  expect(one.axles.front).toMatchObject({ change: { balanced_with: 0 }, would_work: { balanced: false } });
});

test('where both pass and are out of balance another spring on either axle may bring them together', () => {
  const { axles } = nothingOf(unbalanced(small, 1.3, 1.45));
  const changes = [axles.front.change, axles.rear.change].filter((change) => change !== null);
  expect(changes.length).toBeGreaterThan(0);
  for (const change of changes) {
    expect(change).toMatchObject({ on: null, springs: null });
    expect(change.balanced_with).toBeGreaterThan(0);
  }
});

test('of pairs beside the limits the least off is taken, of equal ones the better, then the first', () => {
  const found = foundOf(unbalanced(small, 1.3, 1.45));
  const candidates = (given: readonly (readonly [index: number, frequency: number, logScore: number])[]) =>
    given.map(([index, frequency, logScore]) => ({ index, frequency, logScore, price: null }));
  const nearest = (front: Parameters<typeof candidates>[0], rear: Parameters<typeof candidates>[0]) => {
    const sides = {
      front: { ...found.sides.front, candidates: candidates(front) },
      rear: { ...found.sides.rear, candidates: candidates(rear) },
    };
    const { id } = finish(nothingWorks({ ...found, sides })).nearest;
    return [indexOf(id, 'front'), indexOf(id, 'rear')];
  };
  // Ratios to 2 Hz: 1 and 1.75; 0.3 below the limits, 0.3 above.
  expect(
    nearest(
      [[1, 2, -1]],
      [
        [1, 2, -2],
        [2, 3.5, -1],
      ],
    ),
  ).toEqual([1, 2]);
  // 1.25 is off by 0.05 only.
  expect(
    nearest(
      [
        [1, 2, -1],
        [3, 1.6, -9],
      ],
      [
        [1, 2, -2],
        [2, 3.5, -1],
      ],
    ),
  ).toEqual([3, 1]);
  // Of one frequency the better, of equally good ones the first.
  expect(
    nearest(
      [
        [3, 2, -2],
        [1, 2, -1],
        [2, 2, -1],
      ],
      [[4, 2, -1]],
    ),
  ).toEqual([1, 4]);
});

test('what passes is listed once a spring and helper, by its best', () => {
  const found = foundOf(stiff(small, 'front'));
  const { rear } = found.sides;
  const candidates = [4, 4 + rear.stacks].map((index, k) => ({ index, frequency: 2, logScore: k - 2, price: null }));
  const { axles } = finish(nothingWorks({ ...found, sides: { ...found.sides, rear: { ...rear, candidates } } }));
  expect(axles.rear.passing.map(({ corner }) => fromBase32(corner.id.slice(1)))).toEqual([4 + rear.stacks]);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { digitsOf, liveOf } from '../../../src/domain/reporting/live.ts';
import type { PlansResult } from '../../../src/domain/result.ts';
import { FAMILIES, type Family } from '../../../src/domain/scenario.ts';
import { combinationCount, cornerAt } from '../../../src/sweep/options.ts';
import { recorded, shortlisted } from '../../live/records.ts';
import { realScenario, SCENARIOS } from '../../setup/scenarios.ts';

test.each(SCENARIOS)('digits of an index of %s lead to the parts that the sweep takes', async (name) => {
  const { options } = (await realScenario(name)).axles.front;
  fc.assert(
    fc.property(fc.integer({ min: 0, max: combinationCount(options) - 1 }), (index) => {
      const digits = digitsOf(options, index);
      const corner = cornerAt(options, index);
      for (const [k, family] of FAMILIES.entries()) expect(options[family][digits[k] ?? -1]).toBe(corner[family]);
    }),
    { numRuns: 50 },
  );
});

test.each(SCENARIOS)(
  'the record of %s holds the parts of each combination, number for number through JSON',
  async (name) => {
    const { scenario, picked, record } = await recorded(name);
    const read = JSON.parse(JSON.stringify(record)) as typeof record;
    expect(read).toEqual(record);
    for (const axle of ['front', 'rear'] as const) {
      for (const [k, indices] of picked.entries()) {
        const digits = read.setups[0]?.starts[k]?.[axle] ?? [];
        const parts = FAMILIES.map((family, j) => [family, read.axles[axle].options[family][digits[j] ?? -1]]);
        expect(Object.fromEntries(parts)).toEqual(cornerAt(scenario.axles[axle].options, indices[axle]));
      }
    }
  },
);

test('tables hold what the shortlist uses and every helper, no more', async () => {
  const { scenario, picked, record } = await recorded('hill-hatch');
  for (const family of FAMILIES) {
    const used = new Set(picked.map(({ front }) => cornerAt(scenario.axles.front.options, front)[family as Family]));
    const wanted = family === 'helper' ? scenario.axles.front.options.helper.length : used.size;
    expect(record.axles.front.options[family], family).toHaveLength(wanted);
  }
});

test('a setup where nothing works has no combination to start from; without any there is no record', async () => {
  const scenario = await realScenario('hill-hatch');
  const [low, street] = scenario.setups;
  if (!low || !street) throw new Error('The scenario has two setups.');
  const found = [
    { setup: low, shortlist: [] },
    { setup: street, shortlist: [shortlisted(street, { front: 5, rear: 9 })] },
  ];
  expect(liveOf(scenario, found)?.setups.map(({ starts }) => starts.length)).toEqual([0, 1]);
  expect(liveOf(scenario, found.slice(0, 1))).toBeNull();
});

test('a setup’s part of the best plan is its first start, from the shortlist or from what the plan brought', async () => {
  const scenario = await realScenario('hill-hatch');
  const [low, street] = scenario.setups;
  if (!low || !street) throw new Error('The scenario has two setups.');
  const listed = [3, 5].map((front) => shortlisted(street, { front, rear: 9 }));
  const other = shortlisted(street, { front: 7, rear: 9 });
  const found = [
    { setup: low, shortlist: [shortlisted(low, { front: 5, rear: 9 })] },
    { setup: street, shortlist: listed },
  ];
  const startsWith = (id: string | undefined) => {
    const plans = id === undefined ? [] : [{ setups: [{ setup: 'street', id }] }];
    const given = { plans, combinations: [{ setup: 'street', combination: other }] } as unknown as PlansResult;
    const setups = liveOf(scenario, found, given)?.setups ?? [];
    return setups.map(({ starts }) => starts.map((one) => [one.id, one.isPlan ?? false]));
  };
  const [first, second] = listed.map(({ id }) => id);
  const alone = [[found[0]?.shortlist[0]?.id, false]];
  expect(startsWith(second)).toEqual([
    alone,
    [
      [second, true],
      [first, false],
    ],
  ]);
  expect(startsWith(other.id)).toEqual([
    alone,
    [
      [other.id, true],
      [first, false],
      [second, false],
    ],
  ]);
  expect(startsWith(undefined)).toEqual([
    alone,
    [
      [first, false],
      [second, false],
    ],
  ]);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { combinationCount, cornerAt, digitsOf } from '../../../src/model/corner/options.ts';
import { FAMILIES, type Family } from '../../../src/model/scenario.ts';
import { liveOf } from '../../../src/result/records/result.ts';
import { foundOf, idOf, recorded } from '../../page/bench/records.ts';
import { forAny } from '../../setup/random.ts';
import { realScenario, SCENARIOS } from '../../setup/scenarios.ts';

test.each(SCENARIOS)('digits of an index of %s lead to the parts that the sweep takes', async (name) => {
  const { options } = (await realScenario(name)).axles.front;
  forAny([fc.integer({ min: 0, max: combinationCount(options) - 1 })], 50, (index) => {
    const digits = digitsOf(options, index);
    const corner = cornerAt(options, index);
    for (const family of FAMILIES) expect(options[family][digits[family]]).toBe(corner[family]);
  });
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
  const found = [foundOf(low, []), foundOf(street, [{ front: 5, rear: 9 }])];
  expect(liveOf(scenario, found)?.setups.map(({ starts }) => starts.length)).toEqual([0, 1]);
  expect(liveOf(scenario, found.slice(0, 1))).toBeNull();
});

test('a setup’s part of the best plan is its first start, from the shortlist or from what the plan brought', async () => {
  const scenario = await realScenario('hill-hatch');
  const [low, street] = scenario.setups;
  if (!low || !street) throw new Error('The scenario has two setups.');
  const of = (front: number) => ({ front, rear: 9 });
  const found = [foundOf(low, [of(5)]), foundOf(street, [of(3), of(5)])];
  const startsWith = (front: number | null) => {
    const plan = front === null ? [] : [{ setup: 'street', id: idOf(street, of(front)), indices: of(front) }];
    const setups = liveOf(scenario, found, plan)?.setups ?? [];
    return setups.map(({ starts }) => starts.map((one) => [one.id, one.isPlan ?? false]));
  };
  const [first, second, other] = [3, 5, 7].map((front) => idOf(street, of(front)));
  const alone = [[found[0]?.shortlist[0]?.id, false]];
  expect(startsWith(5)).toEqual([
    alone,
    [
      [second, true],
      [first, false],
    ],
  ]);
  expect(startsWith(7)).toEqual([
    alone,
    [
      [other, true],
      [first, false],
      [second, false],
    ],
  ]);
  expect(startsWith(null)).toEqual([
    alone,
    [
      [first, false],
      [second, false],
    ],
  ]);
});

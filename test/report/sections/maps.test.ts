import { expect, test } from 'vitest';
import { mapsView } from '../../../src/report/sections/maps.ts';
import type { SetupResult } from '../../../src/result/result.ts';
import { build, combination, firstAnswer, result, setup } from '../fixture.ts';

const mapsOf = (one: SetupResult) => mapsView(result(), firstAnswer(result({ setups: [one] })));

test('a single build has no maps', async () => {
  const given = build();
  expect(await mapsView(given, firstAnswer(given))).toBeNull();
});

test('bump travel is set against price where all have one, else against the thinnest clearance', async () => {
  const priced = [1, 2, 3].map((rank) => {
    const base = combination('low', rank);
    return { ...base, values: { ...base.values, price_total: 700 + 10 * rank } };
  });
  expect((await mapsOf(setup('low', { shortlist: priced })))?.trade?.isPrice).toBe(true);
  const [first, second] = priced;
  const mixed = first && second ? [first, { ...second, values: { ...second.values, price_total: null } }] : [];
  expect((await mapsOf(setup('low', { shortlist: mixed })))?.trade?.isPrice).toBe(false);
});

test('the spring maps come with the letters they use', async () => {
  const base = setup('low');
  const cells = [
    { spring: 'a', free_length_mm: 200, rate_n_per_mm: 40, workable: 2, best_score: 0.5, rejected: { coil_bind: 3 } },
    { spring: 'b', free_length_mm: 200, rate_n_per_mm: 50, workable: 0, best_score: null, rejected: { coil_bind: 3 } },
  ];
  const axles = { front: { ...base.axles.front, spring_cells: cells }, rear: { ...base.axles.rear, spring_cells: [] } };
  const view = await mapsOf({ ...base, axles });
  expect(view?.springs.map(({ axle, works, springs, letters }) => [axle, works, springs, letters])).toEqual([
    ['front', '1', '2', [{ letter: 'C', check: 'coil bind' }]],
  ]);
});

/** Marks of the map of what would work: each way by shape and shade, what rests on the least solid height hollow. */
import { expect, test } from 'vitest';
import { drawChart } from '../../../src/report/charts/draw.ts';
import { MARKED_WAYS, WAY_MARKS, wouldWorkMap } from '../../../src/report/charts/wouldWork.ts';
import type { WouldWork, WouldWorkCell } from '../../../src/result/nothing.ts';

const blank = {
  solid_height_mm: 120,
  least_solid_height_mm: 105,
  as_listed: null,
  trim: null,
  helper: null,
  mount: null,
};
const cell = (free_length_mm: number, rate_n_per_mm: number, ways: Partial<WouldWorkCell> = {}): WouldWorkCell => {
  return { ...blank, free_length_mm, rate_n_per_mm, ...ways };
};
const map: WouldWork = {
  lengths_mm: [240, 250],
  rates_n_per_mm: [30, 40],
  cells: [
    cell(240, 30, { as_listed: { solid: 'judged' } }),
    cell(250, 30, { as_listed: { solid: 'least' }, trim: { solid: 'judged', trim_mm: 12 } }),
    cell(240, 40, { helper: { solid: 'judged', name: 'h' }, mount: { solid: 'least', raise_mm: 8 } }),
    cell(250, 40),
  ],
  ...{ bore_mm: 60, helpers: [], trim_to_mm: 60, mount_lower_mm: 20, mount_higher_mm: 40 },
  ...{ balanced: false, combinations: 1, looked_at: 1 },
};

interface Layer {
  readonly data: { readonly values: readonly object[] };
  readonly mark: { readonly type: string; readonly shape?: string; readonly fill: string; readonly xOffset?: number };
}

test('a mark for each way of each place that works, none elsewhere', () => {
  const { layer } = wouldWorkMap(map) as unknown as { layer: Layer[] };
  const [tried, ...marks] = layer as [Layer, ...Layer[]];
  expect(tried.data.values).toHaveLength(4);
  const drawn = marks.map(({ mark, data }) => [mark.shape, mark.fill, data.values.length]);
  expect(drawn).toEqual([
    ['square', 'var(--accent)', 1],
    ['square', 'var(--paper)', 1],
    ['triangle-up', 'var(--ink)', 1],
    ['circle', 'var(--muted)', 1],
    ['diamond', 'var(--paper)', 1],
  ]);
});

test('no two ways share a shape, a shade or a place in the cell', () => {
  for (const key of ['shape', 'fill', 'offset', 'sign'] as const) {
    expect(new Set(MARKED_WAYS.map((way) => WAY_MARKS[way][key])).size).toBe(MARKED_WAYS.length);
  }
});

test('it is drawn, with lengths and rates in both units', async () => {
  const { body } = await drawChart(wouldWorkMap(map));
  for (const text of ['240', '9.45', '30 (171)', '40 (228)']) expect(body).toContain(text);
});

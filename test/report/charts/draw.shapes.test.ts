import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { expect, test } from 'vitest';
import { chartOf } from '../../../src/report/charts/axes.ts';
import { drawChart, slimDown } from '../../../src/report/charts/draw.ts';

/** Bars over named places in a given order, and one of them framed: data of two kinds and a list that is no data. */
function bars(heights: readonly number[], framed: number): TopLevelSpec {
  const values = heights.map((height, place) => ({ place: `p${place}`, height }));
  const encoding = {
    x: { field: 'place', type: 'ordinal', scale: { domain: ['p2', 'p1', 'p0'] } },
    y: { field: 'height', type: 'quantitative', axis: { values: [0, 5, 10] }, scale: { domain: [0, 10] } },
  };
  const layer = (data: readonly object[], mark: object) => ({ data: { values: data }, mark, encoding });
  return chartOf(120, 80, [
    layer(values, { type: 'bar', fill: 'silver' }),
    layer(values, { type: 'tick', stroke: 'black' }),
    layer(values.slice(framed, framed + 1), { type: 'bar', fill: null, stroke: 'black' }),
  ]);
}

/** As Vega draws it by itself, without anything kept. */
async function alone(spec: TopLevelSpec): Promise<string> {
  vega.resetSVGDefIds();
  const view = new vega.View(vega.parse(compile(spec).spec), { renderer: 'none' });
  const svg = await view.toSVG();
  view.finalize();
  return slimDown(svg.replace(/^<svg[^>]*>|<\/svg>\s*$/g, ''));
}

test('charts that differ in their data alone are drawn as each by itself, a chart without data among them', async () => {
  const specs = [bars([1, 2, 3], 0), bars([9, 4, 2], 2), bars([5, 5], 7), bars([], 0), bars([1, 2, 3], 0)];
  const drawn: string[] = [];
  for (const spec of specs) drawn.push((await drawChart(spec)).body);
  // The text widths that Vega guesses are the same from here on.
  for (const [k, spec] of specs.entries()) expect(drawn[k]).toBe(await alone(spec));
  expect(drawn[4]).toBe(drawn[0]);
  expect(new Set(drawn).size).toBe(4);
});

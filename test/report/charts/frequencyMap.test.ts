import { expect, test } from 'vitest';
import { drawChart } from '../../../src/report/charts/draw.ts';
import { frequencyMap } from '../../../src/report/charts/frequencyMap.ts';

const MAP = {
  points: [
    { rank: 1, front: 1.6, rear: 1.8 },
    { rank: 2, front: 1.6, rear: 1.8 },
    { rank: 3, front: 1.9, rear: 2.0 },
  ],
  balance: { target: 1.1, from: 1, to: 1.2 },
  front: [1.4, 2] as const,
  rear: [1.5, 2.2] as const,
};

test('the best is a diamond of its own among circles, equal points share their ranks', async () => {
  const { body } = await drawChart(frequencyMap(MAP));
  expect(body.match(/fill="var\(--accent\)"/g)).toHaveLength(1);
  expect(body).toContain('>1, 2</text>');
  expect(body).toContain('>3</text>');
});

test('the band is cut to the plot: no edge lies outside it, nothing needs a clip', async () => {
  const { layer } = frequencyMap(MAP) as unknown as {
    layer: { data: { values: { low: number; high: number; front: number }[] } }[];
  };
  const edges = layer[0]?.data.values ?? [];
  expect(edges.length).toBeGreaterThanOrEqual(2);
  for (const { low, high, front } of edges) {
    expect(low).toBeGreaterThanOrEqual(1.4);
    expect(high).toBeLessThanOrEqual(2.3);
    // Inside the plot the edges are the ratios asked for.
    if (low > 1.4 + 1e-9) expect(low / front).toBeCloseTo(1, 9);
    if (high < 2.3 - 1e-9) expect(high / front).toBeCloseTo(1.2, 9);
  }
  expect((await drawChart(frequencyMap(MAP))).body).not.toMatch(/clip|url\(/);
});

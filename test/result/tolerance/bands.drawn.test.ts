/** Bands held against builds drawn at random within the tolerances. */
import { expect, test } from 'vitest';
import { cornerQuantities } from '../../../src/result/quantities/corner.ts';
import { keyOf, valuesOf } from '../../../src/result/quantities/quantity.ts';
import { judged, STUDIED_KEYS, toleranceBands } from '../../../src/result/tolerance/bands.ts';
import { type Model, offBy, TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { loaded, plain, tolerances } from './models.ts';

/** Park & Miller (1988) minimal standard generator: a published, seeded source of draws. */
function minimalStandard(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

/** Box & Muller (1958). */
const normal = (random: () => number) => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());

const READ = cornerQuantities([]).filter((q) => STUDIED_KEYS.includes(keyOf(q)));

/** Share of draws in which each studied quantity lies inside its worst-case and its rss band. */
function coverage(model: Model, draws: number, deviate: (random: () => number) => number) {
  const bands = toleranceBands(model, tolerances);
  const random = minimalStandard(20_240_617);
  const inputs = TOLERANCE_INPUTS.flatMap((input) => {
    const width = input.width(model, tolerances);
    return width === null ? [] : [{ input, width }];
  });
  const inside: Record<string, { seen: number; worst: number; rss: number }> = {};
  for (let k = 0; k < draws; k++) {
    const drawn = inputs.reduce((m, { input, width }) => input.moved(m, offBy(width, deviate(random))), model);
    const values = valuesOf(READ, judged(drawn));
    for (const key of STUDIED_KEYS) {
      const band = bands[key];
      const value = values[key] ?? null;
      if (!band || value === null) continue;
      const tally = inside[key] ?? { seen: 0, worst: 0, rss: 0 };
      tally.seen++;
      if (value >= band.worstLow - 1e-9 && value <= band.worstHigh + 1e-9) tally.worst++;
      if (value >= band.rssLow && value <= band.rssHigh) tally.rss++;
      inside[key] = tally;
    }
  }
  return Object.entries(inside).map(([key, n]) => {
    // A draw in which a metal contact leaves no height at all has no window end to look at.
    expect(n.seen / draws, key).toBeGreaterThan(0.999);
    return { key, worst: n.worst / n.seen, rss: n.rss / n.seen };
  });
}

test('of 100,000 builds drawn evenly inside all tolerances, the worst-case band holds all but a trace', () => {
  const found = [plain, loaded].flatMap((model) => coverage(model, 50_000, (r) => 2 * r() - 1));
  expect(found.length).toBeGreaterThan(20);
  for (const { key, worst } of found) expect(worst, key).toBeGreaterThan(0.9999);
});

test('of 100,000 builds with tolerances of two standard deviations, the rss band holds about 95 %', () => {
  const found = [plain, loaded].flatMap((model) => coverage(model, 50_000, (r) => normal(r) / 2));
  for (const { key, rss } of found) expect(rss, key).toBeGreaterThan(0.93);
});

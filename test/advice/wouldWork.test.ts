/** The map of what would work, against every combination and every step of a change judged one by one. */
import { expect, test } from 'vitest';
import { LIMITS, STEP } from '../../src/advice/changes.ts';
import { boreOver, genericHelpers, genericSpring } from '../../src/advice/generic.ts';
import { type Cell, stepsOver, type Way, wouldWork } from '../../src/advice/wouldWork.ts';
import { combinationCount, cornerAt } from '../../src/model/corner/options.ts';
import { type Corner, type Site, siteOf } from '../../src/model/corner/site.ts';
import { works } from '../../src/model/corner/verdict.ts';
import type { AxleOptions } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { smallScenario } from './small.ts';

const scenario = await smallScenario('hill-hatch', 2);
const [setup] = scenario.setups as [(typeof scenario.setups)[number]];

/** Steps of 0.5 mm between two values. */
function steps(least: number, most: number): number[] {
  const first = Math.ceil(least / STEP);
  return Array.from({ length: Math.floor(most / STEP) - first + 1 }, (_, k) => (first + k) * STEP);
}

/** Every corner that a way may lead to. */
const REACHED: Readonly<Record<Way, (corner: Corner, bore: number) => Corner[]>> = {
  as_listed: (corner) => [corner],
  trim: (corner) =>
    steps(0, Math.min(LIMITS.trim, corner.sleeve.length - STEP)).map((trim) => {
      return { ...corner, sleeve: { ...corner.sleeve, trim } };
    }),
  helper: (corner, bore) => genericHelpers(bore).map((helper) => ({ ...corner, helper })),
  mount: (corner) =>
    steps(corner.mount.bareRaise - LIMITS.lowerMount, corner.mount.bareRaise + LIMITS.higherMount).map((raise) => {
      return { ...corner, mount: { ...corner.mount, raise, bareRaise: raise, spacer: 0 } };
    }),
};

/** Whether any combination reaches a pass by a way, each judged in full. */
function isReached(site: Site, options: AxleOptions, { springs }: Cell, way: Way, solid: 'judged' | 'least'): boolean {
  const own = { ...options, spring: [springs[solid]] };
  const corners = Array.from({ length: combinationCount(own) }, (_, k) => cornerAt(own, k));
  return corners.some((corner) => REACHED[way](corner, springs[solid].bore).some((one) => works(site, one)));
}

test.each(['front', 'rear'] as const)(
  '%s: every mark stands where the model says so, and none is missing',
  { timeout: 300_000 },
  (axle) => {
    const { options } = scenario.axles[axle];
    const plain = siteOf(scenario, setup, axle);
    const seen = { marks: 0, blanks: 0, least: 0 };
    // As wished, or so low that listed parts alone seldom do.
    const lower = axle === 'front' ? 0 : 12;
    const site = { ...plain, target: { ...plain.target, targetHeight: plain.target.targetHeight - lower } };
    const { cells, map } = finish(wouldWork({ site, options, nearest: cornerAt(options, 0), isBalanced: null }));
    expect(map.cells).toHaveLength(map.lengths_mm.length * map.rates_n_per_mm.length);
    for (const cell of cells) {
      for (const way of ['as_listed', 'trim', 'helper', 'mount'] as const) {
        const made = cell.ways[way];
        if (made !== null) expect(works(site, made.corner)).toBe(true);
        if (way !== 'as_listed' && cell.ways.as_listed?.solid === 'judged') continue;
        const judged = isReached(site, options, cell, way, 'judged');
        if (judged) expect(made?.solid).toBe('judged');
        else if (way === 'as_listed' || cell.ways.as_listed === null) {
          expect(made?.solid ?? null).toBe(isReached(site, options, cell, way, 'least') ? 'least' : null);
        }
        seen[made === null ? 'blanks' : 'marks']++;
        if (made?.solid === 'least') seen.least++;
      }
    }
    expect(Math.min(seen.marks, seen.blanks, seen.least)).toBeGreaterThan(3);
  },
);

test('one place of the map is one scenario whose only spring is of that size', () => {
  const site = siteOf(scenario, setup, 'front');
  const { options } = scenario.axles.front;
  const nearest = cornerAt(options, 0);
  const { map } = finish(wouldWork({ site, options, nearest, isBalanced: null }));
  const bore = boreOver(nearest, site.margins.passing);
  for (const { free_length_mm, rate_n_per_mm, solid_height_mm, least_solid_height_mm } of map.cells) {
    const height = (end: 'judged' | 'least') => genericSpring(free_length_mm, rate_n_per_mm, bore, end).solid.height;
    expect(solid_height_mm).toBeCloseTo(height('judged'), 1);
    expect(least_solid_height_mm).toBeCloseTo(height('least'), 1);
  }
  expect(map).toMatchObject({
    bore_mm: bore,
    trim_to_mm: 60,
    mount_lower_mm: 20,
    mount_higher_mm: 40,
    balanced: false,
  });
});

test('what passes and is out of balance with the other axle is no mark', () => {
  const site = siteOf(scenario, setup, 'front');
  const { options } = scenario.axles.front;
  const wished = { site, options, nearest: cornerAt(options, 0) };
  const marks = (isBalanced: ((corner: Corner) => boolean) | null) =>
    finish(wouldWork({ ...wished, isBalanced }))
      .cells.flatMap(({ ways }) => Object.values(ways))
      .filter((made) => made !== null);
  expect(marks(null).length).toBeGreaterThan(0);
  expect(marks(() => false)).toEqual([]);
  expect(marks(() => true)).toEqual(marks(null));
});

test('of long lists of parts so many are tried, spread evenly, and it is said how many', () => {
  const site = siteOf(scenario, setup, 'rear');
  const { options } = scenario.axles.rear;
  const long = {
    ...options,
    sleeve: Array.from({ length: 300 }, (_, k) => ({ ...(options.sleeve[0] as Corner['sleeve']), trim: k / 5 })),
  };
  const { map } = finish(wouldWork({ site, options: long, nearest: cornerAt(long, 0), isBalanced: null }));
  expect(map.looked_at).toBeLessThanOrEqual(200);
  expect(map.combinations).toBe(combinationCount({ ...long, spring: [long.spring[0] as Corner['spring']] }));
});

test('rates follow from the wished frequencies, or lie around the spring there is where no spring gives them', () => {
  const { options } = scenario.axles.front;
  const site = siteOf(scenario, setup, 'front');
  const rates = (target: Partial<Site['target']>, tyreRate = site.tyreRate) => {
    const own = { ...site, frequencyBasis: 'ride' as const, tyreRate, target: { ...site.target, ...target } };
    return finish(wouldWork({ site: own, options, nearest: cornerAt(options, 0), isBalanced: null })).map
      .rates_n_per_mm;
  };
  const { rate } = options.spring[0] as Corner['spring'];
  // The tyre alone is softer than 9 Hz ask for: nothing but the spring there is to start from.
  expect(Math.max(...rates({ frequencyFrom: 9, frequencyTo: 10 }))).toBeLessThanOrEqual(2.2 * rate);
  expect(Math.max(...rates({ frequencyFrom: 9, frequencyTo: 10 }))).toBeGreaterThan(rate);
  // Only the upper end is out of reach: twice the rate of the lower one.
  const half = rates({ frequencyFrom: 1.5, frequencyTo: 10 });
  expect(Math.max(...half) / Math.min(...half)).toBeGreaterThan(1.5);
  // Gas and bushes alone are stiffer than 0.05 Hz: a quarter of the upper end.
  const soft = rates({ frequencyFrom: 0.05, frequencyTo: 1.9 });
  expect(Math.max(...soft) / Math.min(...soft)).toBeGreaterThanOrEqual(3);
});

test.each([
  ['lengths', 231, 312, [240, 250, 260, 270, 280, 290, 300, 310]],
  ['lengths', 231, 342, [240, 255, 270, 285, 300, 315, 330]],
  ['lengths', 236, 249, [240, 245]],
  ['lengths', 231, 233, [235]],
  ['rates', 24.3, 55, [30, 36, 42, 48, 54]],
  ['rates', 0.2, 0.4, [1]],
  ['rates', 10_000, 90_000, [10_000, 11_000, 12_000, 13_000, 14_000, 15_000]],
] as const)('%s from %f to %f are few, on a round step, at least one', (what, from, to, steps) => {
  expect(stepsOver(what, from, to)).toEqual(steps);
});

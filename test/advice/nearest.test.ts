import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nearestSprings } from '../../src/advice/nearest.ts';
import { type Listed, listedOf, pickedDigits, trialsOf } from '../../src/advice/trials.ts';
import { MOST_LISTED, whyNot } from '../../src/advice/whyNot.ts';
import { siteOf } from '../../src/model/corner/site.ts';
import type { Spring } from '../../src/model/parts.ts';
import { AXLE_NAMES, type AxleName, type Scenario } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { bentPairs, plainCorner } from '../setup/corners.ts';
import { smallScenario } from '../setup/planScenarios.ts';
import { forAny } from '../setup/random.ts';
import { scenarioOf } from './scenarios.ts';

/** Every spring tried on every combination; equal distances in the order of the list. */
function nearestOfAll(listed: Listed, springs: readonly number[], count: number): number[] {
  const distances = new Map(springs.map((spring) => [spring, trialsOf(listed, spring)[0]?.distance as number]));
  const distance = (spring: number) => distances.get(spring) as number;
  return [...springs].sort((a, b) => distance(a) - distance(b) || a - b).slice(0, count);
}

const plainSpring = plainCorner().spring;
const randomSpring = fc
  .record({
    freeLength: fc.constantFrom(150, 180, 210, 235, 250, 300, 400),
    rate: fc.constantFrom(15, 24, 32, 38, 44, 60, 120),
    solid: fc.constantFrom(0.25, 0.4, 0.6),
  })
  .map(({ solid, ...spring }): Spring => {
    return { ...plainSpring, ...spring, solid: { ...plainSpring.solid, height: solid * spring.freeLength } };
  });
const manySprings = fc.array(randomSpring, { minLength: 6, maxLength: 14 });

test('the nearest springs are those of all tried one by one, whatever parts and setup', () => {
  const seen = new Set<number>();
  forAny(
    [smallScenario, manySprings, fc.integer({ min: 1, max: 5 }), fc.constantFrom<AxleName>('front', 'rear')],
    300,
    (scenario, spring, count, axle) => {
      const options = { ...scenario.axles[axle].options, spring };
      const [setup] = scenario.setups;
      if (setup === undefined) throw new Error('no setup');
      const site = siteOf(scenario, setup, axle);
      const listed = listedOf(site, options, [], pickedDigits(options, 20_000));
      const springs = spring.flatMap((_, k) => (k % 5 === 4 ? [] : [k]));
      const expected = nearestOfAll(listed, springs, count);
      for (const at of expected) seen.add(at);
      expect(nearestSprings(listed, springs, count)).toEqual(expected);
    },
  );
  expect(seen.size).toBeGreaterThan(8);
});

test('where gas alone holds the car, stable or not, the bounds still drop no spring', () => {
  const push = { kind: 'linear', outForce: 200, inForce: 200 } as const;
  forAny([smallScenario, manySprings, fc.constantFrom(-1e-3, 1e-3)], 60, (scenario, spring, slope) => {
    const [setup] = scenario.setups;
    if (setup === undefined) throw new Error('no setup');
    const { front } = scenario.axles;
    const damper = front.options.damper.map((one) => ({ ...one, gas: push }));
    const options = { ...front.options, damper, spring };
    const axle = { ...front, options, motion: { pairs: bentPairs(0.945, slope), ratio: null } };
    const site = {
      ...siteOf({ ...scenario, axles: { ...scenario.axles, front: axle } }, setup, 'front'),
      sprungLoad: 20,
    };
    const listed = listedOf(site, options, [], pickedDigits(options, 20_000));
    const springs = spring.map((_, k) => k);
    expect(nearestSprings(listed, springs, 3)).toEqual(nearestOfAll(listed, springs, 3));
  });
});

/** A demo with every length and rate of a grid, `count` of them. */
async function withGrid(count: number): Promise<Scenario> {
  const scenario = await scenarioOf('hill-hatch');
  const axles = AXLE_NAMES.map((axle) => {
    const { options } = scenario.axles[axle];
    const [first] = options.spring as readonly [Spring];
    const spring = Array.from({ length: count }, (_, k): Spring => {
      const [freeLength, rate] = [150 + ((k * 37) % 250), 90 + ((k * 13) % 60)];
      return { ...first, name: `spring ${k}`, freeLength, rate, solid: { ...first.solid, height: 0.4 * freeLength } };
    });
    return [axle, { ...scenario.axles[axle], options: { ...options, spring } }];
  });
  return { ...scenario, axles: Object.fromEntries(axles) };
}

function whyNotIn(scenario: Scenario, springs: readonly number[]) {
  const [setup] = scenario.setups;
  if (setup === undefined) throw new Error('no setup');
  const { options } = scenario.axles.front;
  const site = siteOf(scenario, setup, 'front');
  const report = finish(whyNot({ site, options, otherHelpers: [], springs }));
  return { report, listed: listedOf(site, options, [], pickedDigits(options, 20_000)) };
}

const places = (count: number) => Array.from({ length: count }, (_, k) => k);

test('up to 60 springs that never work are all listed in their order, of more the 50 nearest, and the rest is counted', async () => {
  const few = whyNotIn(await withGrid(MOST_LISTED.all), places(MOST_LISTED.all)).report;
  expect(few.springs.map(({ spring }) => spring)).toEqual(places(MOST_LISTED.all).map((k) => `spring ${k}`));
  expect(few.not_listed).toBeUndefined();

  const many = places(MOST_LISTED.all + 1);
  const { report, listed } = whyNotIn(await withGrid(many.length), many);
  const expected = nearestOfAll(listed, many, MOST_LISTED.nearest);
  expect(report.springs.map(({ spring }) => spring)).toEqual(expected.map((k) => `spring ${k}`));
  expect(report.not_listed).toBe(many.length - MOST_LISTED.nearest);
  expect(report.looked_at).toBe(report.combinations);
});

test('where thousands never work the lists are thinned, and it is said how many combinations were looked at', async () => {
  const many = places(50_000);
  const scenario = await withGrid(many.length);
  const { report } = whyNotIn(scenario, many);
  expect(report.springs).toHaveLength(MOST_LISTED.nearest);
  expect(report.looked_at).toBeLessThan(report.combinations);
});

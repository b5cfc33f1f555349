/** The cars behind a scenario's numbers: the same for every purchase, and what the bench shows of them. */
import { expect, test } from 'vitest';
import { carsOf, DRAWS, drawsOf } from '../../src/advice/cars.ts';
import { builtOn, drawBuilds } from '../../src/advice/randomBuilds.ts';
import { cornerAt } from '../../src/model/corner/options.ts';
import { siteOf } from '../../src/model/corner/site.ts';
import { wilsonInterval } from '../../src/model/formula/share.ts';
import type { Scenario, Setup, Tolerances } from '../../src/model/scenario.ts';
import { offBy, TOLERANCE_INPUTS } from '../../src/result/tolerance/inputs.ts';
import { noTolerances } from '../setup/corners.ts';
import { scenarioOf } from './scenarios.ts';

const scenario = await scenarioOf('loaded-estate');
const { options } = scenario.axles.rear;
const site = siteOf(scenario, scenario.setups[0] as Setup, 'rear');
const bench = { site, options };
const placeOf = (id: string) => TOLERANCE_INPUTS.findIndex((input) => input.id === id);

const carsWith = (tolerances: Partial<Tolerances>, measuredBeforeCutting: Scenario['measuredBeforeCutting']) =>
  carsOf(bench, { tolerances: { ...noTolerances, ...tolerances }, measuredBeforeCutting }, 40);

test('every option of a part is off by the same draw of its own width, so that purchases meet on the same cars', () => {
  const cars = carsWith({ freeLength: 3, stopLength: 2 }, []);
  const draws = drawsOf('rear', 40);
  for (let k = 0; k < cars.count; k++) {
    const { errors } = draws[k] as (typeof draws)[number];
    const moved = cars.truth(k).options;
    for (const [s, spring] of moved.spring.entries()) {
      const nominal = options.spring[s] as typeof spring;
      expect(spring.freeLength - nominal.freeLength).toBeCloseTo(3 * (errors[placeOf('free_length')] as number), 10);
      expect(spring.rate).toBe(nominal.rate);
    }
    for (const [s, stop] of moved.bumpStop.entries())
      expect(stop.length - (options.bumpStop[s] as typeof stop).length).toBeCloseTo(
        2 * (errors[placeOf('stop_length')] as number),
        10,
      );
  }
});

test('the bench shows what is measured there within its reading error, and all else at its nominal', () => {
  const tolerances = {
    freeLength: 3,
    rateShare: 0.1,
    wheelLoadShare: 0.05,
    sleeve: 2,
    reading: 0.5,
    readingShare: 0.01,
  };
  const lengths = carsWith(tolerances, ['lengths']);
  const all = carsWith(tolerances, ['lengths', 'rates', 'loads']);
  const reads: number[] = [];
  for (let k = 0; k < lengths.count; k++) {
    const [truth, shown, more] = [lengths.truth(k), lengths.shown(k), all.shown(k)];
    const [spring, seen, pressed] = [truth, shown, more].map((one) => one.options.spring[0]) as [
      (typeof truth.options.spring)[0],
      (typeof truth.options.spring)[0],
      (typeof truth.options.spring)[0],
    ];
    reads.push(seen.freeLength - spring.freeLength);
    const nominal = options.spring[0] as typeof spring;
    expect(seen.rate).toBe(nominal.rate);
    expect(Math.abs(pressed.rate - spring.rate) / nominal.rate).toBeLessThanOrEqual(0.01);
    expect(shown.site.sprungMass).toBe(site.sprungMass);
    expect(Math.abs(more.site.sprungMass - truth.site.sprungMass)).toBeLessThanOrEqual(
      0.01 * (site.sprungMass + site.unsprungMass) + 1e-9,
    );
    // A saw's error shows only once it has cut; the ledge is measured.
    expect(shown.options.sleeve[0]?.length).toBe(options.sleeve[0]?.length);
    expect(
      Math.abs((shown.options.sleeve[0]?.ledgeHeight ?? 0) - (truth.options.sleeve[0]?.ledgeHeight ?? 0)),
    ).toBeLessThanOrEqual(0.5);
  }
  expect(Math.max(...reads.map(Math.abs))).toBeLessThanOrEqual(0.5);
  expect(Math.max(...reads)).toBeGreaterThan(0.3);
  expect(Math.min(...reads)).toBeLessThan(-0.3);
});

test('what would be read no better than it is known stays at its nominal', () => {
  const cars = carsWith({ diameter: 0.1, mount: 1, reading: 0.5 }, ['lengths']);
  for (let k = 0; k < cars.count; k++) {
    const { sleeve, mount } = cars.shown(k).options;
    expect(sleeve[0]?.bore).toBe(options.sleeve[0]?.bore);
    expect(cars.truth(k).options.sleeve[0]?.bore).not.toBe(options.sleeve[0]?.bore);
    expect(mount[0]?.raise).not.toBe(options.mount[0]?.raise);
  }
});

test('a model built car by car is the axle of the same car', () => {
  const { tolerances, measuredBeforeCutting, ranking } = scenario;
  const cars = carsOf(bench, { tolerances, measuredBeforeCutting });
  const index = 777;
  const drawn = drawBuilds({ site, corner: cornerAt(options, index) }, tolerances);
  expect(drawn).toHaveLength(DRAWS.count);
  for (let k = 0; k < cars.count; k += 16) {
    const truth = cars.truth(k);
    const { frequency, failing } = builtOn(truth.site, cornerAt(truth.options, index), ranking);
    expect({ frequency, failing }).toEqual(drawn[k]);
  }
});

test('an estimated spread that leans to one side leans in the cars too', () => {
  const leaning = {
    ...options,
    spring: options.spring.map((spring) => ({
      ...spring,
      solid: { ...spring.solid, least: spring.solid.height - 1, most: spring.solid.height + 9 },
    })),
  };
  const cars = carsOf({ site, options: leaning }, { tolerances: noTolerances, measuredBeforeCutting: [] }, 400);
  const off = Array.from(
    { length: cars.count },
    (_, k) => (cars.truth(k).options.spring[0]?.solid.height ?? 0) - (options.spring[0]?.solid.height ?? 0),
  );
  expect(Math.min(...off)).toBeGreaterThanOrEqual(-1 - 1e-9);
  expect(Math.max(...off)).toBeLessThanOrEqual(9 + 1e-9);
  expect(off.reduce((sum, one) => sum + one, 0) / off.length).toBeCloseTo(offBy({ down: 1, up: 9 }, 0), 0);
});

test('of stretches of 512 cars nineteen in twenty hold the share of 40,000 in their interval', async () => {
  const hatch = await scenarioOf('hill-hatch');
  const [low] = hatch.setups as readonly [Setup];
  const model = { site: siteOf(hatch, low, 'front'), corner: cornerAt(hatch.axles.front.options, 2693) };
  const works = drawBuilds(model, hatch.tolerances, 40_000).map(({ failing }) => (failing === null ? 1 : 0) as number);
  const shareOf = (some: readonly number[]) => some.reduce((sum, one) => sum + one, 0) / some.length;
  const share = shareOf(works);
  expect(share).toBeGreaterThan(0.2);
  expect(share).toBeLessThan(0.95);
  const stretches = Array.from({ length: 78 }, (_, k) => works.slice(512 * k, 512 * (k + 1)));
  const held = stretches.filter((stretch) => {
    const { low: least, high: most } = wilsonInterval(shareOf(stretch), 512);
    return least <= share && share <= most;
  });
  // Of 78 trials at 0.95, three standard errors: 0.95 - 3 x sqrt(0.95 x 0.05 / 78).
  expect(held.length / 78).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / 78));
});

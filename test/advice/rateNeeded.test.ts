import { expect, test } from 'vitest';
import { rateForFrequency, rateNeeded } from '../../src/advice/rateNeeded.ts';
import { cornerAt } from '../../src/model/corner/options.ts';
import { judgedFrequency } from '../../src/model/corner/rates.ts';
import { siteOf } from '../../src/model/corner/site.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { motionCurve } from '../../src/model/motion.ts';
import { AXLE_NAMES } from '../../src/model/scenario.ts';
import { plainCorner, plainSite } from '../setup/corners.ts';
import { NAMES, scenarioOf } from './scenarios.ts';

test.each(NAMES)('a spring of the rate found for %s gives the frequency asked for', async (name) => {
  const scenario = await scenarioOf(name);
  for (const setup of scenario.setups) {
    for (const axle of AXLE_NAMES) {
      for (const frequencyBasis of ['body', 'ride'] as const) {
        const site = { ...siteOf(scenario, setup, axle), frequencyBasis };
        const corner = { ...cornerAt(scenario.axles[axle].options, 0), helper: null };
        const rate = rateForFrequency(site, corner, 1.6);
        // A spring long enough that it never goes solid, so that only its rate matters.
        const spring = {
          ...corner.spring,
          rate: rate ?? Number.NaN,
          freeLength: 900,
          solid: { ...corner.spring.solid, height: 50 },
        };
        expect(judgedFrequency(cornerState(site, { ...corner, spring }))).toBeCloseTo(1.6, 9);
      }
    }
  }
});

test('no rate where the tyre is softer than the ride rate asked for', async () => {
  const scenario = await scenarioOf('hill-hatch');
  const [setup] = scenario.setups as [(typeof scenario.setups)[number]];
  const site = { ...siteOf(scenario, setup, 'front'), frequencyBasis: 'ride' as const };
  const corner = cornerAt(scenario.axles.front.options, 0);
  expect(rateForFrequency(site, corner, 20)).toBeNull();
  const needed = rateNeeded(site, corner, scenario.axles.front.options.spring, { frequency: 20, from: 'wanted' }, 0.05);
  expect(needed).toMatchObject({ rate_n_per_mm: null, listed: false, nearest: [] });
});

test('a listed rate counts as found within its tolerance and not beyond; the nearest two rates are named', async () => {
  const scenario = await scenarioOf('hill-hatch');
  const [setup] = scenario.setups as [(typeof scenario.setups)[number]];
  const site = siteOf(scenario, setup, 'front');
  const corner = cornerAt(scenario.axles.front.options, 0);
  const { spring } = scenario.axles.front.options;
  const aim = { frequency: 1.85, from: 'wanted' as const };
  const { rate_n_per_mm: rate, nearest } = rateNeeded(site, corner, spring, aim, 0.05);
  const off = Math.min(...spring.map((s) => Math.abs(s.rate / (rate ?? Number.NaN) - 1)));
  expect(Math.abs(nearest[0]?.off_pct ?? Number.NaN)).toBeCloseTo(100 * off, 1);
  expect(new Set(nearest.map((n) => n.rate_n_per_mm)).size).toBe(2);
  expect(rateNeeded(site, corner, spring, aim, off / 2).listed).toBe(false);
  expect(rateNeeded(site, corner, spring, aim, off * 1.1).listed).toBe(true);
});

test('no rate where twisted bushes alone are stiffer than what the frequency asks for', async () => {
  const scenario = await scenarioOf('hill-hatch');
  const [setup] = scenario.setups as [(typeof scenario.setups)[number]];
  const site = { ...siteOf(scenario, setup, 'front'), bushes: { rate: 400, unloadedHeight: 345 } };
  expect(rateForFrequency(site, cornerAt(scenario.axles.front.options, 0), 1.5)).toBeNull();
});

test('the rate for a frequency by hand, and the nearest of a list: two rates, one spring each, how far off they are', () => {
  // No gas and a straight motion of 0.945: k = m (2 pi f)^2 / 1000 / MR^2.
  const motion = motionCurve({ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: 0.945 });
  const site = plainSite({ motion });
  const corner = plainCorner({ damper: { ...plainCorner().damper, gas: { kind: 'none' } } });
  const rateOf = (frequency: number) => (237 * (2 * Math.PI * frequency) ** 2) / 1000 / 0.945 ** 2;
  const spring = (name: string, rate: number) => ({ ...corner.spring, name, rate });
  const list = [
    spring('soft', 30),
    spring('low', 37.1264),
    spring('twin', 37.1264),
    spring('high', 41),
    spring('hard', 60),
  ];
  const needed = rateNeeded(site, corner, list, { frequency: 1.9, from: 'wanted' }, 0.01);
  const rate = rateOf(1.9);
  expect(rate).toBeCloseTo(37.82, 2);
  expect(needed).toMatchObject({ from: 'wanted', frequency_hz: 1.9, listed: false });
  expect(needed.rate_n_per_mm).toBe(37.82);
  expect(needed.least_n_per_mm).toBeCloseTo(rateOf(1.2), 2);
  expect(needed.most_n_per_mm).toBeCloseTo(rateOf(2.6), 2);
  // 37.1264 is shown to hundredths: 1.8 % too soft; 41 is 8.4 % too hard.
  expect(needed.nearest).toEqual([
    { spring: 'low', rate_n_per_mm: 37.13, off_pct: -1.8 },
    { spring: 'high', rate_n_per_mm: 41, off_pct: 8.4 },
  ]);
  // On its tyre: k_w k_t / (k_w + k_t) is what the frequency asks for.
  const ride = { ...site, frequencyBasis: 'ride' as const };
  const judged = (237 * (2 * Math.PI * 1.7) ** 2) / 1000;
  expect(rateForFrequency(ride, corner, 1.7)).toBeCloseTo((judged * 190) / (190 - judged) / 0.945 ** 2, 9);
  // The body may swing faster than the tyre alone would let it.
  expect(rateForFrequency(site, corner, 5)).toBeCloseTo(rateOf(5), 9);
  expect(rateForFrequency(ride, corner, 5)).toBeNull();
});

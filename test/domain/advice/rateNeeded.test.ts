import { expect, test } from 'vitest';
import { rateForFrequency, rateNeeded } from '../../../src/domain/advice/rateNeeded.ts';
import { judgedFrequency } from '../../../src/domain/corner/findings.ts';
import { siteOf } from '../../../src/domain/corner/site.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import { AXLE_NAMES } from '../../../src/domain/scenario.ts';
import { cornerAt } from '../../../src/sweep/options.ts';
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

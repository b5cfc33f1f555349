import { expect, test } from 'vitest';
import { forcesAt } from '../../../src/model/corner/balance.ts';
import { CHECKS, findingMessage } from '../../../src/model/corner/checks.ts';
import { findingsOf, firstFailure, marginsOf } from '../../../src/model/corner/findings.ts';
import { judgedFrequencyOf } from '../../../src/model/corner/rates.ts';
import type { Site } from '../../../src/model/corner/site.ts';
import { type CornerState, cornerState } from '../../../src/model/corner/state.ts';
import { ratioAt } from '../../../src/model/motion.ts';
import {
  anyCorner,
  anyFullCorner,
  anyFullSite,
  anySite,
  type CornerChange,
  plainCorner,
  plainSite,
  type SiteChange,
  stopCurve,
} from '../../setup/corners.ts';
import { forAny } from '../../setup/random.ts';

const base = plainCorner();
const good = { tyreOnArchHeight: 240, target: { allowedSlack: 8 } };
const failing = (site: SiteChange, corner: CornerChange) =>
  findingsOf(cornerState(plainSite({ ...good, ...site }), plainCorner(corner))).map((f) => f.check);

test('the plain corner works once its tyre is off the arch', () => {
  expect(failing({}, {})).toEqual([]);
});

test('each check fails where it is made to', () => {
  const { target } = good;
  const cases: [string, SiteChange, CornerChange][] = [
    ['fit', {}, { sleeve: { outerDiameter: 59.5 } }],
    ['unloaded_spring', {}, { damper: { gas: { kind: 'linear', outForce: 3000, inForce: null } } }],
    ['damper_bottoms', {}, { damper: { compressed: 332 } }],
    ['sleeve_metal', {}, { sleeve: { trim: 0, ledgeHeight: 175 } }],
    ['body_metal', {}, { isolator: { name: 'i', price: null, thickness: 14, bore: 49, spigot: 0 } }],
    ['tyre_on_arch', { tyreOnArchHeight: 262 }, {}],
    ['bump_travel', { target: { ...target, leastBumpTravel: 60 } }, {}],
    ['droop_travel', { target: { ...target, leastDroopTravel: 80 } }, {}],
    ['perch_low', {}, { perch: { height: 60 } }],
    ['perch_high', {}, { perch: { inset: 70 } }],
    ['coil_bind', {}, { spring: { solid: { height: 86 } } }],
    ['spring_loose', { target: { ...target, allowedSlack: 5 } }, {}],
    ['spring_loose', { target: { ...target, allowedSlack: 20 } }, { perch: { engagement: 5 } }],
    ['frequency', { target: { ...target, frequencyTo: 1.8 } }, {}],
  ];
  for (const [check, site, corner] of cases) expect(failing(site, corner), check).toContain(check);
});

test('a known wire is checked for stress at full bump, an estimated one is not', () => {
  const thin = {
    diameter: 7.5,
    activeCoils: 5,
    totalCoils: 7,
    material: 'chrome_silicon',
    materialGiven: true,
    estimated: false,
  };
  expect(failing({}, { spring: { wire: thin } })).toContain('overstressed');
  expect(failing({}, { spring: { wire: { ...thin, estimated: true } } })).toEqual([]);
});

test('a light state governs droop, a heavy one bump', () => {
  const load = (name: string, extra: number) => ({
    name,
    sprungMass: 237 + extra,
    sprungLoad: (237 + extra) * 9.80665,
  });
  const heavy = plainSite({ ...good, loads: [load('luggage', 90)] });
  const light = plainSite({ ...good, loads: [load('empty', -150)] });
  const detailOf = (site: Site) => findingsOf(cornerState(site, base)).map((f) => `${f.check}: ${f.detail}`);
  expect(detailOf(heavy)).toContain('bump_travel: luggage');
  expect(detailOf(light)).toContain('droop_travel: empty');
});

test('the first failure is the first of all findings, which come in the fixed order', () => {
  forAny([anySite, anyCorner], (site, corner) => {
    const state = cornerState(site, corner);
    const found = findingsOf(state);
    expect(firstFailure(state)).toBe(found[0]?.check ?? null);
    const places = found.map((f) => CHECKS.indexOf(f.check));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    for (const finding of found) {
      expect(finding.shortfall).toBeGreaterThanOrEqual(0);
      expect(findingMessage(finding)).not.toMatch(/NaN|undefined|Infinity/);
    }
  });
});

test('a car that may stand on its stop is held to the closed stop, any other to the stop just met', () => {
  // Negative travel to the stop is what such a setup asks for.
  const target = { ...good.target, targetHeight: 258, leastBumpTravel: -40, wantedFrom: 255, wantedTo: 262 };
  const into = (standingOnStop: boolean) =>
    findingsOf(cornerState(plainSite({ target, standingOnStop }), base)).find((f) => f.detail === 'clear of the stop');
  expect(into(true)).toBeUndefined();
  expect(into(false)?.found).toBeLessThan(0);
});

test('on its stop a car holds every load state clear of the closed stop, to the load that spring, gas and stop carry there', () => {
  const corner = plainCorner({ bumpStop: { curve: stopCurve } });
  const target = { ...good.target, targetHeight: 285, leastBumpTravel: -40, wantedFrom: 280, wantedTo: 290 };
  const under = (extra: number, standingOnStop = true) => {
    const sprungMass = 237 + extra;
    const loads = [{ name: 'luggage', sprungMass, sprungLoad: sprungMass * 9.80665 }];
    const site = plainSite({ ...good, target, standingOnStop, loads, heaviestLoad: sprungMass * 9.80665 });
    const state = cornerState(site, corner);
    const found = findingsOf(state).filter((f) => f.check === 'bump_travel' && f.detail.includes('luggage'));
    return { state, found };
  };
  // What is carried with the stop closed, added up part by part: the other way round than the finding looks.
  const { state } = under(0);
  const { site, geometry, standing } = state;
  const { load } = forcesAt(site, corner, geometry, geometry.closedHeight, standing.perch);
  const most = load / 9.80665 - 237;
  expect(under(most - 0.01).found).toEqual([]);
  const [over] = under(most + 0.01).found;
  expect(over?.shortfall).toBeLessThan(0.01);
  const [tons] = under(2000).found;
  // Higher by the force that is lacking over the spring's rate, as long as the spring has travel: closed form F = k x.
  const lacking = (f: number) => (f * 9.80665) / ratioAt(site.motion, geometry.closedHeight) / 38;
  expect(tons?.shortfall).toBeCloseTo(Math.min(lacking(2000 - most), 144 - deflectionAt(state)), 6);
  expect(tons && findingMessage(tons)).toMatch(
    /^Under luggage the car would close its bump stop fully and rest on metal/,
  );
});

/** Deflection of the spring with the stop closed, perch as it stands. */
function deflectionAt({ site, corner, geometry, standing }: CornerState): number {
  return forcesAt(site, corner, geometry, geometry.closedHeight, standing.perch).deflection;
}

test('a wheel rate that is not above 0 is told as such, not as a frequency', () => {
  const state = cornerState(plainSite(good), base);
  const unstable = findingsOf({ ...state, rates: { ...state.rates, settledWheel: -2 } });
  expect(unstable).toEqual([{ check: 'frequency', detail: 'unstable', found: -2, needed: 0, shortfall: 2 }]);
});

test('a setup that is judged on its tyre has wheel and tyre rate in series', () => {
  const body = judgedFrequencyOf(plainSite(), 30, 237);
  const ride = judgedFrequencyOf(plainSite({ frequencyBasis: 'ride' }), 30, 237);
  // 30 and 190 N/mm in series.
  expect((ride / body) ** 2).toBeCloseTo(190 / 220, 12);
});

import fc from 'fast-check';

test('a corner lacks something exactly where a margin is below 0, by what the finding misses', () => {
  const met = new Set<string>();
  forAny([anyFullSite, anyFullCorner], 400, (site, corner) => {
    const state = cornerState(site, corner);
    fc.pre(state.rates.wheel > 0);
    const lacking = marginsOf(state).filter(({ value }) => value < 0);
    const findings = findingsOf(state);
    expect(lacking.length > 0).toBe(findings.length > 0);
    const missing = lacking.map(({ value }) => -value);
    for (const { check, shortfall } of findings) {
      expect(
        missing.some((value) => Math.abs(value - shortfall) < 1e-9),
        check,
      ).toBe(true);
    }
    for (const { check, detail } of lacking) met.add(`${check} ${detail}`);
  });
  for (const name of ['bump_travel clear of the stop', 'bump_travel design load', 'droop_travel design load'])
    expect(met).toContain(name);
  for (const name of ['perch_low lowest', 'perch_high highest', 'spring_loose allowed slack'])
    expect(met).toContain(name);
  for (const name of ['overstressed solid', 'overstressed full bump']) expect(met).toContain(name);
});

/** What the search for cures skips, held against looking at every step and every combination. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CHANGES, type ContinuousChange, leastStep, STEP } from '../../src/advice/changes.ts';
import { findFirstWorking } from '../../src/advice/cure.ts';
import { CLOSEST, pairCure } from '../../src/advice/pairCure.ts';
import { listedOf, pickedDigits, trialsOf } from '../../src/advice/trials.ts';
import { curesOf } from '../../src/advice/whyNot.ts';
import { type Finding, findingsOf, findingsOnSeat } from '../../src/model/corner/findings.ts';
import { cornerAt } from '../../src/model/corner/options.ts';
import { type Corner, type Site, siteOf } from '../../src/model/corner/site.ts';
import type { CornerState } from '../../src/model/corner/state.ts';
import { findingsAt, lightState, works } from '../../src/model/corner/verdict.ts';
import type { DamperBody } from '../../src/model/parts.ts';
import { type AxleOptions, FAMILIES, type Setup } from '../../src/model/scenario.ts';
import { anyFullCorner, anyFullSite, plainCorner, plainHelper, plainSite } from '../setup/corners.ts';
import { scenarioOf } from './scenarios.ts';

const change = (kind: string) => CHANGES.find((one) => one.kind === kind) as ContinuousChange;

/** The first step outwards that works, every step looked at. */
function scanned(site: Site, corner: Corner, one: ContinuousChange, way: 1 | -1): number | null {
  const from = one.get(corner);
  const [least, most] = one.limits(corner);
  const first = way * Math.ceil((way * from) / STEP + 1e-6);
  for (let value = first * STEP; value >= least && value <= most; value += way * STEP) {
    if (works(site, one.set(corner, value))) return value;
  }
  return null;
}

/** Few limits of the setup's own, so that many corners come close to working. */
const anyCloseSite = anyFullSite.map((site) => ({
  ...site,
  target: { ...site.target, leastBumpTravel: 20, leastDroopTravel: 10, allowedSlack: 30 },
  standingOnStop: false,
}));

/** Mounts whose raise is made of what they raise bare and the spacer, as every mount that is read from a file. */
const anyTrueCorner = anyFullCorner.map((corner) => {
  const { raise, spacer } = corner.mount;
  return { ...corner, mount: { ...corner.mount, bareRaise: raise - spacer } };
});

test('a walk that skips what can’t work finds the same first step as one that looks at all', () => {
  let found = 0;
  fc.assert(
    fc.property(
      anyCloseSite,
      anyTrueCorner,
      fc.constantFrom(...CHANGES),
      fc.constantFrom(1, -1),
      (site, corner, one, way) => {
        const findings = findingsAt(site, corner);
        fc.pre(findings.length > 0 && findings.length < 4);
        const first = scanned(site, corner, one, way as 1 | -1);
        if (first !== null) found++;
        expect(findFirstWorking(site, { corner, findings }, one, way as 1 | -1, Number.POSITIVE_INFINITY)).toBe(first);
      },
    ),
    { numRuns: 2000 },
  );
  expect(found).toBeGreaterThan(3);
});

test('a stop that the car stands clear of moves clearances by its closed share, and leaves perch and frequency alone', () => {
  const corner = plainCorner();
  const stop = change('stop');
  const lack = (check: Finding['check'], shortfall = 3): Finding => {
    return { check, detail: '', found: 0, needed: shortfall, shortfall };
  };
  const least = (check: Finding['check'], on = corner, site = plainSite()) => leastStep(stop, [lack(check)], on, site);
  expect(least('coil_bind')).toBeCloseTo(3 / 0.4, 12);
  expect(least('bump_travel')).toBeLessThan(3);
  // Under a bump load the stop need not close, and standing on it the stop carries some of the load.
  expect(least('coil_bind', corner, plainSite({ bump: { kind: 'load', multiple: 3 } }))).toBeLessThan(3);
  const high = plainCorner({ bumpStop: { ...corner.bumpStop, length: 100 } });
  expect(least('coil_bind', high)).toBeLessThan(3);
  for (const check of ['unloaded_spring', 'perch_low', 'perch_high', 'spring_loose', 'frequency'] as const) {
    expect([stop.touches(lack(check), corner, plainSite()), stop.touches(lack(check), high, plainSite())]).toEqual([
      false,
      true,
    ]);
  }
});

test('a spacer leaves the frequency alone where the gas pushes evenly and the helper stays closed', () => {
  const corner = plainCorner();
  const frequency: Finding = { check: 'frequency', detail: 'lowest', found: 1, needed: 1.1, shortfall: 0.1 };
  const helper = {
    ...{ name: 'helper', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60, coupler: 4, couplerBore: 60 },
  };
  const charge = { chargePressure: 2, rodArea: 150, gasVolume: 110_000 };
  const touches = (on: Corner) => change('spacer').touches(frequency, on, plainSite());
  expect(touches(corner)).toBe(false);
  expect(touches(plainCorner({ helper }))).toBe(false);
  // A helper so stiff that it is still open at ride height, a charge of gas, and a stop that the car stands on.
  expect(touches(plainCorner({ helper: { ...helper, rate: 70 } }))).toBe(true);
  expect(touches(plainCorner({ damper: { ...corner.damper, gas: { kind: 'charge', ...charge } } }))).toBe(true);
  expect(touches(plainCorner({ bumpStop: { ...corner.bumpStop, length: 100 } }))).toBe(true);
});

test('a spacer under a seat that rises with it moves the perch by what the gas gives, under one that does not by more', () => {
  const corner = plainCorner();
  const low: Finding = { check: 'perch_low', detail: 'lowest', found: 0, needed: 1, shortfall: 1 };
  const least = (on: Corner) => leastStep(change('spacer'), [low], on, plainSite());
  const perMm = (215 - 160) / (474 - 320) / 38;
  expect(least(corner)).toBeCloseTo(1 / perMm, 9);
  expect(least(plainCorner({ mount: { ...corner.mount, seat: 'moving' } }))).toBeLessThan(1);
});

test('a stress too high takes the deflection that the stiffer spring makes it of; standing on the stop nothing is known', () => {
  const wire = {
    diameter: 10,
    totalCoils: 7,
    activeCoils: 5,
    material: 'chrome_silicon',
    materialGiven: true,
    estimated: false,
  } as const;
  const corner = plainCorner({ spring: { ...plainCorner().spring, wire } });
  const stressed: Finding = { check: 'overstressed', detail: 'full bump', found: 1, needed: 0, shortfall: 60 };
  const least = (on: Corner, site = plainSite()) => leastStep(change('stop'), [stressed], on, site);
  // tau = 8 F D / (pi d^3) with F = 38 N/mm x 0.4 mm for a millimetre of stop
  expect(least(corner)).toBeCloseTo((60 * Math.PI * 10 ** 3) / (8 * 38 * 0.4 * 70), 9);
  expect(least(corner, plainSite({ standingOnStop: true }))).toBe(0);
});

test('another sleeve and perch under a stack judged already find what the whole model finds', () => {
  fc.assert(
    fc.property(anyFullSite, anyFullCorner, anyFullCorner, (site, one, other) => {
      const corner = { ...one, sleeve: other.sleeve, perch: { ...other.perch, engagement: 4 } };
      const [before, whole] = [lightState(site, one), lightState(site, corner)];
      fc.pre(before.geometry.stopMeets === 'body' && whole.geometry.stopMeets === 'body');
      const ofSleeve = ({ contacts }: Pick<CornerState, 'contacts'>) =>
        contacts.filter(({ name }) => name.startsWith('sleeve'));
      const sides = whole.sides.map((side) => ({ ...side, contacts: ofSleeve(side) }));
      const seated = { ...before, corner, geometry: whole.geometry, contacts: ofSleeve(whole), sides };
      expect(findingsOnSeat(seated, findingsOf(before))).toEqual(findingsOf(whole));
    }),
  );
});

test('a groove comes behind whatever else cures, alone, with a helper or with another change, and never on a single tube', () => {
  const kindsOf = (site: Site, corner: Corner, body: DamperBody) => {
    const parts = { ...corner, damper: { ...corner.damper, body } };
    const options = Object.fromEntries(FAMILIES.map((family) => [family, [parts[family]]])) as unknown as AxleOptions;
    const { cures } = curesOf(listedOf(site, options, [plainHelper], pickedDigits(options, 1)), 0);
    for (const cure of cures) expect(works(site, cure.corner)).toBe(true);
    return cures.map(({ changes }) => changes.map(({ kind }) => kind).join(' + '));
  };
  const isGroove = (kinds: string) => kinds.includes('groove');
  const seen = new Set<string>();
  fc.assert(
    fc.property(anyCloseSite, anyTrueCorner, (site, corner) => {
      const findings = findingsAt(site, corner);
      fc.pre(findings.length > 0 && findings.length < 4);
      const [twin, single, unknown] = (['twin_tube', 'single_tube', 'unknown'] as const).map((body) =>
        kindsOf(site, corner, body),
      ) as [string[], string[], string[]];
      expect(single.filter(isGroove)).toEqual([]);
      // What a single tube has is what comes first; a groove alone, or all there is, follows.
      expect(unknown.slice(0, single.length)).toEqual(single);
      expect(unknown.slice(single.length).filter((kinds) => !isGroove(kinds))).toEqual([]);
      expect(unknown.length > 0).toBe(twin.length > 0);
      for (const kinds of unknown) seen.add(`${kinds}, ${single.length > 0 ? 'behind others' : 'alone'}`);
    }),
    { numRuns: 1000, seed: 2 },
  );
  // Every way a groove can be the last resort was met.
  expect([...seen]).toEqual(
    expect.arrayContaining(['groove, behind others', 'groove, alone', 'helper + groove, alone']),
  );
  expect([...seen].some((way) => /(trim|spacer|stop) \+ groove, alone/.test(way))).toBe(true);
});

test.each(['hill-hatch', 'kit-two-seater', 'loaded-estate'] as const)(
  'trials and pairs of changes on %s are those of combinations looked at one by one',
  async (name) => {
    const scenario = await scenarioOf(name);
    const [setup] = scenario.setups as [Setup];
    const site = siteOf(scenario, setup, 'front');
    const { options } = scenario.axles.front;
    const listed = listedOf(site, options, [], pickedDigits(options, 20_000));
    for (let spring = 0; spring < options.spring.length; spring += 7) {
      const trials = trialsOf(listed, spring);
      for (const { index, corner, findings } of trials) {
        expect(corner).toEqual(cornerAt(options, index));
        expect(findings).toEqual(findingsAt(site, corner));
      }
      const alone = trials
        .slice(0, CLOSEST)
        .map((trial) => pairCure(site, [trial])?.amount ?? Number.POSITIVE_INFINITY);
      const dead = trials.every(({ findings }) => findings.length > 0);
      if (dead) expect(pairCure(site, trials)?.amount ?? Number.POSITIVE_INFINITY).toBe(Math.min(...alone));
    }
  },
);

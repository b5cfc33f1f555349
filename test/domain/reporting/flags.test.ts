import { expect, test } from 'vitest';
import type { Corner, Site } from '../../../src/domain/corner/site.ts';
import { motionCurve } from '../../../src/domain/motion.ts';
import { combinationOf, workingOf } from '../../../src/domain/reporting/combination.ts';
import { cornerFlags } from '../../../src/domain/reporting/flags.ts';
import type { LoadCase, Scenario, Setup } from '../../../src/domain/scenario.ts';
import { plainCorner, plainSite, plainTarget, stopCurve } from '../../setup/corners.ts';

const base = plainCorner();
const flagsOf = (corner: Partial<Corner>, site: Partial<Site> = {}) =>
  cornerFlags(workingOf(plainSite(site), plainCorner(corner)));
const told = (corner: Partial<Corner>, site: Partial<Site> = {}) =>
  flagsOf(corner, site).map(({ kind, message }) => `${kind}: ${message}`);

/** A ratio that grows so fast with height that the load tips the corner over in part of the travel. */
const tipping: Partial<Site> = {
  motion: motionCurve({
    ratio: null,
    pairs: [275, 305, 335, 365, 395].map((hubToArch) => {
      const u = hubToArch - 335;
      return { hubToArch, damperLength: 409.5 + 0.75 * u + 4e-3 * u * u, raise: 12 };
    }),
  }),
};

test('a corner that is not stable over its travel has no window, and says so', () => {
  expect(workingOf(plainSite(tipping), base).window).toBeNull();
  expect(told({}, tipping)).toContainEqual(expect.stringMatching(/^warning: Front: no height window/));
});

const wire = { diameter: 9, activeCoils: 5.8, totalCoils: 7.8, material: 'chrome_silicon', estimated: false };

test('a rate worked out from geometry is an estimate, a given one is not', () => {
  const rate = (rateEstimated: boolean) =>
    told({ spring: { ...base.spring, wire, rateEstimated } }).filter((flag) => /the rate of/.test(flag));
  expect(rate(true)).toEqual([expect.stringMatching(/^estimate: Front: the rate of spring, 38\.0 N\/mm/)]);
  expect(rate(false)).toEqual([]);
});

test('a given solid height that would break the wire is doubted, an estimated one is not', () => {
  const doubt = (height: number, source: Corner['spring']['solid']['source'] = 'catalogue') => {
    const solid = { ...base.spring.solid, source, height, least: height };
    return told({ spring: { ...base.spring, wire: { ...wire, diameter: 7 }, solid } }).filter((f) =>
      /doubt|Ask the seller/.test(f),
    );
  };
  expect(doubt(50)).toEqual([expect.stringMatching(/^warning: .*the solid height given for spring would stress/)]);
  expect(doubt(50, 'wire x coils')).toEqual([]);
  expect(doubt(190)).toEqual([]);
});

test('a solid height worked out from counted coils says so, a given one does not', () => {
  const about = (source: Corner['spring']['solid']['source']) =>
    told({ spring: { ...base.spring, solid: { ...base.spring.solid, source } } }).filter((flag) =>
      /^note: .*solid height.*coils/.test(flag),
    );
  expect(about('wire x coils')).toHaveLength(1);
  expect(about('catalogue')).toEqual([]);
});

test('stress is checked where the wire is known, else it is said that it is not', () => {
  const about = (given: Corner['spring']['wire']) =>
    told({ spring: { ...base.spring, wire: given } }).filter((flag) => /^note: Front: .*stress/.test(flag));
  expect(about(null)).toHaveLength(1);
  expect(about({ ...wire, estimated: true })).toHaveLength(1);
  expect(about(wire)).toEqual([]);
});

const helper = { name: 'helper', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60 };
const coupled = { ...helper, coupler: 4, couplerBore: 60 };

test('a helper that outlasts the main spring is odd, one that closes near the standing force makes the rate jump', () => {
  const words = (change: Partial<typeof coupled>) => told({ helper: { ...coupled, ...change } }).join('\n');
  expect(words({})).not.toMatch(/outlasts|closes at/);
  expect(words({ freeLength: 200, blockHeight: 12, rate: 40 })).toMatch(/the helper outlasts the main spring/);
  // About 2300 N / 0.945 less gas stand on the spring: 60 N/mm over 38 mm is 2280 N.
  expect(words({ rate: 60 })).toMatch(/the helper closes at \d+ % of the standing spring force/);
});

test('a sleeve with room on the body is loose, one without is not', () => {
  expect(told({}).join()).toMatch(/the sleeve is 0\.5 mm wider than the damper body/);
  expect(told({ sleeve: { ...base.sleeve, bore: 50 } }).join()).not.toMatch(/wider than the damper body/);
});

test('a damping ratio outside what the setup asks for is a warning; without a wish there is none', () => {
  const table = [
    { velocity: 0.05, bump: 200, rebound: 420 },
    { velocity: 0.2, bump: 500, rebound: 900 },
  ];
  const damper = { ...base.damper, forceVelocity: table };
  const asked = (dampingFrom: number | null, dampingTo: number | null) =>
    told({ damper }, { target: { ...plainTarget, dampingFrom, dampingTo } }).filter((f) => /damping ratio/.test(f));
  expect(asked(0.01, 9)).toEqual([]);
  expect(asked(5, 9)).toEqual([expect.stringMatching(/^warning: .* lies outside 5\.00 to 9\.00/)]);
  expect(asked(0.01, 0.02)).toHaveLength(1);
  expect(asked(null, null)).toEqual([]);
});

function pairOf(site: Partial<Site>, loadCases: readonly LoadCase[]) {
  const weights = { bump_travel: 1, height_coverage: 0, balance: 0, front_frequency: 0, price: 0, clearance: 0 };
  const scenario = {
    car: { wheelbase: 2460, pitchInertiaRatio: 0.92, sprungCentreHeight: 545 },
    axles: { front: { roll: null }, rear: { roll: null } },
    ranking: { weights, price: null, goodClearance: null, keep: 1 },
    tolerances: {},
  } as unknown as Scenario;
  const setup = {
    ...{ name: 'low', loadStates: [], loadCases, balance: { target: 1, from: 0.5, to: 2 } },
    axles: { front: plainTarget, rear: plainTarget },
    frequencyBasis: 'body',
  } as unknown as Setup;
  const workings = {
    front: workingOf(plainSite(site), base),
    rear: workingOf(plainSite({ ...site, axle: 'rear' }), base),
  };
  return combinationOf({ scenario, setup, indices: { front: 0, rear: 0 }, workings }, 2, '1a2b3c4d');
}

test('a pair without stable corners has no words of a window and nothing to say of a flat ride', () => {
  const { axles, flags } = pairOf(tipping, []);
  expect(axles.front.words).toMatchObject({
    lowest_height_limit: 'no stable window',
    highest_height_limit: 'no stable window',
    window: 'empty',
  });
  expect(flags.map(({ message }) => message).join()).not.toMatch(/Olley/);
});

test('a bend that could not be worked out squeezes no stop', () => {
  const { flags } = pairOf({}, [{ name: 'bend', kind: 'cornering', lateral: 0.8 }]);
  expect(flags.map(({ message }) => message).join()).not.toMatch(/no force curve/);
});

test('too few measured pairs for a slope are said, enough are not', () => {
  const one = motionCurve({ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: 0.945 });
  expect(told({}, { motion: one }).join()).toMatch(/with 1 measured pair the slope/);
  expect(told({}).join()).not.toMatch(/measured pair/);
});

test('judged under a load, metal that only the closed stop would reach is warned of, and no other', () => {
  const target = { ...plainTarget, allowedSlack: 8 };
  const under = (bump: Site['bump'], compressed: number) =>
    told(
      { damper: { ...base.damper, compressed }, bumpStop: { ...base.bumpStop, curve: stopCurve } },
      { tyreOnArchHeight: 225, target, bump },
    ).filter((flag) => /fully closed/.test(flag));
  // Closed, the stop leaves 318 + 0.4 x 38 = 333.2 mm; the damper bottoms at 320, or as made here at 335.
  expect(under({ kind: 'load', multiple: 1.2 }, 320)).toEqual([]);
  expect(under({ kind: 'load', multiple: 1.2 }, 335)).toEqual([expect.stringMatching(/^warning: Front: .*1\.8 mm/)]);
  expect(under({ kind: 'closed' }, 335)).toEqual([]);
});

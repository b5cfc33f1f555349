import { expect, test } from 'vitest';
import type { Corner, Site } from '../../../src/model/corner/site.ts';
import type { LoadCase } from '../../../src/model/scenario.ts';
import { combinationOf, workingOf } from '../../../src/result/records/combination.ts';
import { cornerFlags } from '../../../src/result/records/flags.ts';
import {
  type CornerChange,
  plainCorner,
  plainPair,
  plainSite,
  plainWire,
  type SiteChange,
  sidesApart,
  stopCurve,
  straightMotion,
  tippingMotion,
} from '../../setup/corners.ts';

const base = plainCorner();
const flagsOf = (corner: CornerChange, site: SiteChange = {}) =>
  cornerFlags(workingOf(plainSite(site), plainCorner(corner)));
const told = (corner: CornerChange, site: SiteChange = {}) =>
  flagsOf(corner, site).map(({ kind, message }) => `${kind}: ${message}`);

const tipping = { motion: tippingMotion() };

test('a corner that is not stable over its travel has no window, and says so', () => {
  expect(workingOf(plainSite(tipping), base).window).toBeNull();
  expect(told({}, tipping)).toContainEqual(expect.stringMatching(/^warning: Front: no height window/));
});

test('a stop that may land on a proud sleeve or enter it is told with both places it may meet', () => {
  const proud = (bore: number) =>
    told({ sleeve: { ledgeHeight: 190, trim: 0, bore } }).filter((flag) => /land on the sleeve/.test(flag));
  // Stop 46 mm wide; sleeve top 330, body top 318.
  expect(proud(46.4)).toEqual([
    expect.stringMatching(
      /^warning: Front: the bump stop has 0\.4 mm to spare .* 12\.0 mm proud .* clearance of 1\.0 mm/,
    ),
  ]);
  expect(proud(45.9)).toEqual([]);
  expect(proud(47)).toEqual([]);
});

test('a rate worked out from geometry is an estimate, a given one is not', () => {
  const rate = (rateEstimated: boolean) =>
    told({ spring: { wire: plainWire, rateEstimated } }).filter((flag) => /the rate of/.test(flag));
  expect(rate(true)).toEqual([expect.stringMatching(/^estimate: Front: the rate of spring, 38\.0 N\/mm/)]);
  expect(rate(false)).toEqual([]);
});

test('stress that only warns is one sentence a place; where a catalogued solid height is doubted, it says that too', () => {
  const doubts = (
    given: Corner['spring']['wire'],
    height = 76,
    source: Corner['spring']['solid']['source'] = 'catalogue',
  ) => {
    const solid = { source, height, least: height };
    return told({ spring: { wire: given, solid } }).filter((flag) => /stress pressed solid/.test(flag));
  };
  const taken = { ...plainWire, materialGiven: false };
  expect(doubts(taken)).toEqual([
    expect.stringMatching(/^warning: Front: spring: .*0\.56 .*Its material is not given/),
  ]);
  expect(doubts(plainWire)).toEqual([]);
  expect(doubts({ ...taken, diameter: 7 }, 50)[0]).toMatch(/solid height given may be too low/);
  expect(doubts({ ...plainWire, diameter: 7, estimated: true }, 50)).toHaveLength(1);
  expect(doubts({ ...plainWire, diameter: 7, estimated: true }, 50, 'wire x coils')).toEqual([]);
  expect(doubts({ ...taken, diameter: 7 }, 190)).toEqual([]);
});

test('a corner that comes nearer to coil bind than the least gaps between its coils is warned of', () => {
  // S_a = 5.8 (0.0015 69^2 / 9 + 0.9) = 9.8 mm, worked out by hand.
  const near = (solid: number, estimated = false) =>
    told({ spring: { wire: { ...plainWire, estimated }, solid: { height: solid, least: solid } } }).filter((flag) =>
      /least sum of gaps/.test(flag),
    );
  const heights = Array.from({ length: 40 }, (_, k) => 60 + k);
  const warned = heights.filter((height) => near(height).length > 0);
  // From the margin of 6 mm to 9.8 mm: about four millimetres of solid height.
  expect(warned.length).toBeGreaterThanOrEqual(3);
  expect(warned.length).toBeLessThanOrEqual(4);
  expect(near(warned[0] ?? 0)[0]).toMatch(/^warning: Front: spring comes within [6-9]\.\d mm .* 9\.8 mm/);
  expect(near(warned[0] ?? 0, true)[0]).toContain('estimated wire');
});

test('a solid height worked out from counted coils says so, a given one does not', () => {
  const about = (source: Corner['spring']['solid']['source']) =>
    told({ spring: { solid: { source } } }).filter((flag) => /^note: .*solid height.*coils/.test(flag));
  expect(about('wire x coils')).toHaveLength(1);
  expect(about('catalogue')).toEqual([]);
});

test('stress is checked where the wire is known, else it is said that it is not', () => {
  const about = (given: Corner['spring']['wire']) =>
    told({ spring: { wire: given } }).filter((flag) => /^note: Front: .*stress/.test(flag));
  expect(about(null)).toHaveLength(1);
  expect(about({ ...plainWire, estimated: true })).toHaveLength(1);
  expect(about(plainWire)).toEqual([]);
});

test('a helper that outlasts the main spring is odd, one that closes near the standing force makes the rate jump', () => {
  const words = (helper: CornerChange['helper']) => told({ helper }).join('\n');
  expect(words({})).not.toMatch(/outlasts|closes at/);
  expect(words({ freeLength: 200, blockHeight: 12, rate: 40 })).toMatch(/the helper outlasts the main spring/);
  // About 2300 N / 0.945 less gas stand on the spring: 60 N/mm over 38 mm is 2280 N.
  expect(words({ rate: 60 })).toMatch(/the helper closes at \d+ % of the standing spring force/);
});

test('a sleeve with room on the body is loose, one without is not', () => {
  expect(told({}).join()).toMatch(/the sleeve is 0\.5 mm wider than the damper body/);
  expect(told({ sleeve: { bore: 50 } }).join()).not.toMatch(/wider than the damper body/);
});

test('a damping ratio outside what the setup asks for is a warning; without a wish there is none', () => {
  const table = [
    { velocity: 0.05, bump: 200, rebound: 420 },
    { velocity: 0.2, bump: 500, rebound: 900 },
  ];
  const damper = { forceVelocity: table };
  const asked = (dampingFrom: number | null, dampingTo: number | null) =>
    told({ damper }, { target: { dampingFrom, dampingTo } }).filter((f) => /damping ratio/.test(f));
  expect(asked(0.01, 9)).toEqual([]);
  expect(asked(5, 9)).toEqual([expect.stringMatching(/^warning: .* lies outside 5\.00 to 9\.00/)]);
  expect(asked(0.01, 0.02)).toHaveLength(1);
  expect(asked(null, null)).toEqual([]);
});

const reportOf = (site: SiteChange, loadCases: readonly LoadCase[]) =>
  combinationOf(plainPair(base, base, { site, setup: { loadCases } }), 2, '1a2b3c4d');

test('a pair without stable corners has no words of a window and nothing to say of a flat ride', () => {
  const { axles, flags } = reportOf(tipping, []);
  expect(axles.front.words).toMatchObject({
    lowest_height_limit: 'no stable window',
    highest_height_limit: 'no stable window',
    window: 'empty',
  });
  expect(flags.map(({ message }) => message).join()).not.toMatch(/Olley/);
});

test('a bend that could not be worked out squeezes no stop', () => {
  const { flags } = reportOf({}, [{ name: 'bend', kind: 'cornering', lateral: 0.8 }]);
  expect(flags.map(({ message }) => message).join()).not.toMatch(/no force curve/);
});

test('too few measured pairs for a slope are said, enough are not', () => {
  expect(told({}, { motion: straightMotion }).join()).toMatch(/with 1 measured pair the slope/);
  expect(told({}).join()).not.toMatch(/measured pair/);
});

test('judged under a load, metal that only the closed stop would reach is warned of, and no other', () => {
  const target = { allowedSlack: 8 };
  const under = (bump: Site['bump'], compressed: number) =>
    told({ damper: { compressed }, bumpStop: { curve: stopCurve } }, { tyreOnArchHeight: 225, target, bump }).filter(
      (flag) => /fully closed/.test(flag),
    );
  // Closed, the stop leaves 318 + 0.4 x 38 = 333.2 mm; the damper bottoms at 320, or as made here at 335.
  expect(under({ kind: 'load', multiple: 1.2 }, 320)).toEqual([]);
  expect(under({ kind: 'load', multiple: 1.2 }, 335)).toEqual([expect.stringMatching(/^warning: Front: .*1\.8 mm/)]);
  expect(under({ kind: 'closed' }, 335)).toEqual([]);
  // 2.2 mm are left of the margin of 3.
  expect(under({ kind: 'load', multiple: 1.2 }, 331)).toEqual([
    expect.stringMatching(/^warning: Front: .* has 2\.2 mm left .*eats into its margin of 3\.0 mm/),
  ]);
});

test('beyond the bump load the give of the mount counts, and the side that keeps least is the one told of', () => {
  const target = { allowedSlack: 8 };
  const site = plainSite({ tyreOnArchHeight: 225, target, bump: { kind: 'load', multiple: 1.1 } });
  const { perch } = workingOf(site, base).state.standing;
  // Closed, the stop leaves 333.2 mm; the coils are solid at P + 24 + S, and the mount gives 2 mm more.
  const leaving = (left: number, sides: Site['sides'] = []) => {
    const solid = { height: 333.2 - perch - 24 - 2 - left };
    const corner = { spring: { solid }, bumpStop: { curve: stopCurve } };
    return told(corner, { ...site, sides })
      .filter((flag) => /coil bind/.test(flag))
      .join();
  };
  // Without the give there would have been 1 mm to spare.
  expect(leaving(-1)).toMatch(/^warning: Front: .* comes 1\.0 mm before the stop is fully closed/);
  expect(leaving(5)).toMatch(/^warning: Front: .* has 5\.0 mm left/);
  expect(leaving(6.1)).toBe('');
  // 10 kg more are 10 x 9.80665 / MR / 38 mm of deflection, MR a little under 0.95: 2.7 mm less on the heavier side.
  expect(leaving(5, sidesApart(site, 10))).toMatch(/^warning: Front right: .* has 2\.3 mm left/);
  expect(leaving(5, sidesApart(site, -10))).toMatch(/^warning: Front left: .* has 2\.3 mm left/);
});

test('a stop without a curve that is short, or cut to less than half, is a warning; one with its curve measured is none', () => {
  const short = (length: number, uncutLength: number, curve: Corner['bumpStop']['curve'] = null) =>
    told({ bumpStop: { length, uncutLength, curve } }).filter((flag) => /no force curve: how/.test(flag));
  expect(short(29.9, 50)).toEqual([
    expect.stringMatching(/^warning: Front: stop is fitted 29\.9 mm long, shorter than 30 mm \(bought 50\.0 mm\)/),
  ]);
  expect(short(34, 70)).toEqual([expect.stringMatching(/34\.0 mm long, less than half of it \(bought 70\.0 mm\)/)]);
  expect(short(20, 60)).toEqual([expect.stringMatching(/shorter than 30 mm and less than half of it/)]);
  expect(short(30, 60)).toEqual([]);
  expect(short(20, 60, stopCurve)).toEqual([]);
});

test('an estimated solid height is told with its whole range and the value that coil bind is judged on', () => {
  const solid = { source: 'estimated' as const, height: 80, least: 71, most: 97, thinWire: 8, thickWire: 9 };
  expect(told({ spring: { solid } })).toContainEqual(
    expect.stringMatching(/^estimate: Front: .* 71\.0 mm to 97\.0 mm; coil bind is judged on 80\.0 mm, and/),
  );
});

test('that a wire is not known and that it lies outside a range are never two notes', () => {
  const wire = { ...plainWire, diameter: 16.4, activeCoils: 6, totalCoils: 8, materialGiven: false };
  const solid = { source: 'estimated' as const, height: 80, least: 71, most: 97, thinWire: 8, thickWire: 9 };
  const about = (spring: Partial<Corner['spring']>) =>
    told({ spring: { ...spring } }).filter(
      (flag) => /outside the range|is not known|not checked/.test(flag) && /spring/.test(flag),
    );
  const known = about({ wire: { ...wire, estimated: false } });
  expect(known.length).toBeGreaterThan(0);
  expect(known.every((flag) => /lies outside the range/.test(flag))).toBe(true);
  expect(about({ wire: { ...wire, estimated: true } })).toEqual([expect.stringMatching(/its wire is not known\.$/)]);
  const estimated = about({ wire: { ...wire, estimated: true }, solid });
  expect(estimated.length).toBeGreaterThan(0);
  expect(estimated.every((flag) => /by estimate its .* its stress is not checked\.$/.test(flag))).toBe(true);
});

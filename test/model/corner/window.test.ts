import fc from 'fast-check';
import { expect, test } from 'vitest';
import { perchAboveClosed, perchFor } from '../../../src/model/corner/balance.ts';
import { CLOSED_BY } from '../../../src/model/corner/checks.ts';
import { type Finding, findingsOf } from '../../../src/model/corner/findings.ts';
import type { Site } from '../../../src/model/corner/site.ts';
import { type CornerState, cornerState } from '../../../src/model/corner/state.ts';
import { coveredShare, heightWindow } from '../../../src/model/corner/window.ts';
import { motionCurve } from '../../../src/model/motion.ts';
import {
  anyCorner,
  anyFullCorner,
  anyFullSite,
  anySite,
  plainCorner,
  plainHelper,
  plainSite,
} from '../../setup/corners.ts';
import { between, forAny } from '../../setup/random.ts';

/** All but how parts fit each other, and what a spring bears pressed solid: a height decides all else. */
function failuresAt(state: CornerState, height: number): Finding[] {
  return findingsOf(cornerState(state.site, state.corner, height)).filter(
    ({ check, detail }) => check !== 'fit' && !(check === 'overstressed' && detail === 'solid'),
  );
}

function failsAt(state: CornerState, height: number): boolean {
  return failuresAt(state, height).length > 0;
}

/** What the check finds that a limit of the window is named after. */
const FOUND_AT: Readonly<Record<string, readonly [check: string, detail: string]>> = {
  bump_stop: ['bump_travel', 'clear of the stop'],
  bump_travel: ['bump_travel', 'design load'],
  droop: ['droop_travel', 'design load'],
  droop_travel: ['droop_travel', 'design load'],
  perch_low: ['perch_low', 'lowest'],
  perch_high: ['perch_high', 'highest'],
  coil_bind: ['coil_bind', 'coil_bind'],
  damper: ['damper_bottoms', 'damper'],
  tyre_arch: ['tyre_on_arch', 'tyre_arch'],
  overstressed: ['overstressed', 'full bump'],
  unloaded_spring: ['unloaded_spring', 'standing'],
  frequency_from: ['frequency', 'lowest'],
  frequency_to: ['frequency', 'highest'],
};

function isNamed(limit: string, { check, detail }: Finding): boolean {
  const [name = '', load] = limit.split(':');
  if (name === 'spring_loose') return check === name;
  const [wantedCheck, wantedDetail] = FOUND_AT[name] ?? [`${name.split('_')[0]}_metal`, name];
  const wanted = load === undefined ? [wantedDetail] : [load, `${wantedDetail}:${load}`, `${CLOSED_BY}${load}`];
  return check === wantedCheck && wanted.includes(detail);
}

const judgedWire = { activeCoils: 6, totalCoils: 8, material: 'chrome_silicon', materialGiven: true, estimated: false };

/** Corners with all parts and sites whose frequency window may be narrow, on either basis, their wires judged now and then. */
const anyNarrow = fc
  .tuple(
    anyFullSite,
    anyFullCorner,
    fc.record({
      from: between(0.8, 2.4),
      width: fc.constantFrom(0.05, 0.2, 2),
      basis: fc.constantFrom('body' as const, 'ride' as const),
      slope: fc.constantFrom(0, -2e-3, 2e-3),
      wire: fc.option(between(7, 13)),
    }),
  )
  .map(([site, corner, { from, width, basis, slope, wire }]) => {
    const target = { ...site.target, frequencyFrom: from, frequencyTo: from + width, leastDroopTravel: 10 };
    const motion = { ...site.motion, ratioSlope: site.motion.ratioSlope + slope };
    const given = wire === null ? corner.spring.wire : { ...judgedWire, diameter: wire };
    return {
      site: { ...site, target: { ...target, allowedSlack: 30 }, motion, frequencyBasis: basis, tyreOnArchHeight: 245 },
      corner: { ...corner, spring: { ...corner.spring, wire: given }, perch: { ...corner.perch, engagement: 30 } },
    };
  });

test('no height-dependent check fails at 50 heights inside a window, and 0.01 mm outside the one that names the end does', () => {
  const ends = new Map<string, number>();
  forAny([anyNarrow, fc.array(between(0, 1), { minLength: 50, maxLength: 50 })], 1500, ({ site, corner }, shares) => {
    const state = cornerState(site, corner);
    const window = heightWindow(state);
    if (!window?.usable || window.high.height - window.low.height < 0.1) return;
    const { low, high } = window;
    for (const share of shares) {
      const height = low.height + 1e-6 + share * (high.height - low.height - 2e-6);
      expect(failuresAt(state, height), `${low.limit} < ${height} < ${high.limit}`).toEqual([]);
    }
    for (const [end, by] of [[low, -0.01] as const, [high, 0.01] as const]) {
      const failures = failuresAt(state, end.height + by);
      expect(
        failures.some((f) => isNamed(end.limit, f)),
        `${end.limit} ${by}`,
      ).toBe(true);
      const name = `${by < 0 ? 'low' : 'high'} ${end.limit.split(':')[0]}`;
      ends.set(name, (ends.get(name) ?? 0) + 1);
    }
  });
  // Every limit that this is about ended windows, and the frequency at either side.
  const seen = [...ends.keys()].join();
  for (const name of [/low frequency/, /high frequency/, /frequency_from/, /frequency_to/, /high overstressed/]) {
    expect(seen).toMatch(name);
  }
});

test('inside the window no check that a height decides fails, just outside either end one does', () => {
  let usable = 0;
  forAny([anySite, anyCorner, between(0, 1)], 400, (site, corner, share) => {
    const state = cornerState(site, corner);
    const window = heightWindow(state);
    fc.pre(window?.usable === true && window.high.height - window.low.height > 0.1);
    if (!window) return;
    usable++;
    const { low, high } = window;
    const inside = low.height + 0.01 + share * (high.height - low.height - 0.02);
    expect(failsAt(state, inside), 'inside').toBe(false);
    expect(failsAt(state, low.height - 0.01), `below ${low.limit}`).toBe(true);
    expect(failsAt(state, high.height + 0.01), `above ${high.limit}`).toBe(true);
  });
  expect(usable).toBeGreaterThan(100);
});

test('an unusable window means that some check fails at every height', () => {
  forAny([anySite, anyCorner, between(0, 1)], (site, corner, share) => {
    const state = cornerState(site, corner);
    const window = heightWindow(state);
    fc.pre(window !== null && !window.usable);
    const { closedHeight, droopHeight } = state.geometry;
    expect(failsAt(state, closedHeight + share * (droopHeight - closedHeight))).toBe(true);
  });
});

test('each end of the window meets its limit to 1e-6 mm', () => {
  forAny([anySite, anyCorner], 400, (site, corner) => {
    const state = cornerState(site, corner);
    const window = heightWindow(state);
    fc.pre(window?.usable === true);
    if (!window) return;
    for (const end of [window.low, window.high]) {
      expect(Math.abs(missBy(state, end.limit, end.height)), end.limit).toBeLessThan(1e-6);
    }
  });
});

/** How far the corner standing at `height` is from meeting the limit exactly, mm. */
function missBy(state: CornerState, limit: string, height: number): number {
  const { site, corner, geometry } = state;
  const moved = cornerState(site, corner, height);
  const perch = perchFor(site, corner, geometry, height, site.sprungLoad);
  const [name, load] = limit.split(':');
  const loaded = moved.loads.find((l) => l.load.name === load);
  // At a knee of the rate the frequency jumps over its limit: what is met there is the place.
  if (name?.startsWith('frequency')) {
    const fails = (by: number) => failuresAt(state, height + by).some((f) => isNamed(limit, f));
    return fails(-1e-7) === fails(1e-7) ? Number.NaN : 0;
  }
  if (name === 'perch_low') return perch - geometry.perchLowest;
  if (name === 'perch_high') return perch - geometry.perchHighest;
  if (name === 'bump_stop' && load !== undefined) {
    const state = site.loads.find((l) => l.name === load) as Site['loads'][number];
    return perchAboveClosed(site, corner, geometry, perch, state);
  }
  if (name === 'bump_stop') return height - geometry.lowestStanding;
  if (name === 'droop') return height - geometry.droopHeight;
  if (name === 'spring_loose') return moved.slack - Math.min(site.target.allowedSlack, corner.perch.engagement);
  if (name === 'bump_travel') return (loaded ?? moved).bumpTravel - site.target.leastBumpTravel;
  if (name === 'droop_travel') return (loaded ?? moved).droopTravel - site.target.leastDroopTravel;
  const contacts = (moved.sides.find((side) => side.name === load) ?? moved).contacts;
  const contact = contacts.find((c) => c.name === name);
  return contact ? contact.clearance - contact.margin : Number.NaN;
}

test('the plain corner is bound by coil bind above once its tyre stays off the arch', () => {
  const target = { allowedSlack: 8 };
  const window = heightWindow(cornerState(plainSite({ tyreOnArchHeight: 240, target }), plainCorner()));
  expect(window).toMatchObject({ usable: true, high: { limit: 'coil_bind' } });
});

test('a helper’s knee parts the heights of a frequency window: the range with the target counts, or else the nearest', () => {
  // Light on its helper the corner swings slowly, on the main spring alone faster: F = 300 N closes the helper, which a
  // motion ratio of 1 and a load that falls with the bushes' twist meet at one height. All by hand:
  // W = 900 N, k_p = 10 N/mm unloaded at H_p = 395: F_s = 900 - 10 (395 - H), so 300 N at H = 335.
  const motion = motionCurve({ ratio: 1, pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }] });
  const sprungLoad = 900;
  const mass = sprungLoad / 9.80665;
  const bushes = { rate: 10, unloadedHeight: 395 };
  const corner = plainCorner({
    damper: { gas: { kind: 'none' } },
    helper: { ...plainHelper, rate: 10, freeLength: 42 },
    spring: { rate: 40 },
    perch: { engagement: 100, inset: -200, height: -100 },
  });
  // Above 335 mm k_w = 40 + 10, below 1 / (1/40 + 1/10) + 10 = 18 N/mm.
  const hertz = (rate: number) => Math.sqrt((1000 * rate) / mass) / (2 * Math.PI);
  const windowOf = (targetHeight: number, frequencyFrom: number, frequencyTo: number) => {
    const target = { targetHeight, leastBumpTravel: 0, leastDroopTravel: 0, allowedSlack: 100 };
    const site = plainSite({
      ...{ motion, sprungLoad, sprungMass: mass, heaviestLoad: sprungLoad, bushes, tyreOnArchHeight: 200 },
      target: { ...target, frequencyFrom, frequencyTo },
    });
    return heightWindow(cornerState(site, corner));
  };
  const [slow, fast] = [hertz(18), hertz(50)];
  const low = windowOf(330, slow - 0.1, slow + 0.1);
  expect(low).toMatchObject({ usable: true, high: { limit: 'frequency_to' } });
  expect(low?.high.height).toBeCloseTo(335, 6);
  const high = windowOf(350, fast - 0.1, fast + 0.1);
  expect(high).toMatchObject({ usable: true, low: { limit: 'frequency_from' } });
  expect(high?.low.height).toBeCloseTo(335, 6);
  // The target on the wrong side: the nearest range that keeps the window, from above and from below.
  expect(windowOf(350, slow - 0.1, slow + 0.1)?.high.height).toBeCloseTo(335, 6);
  expect(windowOf(330, fast - 0.1, fast + 0.1)?.low.height).toBeCloseTo(335, 6);
  // Neither: no height is usable, and the low end says why.
  expect(windowOf(330, fast + 0.1, fast + 0.2)).toMatchObject({
    usable: false,
    low: { height: Number.NaN, limit: 'frequency_from' },
  });
  expect(windowOf(350, slow - 0.2, slow - 0.1)).toMatchObject({ usable: false, low: { limit: 'frequency_to' } });
  // Where the bushes carry all of it, at 305 mm, the spring carries nothing.
  const whole = windowOf(350, 0.1, 9);
  expect(whole).toMatchObject({ usable: true, low: { limit: 'unloaded_spring' } });
  expect(whole?.low.height).toBeCloseTo(305, 6);
});

test('stress ends the window where 0.50 of the strength is reached at full bump, only where wire and material were given', () => {
  const site = plainSite({ tyreOnArchHeight: 200, target: { allowedSlack: 30, leastDroopTravel: 0 } });
  const window = (materialGiven: boolean) => {
    const wire = { ...judgedWire, diameter: 10.5, materialGiven };
    const state = cornerState(site, plainCorner({ spring: { wire }, perch: { engagement: 30 } }));
    return { state, window: heightWindow(state) };
  };
  const judged = window(true);
  expect(judged.window).toMatchObject({ usable: true, high: { limit: 'overstressed' } });
  // Oil-tempered chrome silicon wire: R_m = 1974 / d^0.108 MPa (Shigley, Table 10-4); tau = 8 F D / (pi d^3), F = k x.
  const d = 10.5;
  const force = (0.5 * (1974 / d ** 0.108) * Math.PI * d ** 3) / (8 * (60 + d));
  const { closedLength, seatBelowShoulder } = judged.state.geometry;
  const perch = closedLength - seatBelowShoulder - (220 - force / 38);
  expect(judged.window?.high.perch).toBeCloseTo(perch, 6);
  expect(window(false).window).toMatchObject({ high: { limit: 'coil_bind' } });
});

test('coverage counts the overlap of window and wanted range', () => {
  const end = (height: number) => ({ height, perch: 0, limit: 'droop' });
  const window = { low: end(320), high: end(340), usable: true };
  expect(coveredShare(window, 330, 350)).toBe(0.5);
  expect(coveredShare(window, 345, 350)).toBe(0);
  expect(coveredShare(window, 330, 330)).toBe(1);
  expect(coveredShare({ ...window, usable: false }, 330, 350)).toBe(0);
  expect(coveredShare(null, 330, 350)).toBe(0);
});

test('a rising ratio on a soft spring, where winding up has no single effect, has no window', () => {
  const site = plainSite();
  const steep = { ...site.motion, ratioSlope: 0.006 };
  const soft = plainCorner({ spring: { rate: 9 } });
  expect(heightWindow(cornerState({ ...site, motion: steep }, soft))).toBeNull();
});

test('a wanted range of one point is covered or not', () => {
  const end = (height: number) => ({ height, perch: 0, limit: '' });
  const window = { low: end(331), high: end(341), usable: true };
  expect([330.9, 331, 336, 341, 341.1].map((at) => coveredShare(window, at, at))).toEqual([0, 1, 1, 1, 0]);
  expect(coveredShare({ ...window, usable: false }, 336, 336)).toBe(0);
});

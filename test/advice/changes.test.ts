import { expect, test } from 'vitest';
import { CHANGES, leastChange } from '../../src/advice/changes.ts';
import { findFirstWorking } from '../../src/advice/cure.ts';
import type { Finding } from '../../src/model/corner/findings.ts';
import { findingsAt, lightState } from '../../src/model/corner/verdict.ts';
import { plainCorner, plainHelper, plainSite, plainTarget } from '../setup/corners.ts';

const site = plainSite({ tyreOnArchHeight: 240, target: { ...plainTarget, allowedSlack: 8 } });
const corner = plainCorner();
/** The sleeve stands proud of the body, where a wide stop meets it. */
const proud = plainCorner({
  sleeve: { ...corner.sleeve, ledgeHeight: 200 },
  bumpStop: { ...corner.bumpStop, diameter: 55 },
});
const change = (kind: string) => CHANGES.find((one) => one.kind === kind) as (typeof CHANGES)[number];
const lack = (check: Finding['check'], detail = '', shortfall = 3): Finding => {
  return { check, detail, found: 0, needed: shortfall, shortfall };
};

test('each change names its part, reads its dimension and sets it, the rest left as it was', () => {
  const told = CHANGES.map((one) => [one.kind, one.part(corner), one.get(corner), one.get(one.set(corner, 25))]);
  expect(told).toEqual([
    ['trim', 'sleeve', 15, 25],
    ['spacer', 'mount', 0, 25],
    ['stop', 'stop', 38, 25],
    ['groove', 'sleeve', 0, 25],
  ]);
  for (const one of CHANGES) expect(one.set(corner, one.get(corner))).toEqual(corner);
});

test('limits are those of the workshop or of the part, whichever is nearer', () => {
  expect(CHANGES.map((one) => one.limits(corner))).toEqual([
    [0, 60],
    [0, 40],
    [20, 60],
    [0, 30],
  ]);
  const short = plainCorner({
    sleeve: { ...corner.sleeve, length: 40, ledgeHeight: 10 },
    bumpStop: { ...corner.bumpStop, length: 15, uncutLength: 18 },
  });
  expect(CHANGES.map((one) => one.limits(short))).toEqual([
    [0, 39.5],
    [0, 40],
    [18, 18],
    [0, 10],
  ]);
});

test('a spacer lifts the shoulder of a mount bolted above the tower and lowers that of one bolted below', () => {
  const below = plainCorner({ mount: { ...corner.mount, bolted: 'below' } });
  expect(change('spacer').set(corner, 8).mount).toMatchObject({ spacer: 8, raise: 20 });
  expect(change('spacer').set(below, 8).mount).toMatchObject({ spacer: 8, raise: 4 });
});

test('a cut helps the sleeve’s own checks, and others only where the stop can meet the sleeve', () => {
  const touches = (finding: Finding, on = corner) => change('trim').touches(finding, on, site);
  for (const check of ['sleeve_metal', 'perch_high'] as const) expect(touches(lack(check))).toBe(true);
  expect(touches(lack('perch_low'))).toBe(false);
  expect(touches(lack('perch_low'), proud)).toBe(true);
  expect(touches(lack('bump_travel'))).toBe(false);
  expect(touches(lack('bump_travel'), proud)).toBe(true);
  expect(touches(lack('fit', 'stop_in_mount'), proud)).toBe(false);
  expect(touches(lack('frequency'), proud)).toBe(false);
});

test('stop and spacer help everything but diameters and the stack on the rod end', () => {
  const touches = (finding: Finding) => change('stop').touches(finding, corner, site);
  expect(touches(lack('coil_bind'))).toBe(true);
  expect(touches(lack('fit', 'stop_in_mount'))).toBe(true);
  for (const detail of ['spring_over_sleeve', 'helper_over_sleeve', 'thread_end']) {
    expect(touches(lack('fit', detail))).toBe(false);
  }
});

test('the rate counts as constant over all spacers only if the gas cannot bring the load back to the knee of the helper', () => {
  // 40 mm of spacers at (215 - 160) / (474 - 320) N/mm of gas: 14.3 N.
  const touches = (damper: typeof corner.damper, beyond: number) => {
    const { springForce } = lightState(site, plainCorner({ damper })).standing;
    const helper = { ...plainHelper, rate: (springForce + beyond) / 38 };
    return change('spacer').touches(lack('frequency'), plainCorner({ damper, helper }), site);
  };
  // Pushing harder when out it takes as much as it gives otherwise.
  const easing = { ...corner.damper, gas: { kind: 'linear' as const, outForce: 215, inForce: 160 } };
  for (const damper of [corner.damper, easing]) {
    expect([-20, -15, -13.5, 10, 20].map((beyond) => touches(damper, beyond))).toEqual([
      ...[false, false],
      ...[true, true, true],
    ]);
  }
});

test('the least change is that of the greatest lack, and what is no length bounds nothing', () => {
  const flat = {
    ...site,
    motion: { ...site.motion, heights: [335], bases: [397.5], slopes: [0.5], ratioAtMiddle: 0.5 },
  };
  const ratio = 1 + 1 / 0.5;
  expect(leastChange([lack('coil_bind', '', 3), lack('bump_travel', '', 6)], flat)).toBeCloseTo(6 / ratio, 12);
  const without = [lack('fit'), lack('unloaded_spring'), lack('overstressed'), lack('frequency', 'unstable')];
  expect(leastChange(without, flat)).toBe(0);
  expect(leastChange([lack('frequency', 'lowest', 0.02)], flat)).toBeCloseTo(2, 12);
  expect(leastChange([lack('frequency', 'lowest', 0.02)], { ...flat, standingOnStop: true })).toBe(0);
});

const triedOn = (on: typeof corner) => ({ corner: on, findings: findingsAt(site, on) });

test('a change walks outwards to the first step that works, and gives up where it can do nothing', () => {
  const uncut = plainCorner({ sleeve: { ...corner.sleeve, trim: 0, ledgeHeight: 175 } });
  const trimmed = findFirstWorking(site, triedOn(uncut), change('trim'), 1, Number.POSITIVE_INFINITY);
  expect(trimmed).toBeGreaterThan(0);
  expect(findFirstWorking(site, triedOn(uncut), change('trim'), 1, trimmed ?? Number.NaN)).toBeNull();
  const wide = plainCorner({ sleeve: { ...uncut.sleeve, outerDiameter: 59.5 } });
  expect(findFirstWorking(site, triedOn(wide), change('trim'), 1, Number.POSITIVE_INFINITY)).toBeNull();
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { heightOn, perchFor, surplusAt } from '../../../src/model/corner/balance.ts';
import type { Corner, Site } from '../../../src/model/corner/site.ts';
import { type CornerState, cornerState } from '../../../src/model/corner/state.ts';
import { anyCorner, anySite, plainCorner, plainSite } from '../../setup/corners.ts';
import { between, forAny } from '../../setup/random.ts';

const clearanceOf = (state: CornerState, name: string) =>
  state.contacts.find((c) => c.name === name)?.clearance ?? Number.NaN;

test('at rest the axial forces times the motion ratio carry the load, to 1e-9 of it', () => {
  forAny([anySite, anyCorner], (site, corner) => {
    const { geometry, standing } = cornerState(site, corner);
    const travel = geometry.stack.freeLength - geometry.stack.solidLength;
    fc.pre(standing.springForce > 0 && standing.deflection < travel - 1e-6);
    const surplus = surplusAt(site, corner, geometry, standing.height, site.sprungLoad, standing.perch);
    expect(Math.abs(surplus)).toBeLessThan(1e-9 * site.sprungLoad);
  });
});

test('the perch that holds a height brings the corner back to that height', () => {
  forAny([anySite, anyCorner], (site, corner) => {
    const { geometry, standing, rates } = cornerState(site, corner);
    fc.pre(standing.springForce > 0 && rates.wheel > 0);
    fc.pre(standing.height > geometry.closedHeight && standing.height < geometry.droopHeight);
    fc.pre(standing.deflection < geometry.stack.freeLength - geometry.stack.solidLength - 1e-6);
    const perch = perchFor(site, corner, geometry, standing.height, site.sprungLoad);
    // A falling motion ratio can have several balances; with a positive wheel rate all along there is one.
    fc.pre(site.motion.ratioSlope <= 0);
    expect(heightOn(site, corner, geometry, site.sprungLoad, perch)).toBeCloseTo(standing.height, 6);
  });
});

describe('what a builder knows to expect', () => {
  const change = (corner: Corner, part: Partial<{ [K in keyof Corner]: Partial<NonNullable<Corner[K]>> }>): Corner => {
    const changed = Object.entries(part).map(([key, value]) => [key, { ...corner[key as keyof Corner], ...value }]);
    return { ...corner, ...Object.fromEntries(changed) };
  };
  const step = between(0.5, 15);
  const closed = (site: Site): Site => ({ ...site, bump: { kind: 'closed' } });

  test('raising the mount gives its rise as damper travel, and 1/MR of it at the wheel where the ratio is constant', () => {
    forAny([anySite, anyCorner, step], (site, corner, by) => {
      const before = cornerState(site, corner);
      const raised = change(corner, { mount: { raise: corner.mount.raise + by } });
      const after = cornerState(site, raised);
      fc.pre(before.geometry.stopMeets === after.geometry.stopMeets);
      expect(after.standing.length - before.standing.length).toBeCloseTo(by, 9);
      expect(after.bumpTravel).toBeGreaterThan(before.bumpTravel);
      expect(after.droopTravel).toBeLessThan(before.droopTravel);
    });
  });

  test('cutting the sleeve gives its cut as clearance on the isolator and takes it from the top of the adjustment', () => {
    forAny([anySite, anyCorner, step], (site, corner, by) => {
      const cut = change(corner, { sleeve: { trim: corner.sleeve.trim + by } });
      const [before, after] = [cornerState(closed(site), corner), cornerState(closed(site), cut)];
      fc.pre(before.geometry.stopMeets === 'body');
      const gained = clearanceOf(after, 'sleeve_isolator') - clearanceOf(before, 'sleeve_isolator');
      expect(gained).toBeCloseTo(by, 9);
      expect(before.geometry.perchHighest - after.geometry.perchHighest).toBeCloseTo(by, 9);
    });
  });

  test('lowering the groove clears as much as cutting', () => {
    const { sleeve } = plainCorner();
    const cut = cornerState(plainSite(), plainCorner({ sleeve: { trim: sleeve.trim + 10 } }));
    const lowered = cornerState(plainSite(), plainCorner({ sleeve: { grooveDrop: 10 } }));
    expect(clearanceOf(lowered, 'sleeve_isolator')).toBeCloseTo(clearanceOf(cut, 'sleeve_isolator'), 12);
  });

  test('a longer stop leaves less bump travel', () => {
    forAny([anySite, anyCorner, step], (site, corner, by) => {
      const longer = change(corner, { bumpStop: { length: corner.bumpStop.length + by } });
      expect(cornerState(site, longer).bumpTravel).toBeLessThan(cornerState(site, corner).bumpTravel);
    });
  });

  test('a stiffer spring at the same ride height has a lower perch and more clearance to bind', () => {
    forAny([anySite, anyCorner, step], (site, corner, by) => {
      const stiffer = change(corner, { spring: { rate: corner.spring.rate + by } });
      const [before, after] = [cornerState(closed(site), corner), cornerState(closed(site), stiffer)];
      const { stack } = before.geometry;
      fc.pre(before.standing.springForce > 0 && before.standing.deflection < stack.mainTravel);
      expect(after.standing.perch).toBeLessThan(before.standing.perch);
      expect(clearanceOf(after, 'coil_bind')).toBeGreaterThan(clearanceOf(before, 'coil_bind'));
    });
  });

  test('a spacer takes sleeve room from a fixed seat and leaves it to a seat that moves with the rod', () => {
    const base = plainCorner();
    const spaced = (seat: 'fixed' | 'moving') =>
      cornerState(plainSite(), plainCorner({ mount: { seat, raise: base.mount.raise + 10, spacer: 10 } }));
    const bare = cornerState(plainSite(), base);
    expect(clearanceOf(spaced('moving'), 'sleeve_isolator')).toBeCloseTo(clearanceOf(bare, 'sleeve_isolator'), 12);
    // The seat stays at the tower while the shoulder rises and takes body and sleeve up with it.
    const lost = clearanceOf(bare, 'sleeve_isolator') - clearanceOf(spaced('fixed'), 'sleeve_isolator');
    expect(lost).toBeCloseTo(10, 12);
  });
});

test('all lengths times s and all rates over s leave loads alone and give travels times s', () => {
  const s = 1.7;
  const site = plainSite({ tyreOnArchHeight: 240 });
  const corner = plainCorner();
  const big = cornerState(scaleSite(site, s), scaleCorner(corner, s));
  const small = cornerState(site, corner);
  expect(big.bumpTravel).toBeCloseTo(s * small.bumpTravel, 8);
  expect(big.droopTravel).toBeCloseTo(s * small.droopTravel, 8);
  expect(big.standing.perch).toBeCloseTo(s * small.standing.perch, 8);
  expect(big.standing.springForce).toBeCloseTo(small.standing.springForce, 8);
  expect(big.rates.wheel).toBeCloseTo(small.rates.wheel / s, 8);
  for (const [k, contact] of big.contacts.entries()) {
    expect(contact.clearance).toBeCloseTo(s * (small.contacts[k]?.clearance ?? Number.NaN), 8);
  }
});

function scaleSite(site: Site, s: number): Site {
  const { motion } = site;
  return {
    ...site,
    tyreRate: site.tyreRate / s,
    tyreOnArchHeight: site.tyreOnArchHeight * s,
    target: { ...site.target, targetHeight: site.target.targetHeight * s },
    motion: {
      ...motion,
      heights: motion.heights.map((h) => h * s),
      bases: motion.bases.map((b) => b * s),
      middle: motion.middle * s,
      ratioSlope: motion.ratioSlope / s,
    },
    margins: { ...site.margins, passing: site.margins.passing * s },
  };
}

/** Multiplies every length of every part and divides every rate; forces, shares and names stay. */
function scaleCorner(corner: Corner, s: number): Corner {
  const scaled = JSON.parse(JSON.stringify(corner), (key, value) => {
    if (typeof value !== 'number' || ['outForce', 'inForce', 'closedFraction', 'price'].includes(key)) return value;
    return key === 'rate' ? value / s : value * s;
  });
  return scaled as Corner;
}

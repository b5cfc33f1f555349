import fc from 'fast-check';
import { expect, test } from 'vitest';
import { perchFor } from '../../../src/domain/corner/balance.ts';
import { contactsAt } from '../../../src/domain/corner/contacts.ts';
import { findingsOf } from '../../../src/domain/corner/findings.ts';
import { fullBumpOf } from '../../../src/domain/corner/fullBump.ts';
import { type CornerState, cornerState } from '../../../src/domain/corner/state.ts';
import { coveredShare, heightWindow } from '../../../src/domain/corner/window.ts';
import { anyCorner, anySite, plainCorner, plainSite, plainTarget } from '../../setup/corners.ts';

/** Checks that a height decides, and so the window must know. */
const DECIDED_BY_HEIGHT = new Set([
  'damper_bottoms',
  'sleeve_metal',
  'body_metal',
  'tyre_on_arch',
  'bump_travel',
  'droop_travel',
  'perch_low',
  'perch_high',
  'coil_bind',
  'spring_loose',
]);

function failsAt(state: CornerState, height: number): boolean {
  const moved = cornerState(state.site, state.corner, height);
  return findingsOf(moved).some((f) => DECIDED_BY_HEIGHT.has(f.check));
}

test('inside the window no check that a height decides fails, just outside either end one does', () => {
  let usable = 0;
  fc.assert(
    fc.property(anySite, anyCorner, fc.double({ min: 0, max: 1, noNaN: true }), (site, corner, share) => {
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
    }),
    { numRuns: 400 },
  );
  expect(usable).toBeGreaterThan(100);
});

test('an unusable window means that some check fails at every height', () => {
  fc.assert(
    fc.property(anySite, anyCorner, fc.double({ min: 0, max: 1, noNaN: true }), (site, corner, share) => {
      const state = cornerState(site, corner);
      const window = heightWindow(state);
      fc.pre(window !== null && !window.usable);
      const { closedHeight, droopHeight } = state.geometry;
      expect(failsAt(state, closedHeight + share * (droopHeight - closedHeight))).toBe(true);
    }),
  );
});

test('each end of the window meets its limit to 1e-6 mm', () => {
  fc.assert(
    fc.property(anySite, anyCorner, (site, corner) => {
      const state = cornerState(site, corner);
      const window = heightWindow(state);
      fc.pre(window?.usable === true);
      if (!window) return;
      for (const end of [window.low, window.high]) {
        expect(Math.abs(missBy(state, end.limit, end.height)), end.limit).toBeLessThan(1e-6);
      }
    }),
    { numRuns: 400 },
  );
});

/** How far the corner standing at `height` is from meeting the limit exactly, mm. */
function missBy(state: CornerState, limit: string, height: number): number {
  const { site, corner, geometry } = state;
  const moved = cornerState(site, corner, height);
  const perch = perchFor(site, corner, geometry, height, site.sprungLoad);
  const [name, load] = limit.split(':');
  const loaded = moved.loads.find((l) => l.load.name === load);
  if (name === 'perch_low') return perch - geometry.perchLowest;
  if (name === 'perch_high') return perch - geometry.perchHighest;
  if (name === 'bump_stop') return height - geometry.stopHeight;
  if (name === 'droop') return height - geometry.droopHeight;
  if (name === 'spring_loose') return moved.slack - Math.min(site.target.allowedSlack, corner.perch.engagement);
  if (name === 'bump_travel') return (loaded ?? moved).bumpTravel - site.target.leastBumpTravel;
  if (name === 'droop_travel') return (loaded ?? moved).droopTravel - site.target.leastDroopTravel;
  const full = fullBumpOf(site, corner, geometry, perch);
  const contact = contactsAt(site, corner, geometry, perch, full.length).find((c) => c.name === name);
  return contact ? contact.clearance - contact.margin : Number.NaN;
}

test('the plain corner is bound by coil bind above once its tyre stays off the arch', () => {
  const target = { ...plainTarget, allowedSlack: 8 };
  const window = heightWindow(cornerState(plainSite({ tyreOnArchHeight: 240, target }), plainCorner()));
  expect(window).toMatchObject({ usable: true, high: { limit: 'coil_bind' } });
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
  const soft = plainCorner({ spring: { ...plainCorner().spring, rate: 9 } });
  expect(heightWindow(cornerState({ ...site, motion: steep }, soft))).toBeNull();
});

test('a wanted range of one point is covered or not', () => {
  const end = (height: number) => ({ height, perch: 0, limit: '' });
  const window = { low: end(331), high: end(341), usable: true };
  expect([330.9, 331, 336, 341, 341.1].map((at) => coveredShare(window, at, at))).toEqual([0, 1, 1, 1, 0]);
  expect(coveredShare({ ...window, usable: false }, 336, 336)).toBe(0);
});

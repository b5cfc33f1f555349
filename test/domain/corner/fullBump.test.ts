import fc from 'fast-check';
import { expect, test } from 'vitest';
import { surplusAt } from '../../../src/domain/corner/balance.ts';
import { bumpLoad } from '../../../src/domain/corner/fullBump.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import { anyCorner, anySite, plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';

test('judged closed, full bump is where the stop is closed', () => {
  const { full, geometry } = cornerState(plainSite(), plainCorner());
  // Hand arithmetic: B + p + 0.4 b = 318 + 0 + 0.4 x 38.
  expect(full.length).toBeCloseTo(333.2, 12);
  expect(full.height).toBe(geometry.closedHeight);
});

test('judged under a load, spring, gas and stop balance it, kept between stop closed and stop just met', () => {
  let balanced = 0;
  fc.assert(
    fc.property(anySite, anyCorner, (site, corner) => {
      fc.pre(site.bump.kind === 'load');
      const { full, geometry, standing } = cornerState(site, corner);
      expect(full.length).toBeGreaterThanOrEqual(geometry.closedLength - 1e-9);
      expect(full.length).toBeLessThanOrEqual(geometry.stopLength + 1e-9);
      const surplus = surplusAt(site, corner, geometry, full.height, bumpLoad(site), standing.perch);
      // A balance found on the spring gone solid is a step of the force, not a zero: coil bind rejects it.
      const solidAt = standing.perch + geometry.seatBelowShoulder + geometry.stack.solidLength;
      if (full.length > geometry.closedLength && full.length < geometry.stopLength && full.length > solidAt + 1e-6) {
        balanced++;
        expect(Math.abs(surplus)).toBeLessThan(1e-6 * bumpLoad(site));
      }
    }),
    { numRuns: 500 },
  );
  expect(balanced).toBeGreaterThan(30);
});

test('a harder bump goes deeper, and the heaviest state counts', () => {
  const corner = plainCorner({ bumpStop: { ...plainCorner().bumpStop, length: 60, curve: stopCurve } });
  const at = (multiple: number, heaviestLoad = plainSite().sprungLoad) =>
    cornerState(plainSite({ bump: { kind: 'load', multiple }, heaviestLoad }), corner).full.length;
  expect(at(3)).toBeLessThan(at(2));
  expect(at(2, 1.5 * plainSite().sprungLoad)).toBeCloseTo(at(3), 9);
});

test('a setup judged with the stop closed has no bump load', () => {
  expect(bumpLoad(plainSite())).toBe(0);
  expect(bumpLoad(plainSite({ bump: { kind: 'load', multiple: 3 } }))).toBeCloseTo(3 * 237 * 9.80665, 9);
});

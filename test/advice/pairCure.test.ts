/** Two changes together on one plain corner, against every pair of values on the workshop's steps. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CHANGES, STEP } from '../../src/advice/changes.ts';
import { pairCure } from '../../src/advice/pairCure.ts';
import type { Corner, Site } from '../../src/model/corner/site.ts';
import { findingsAt, works } from '../../src/model/corner/verdict.ts';
import { anyFullCorner, anyFullSite, plainCorner, plainSite, plainTarget } from '../setup/corners.ts';

const base = plainCorner();
const target = { ...plainTarget, allowedSlack: 8 };
const siteAsking = (leastBumpTravel: number) =>
  plainSite({ tyreOnArchHeight: 225, target: { ...target, leastBumpTravel } });

const byKind = (kind: string) => CHANGES.find((change) => change.kind === kind) as (typeof CHANGES)[number];

/** The least sum of two changes at which everything works, by trying all; Infinity where none does. */
function leastOf(site: Site, corner: Corner, kinds: readonly [string, string]): number {
  const [one, other] = [byKind(kinds[0]), byKind(kinds[1])];
  const steps = (change: typeof one) => {
    const [least, most] = change.limits(corner);
    return Array.from({ length: Math.floor((most - least) / STEP) + 1 }, (_, k) => least + k * STEP);
  };
  let best = Number.POSITIVE_INFINITY;
  for (const a of steps(one)) {
    for (const b of steps(other)) {
      const amount = Math.abs(a - one.get(corner)) + Math.abs(b - other.get(corner));
      if (amount < best && works(site, other.set(one.set(corner, a), b))) best = amount;
    }
  }
  return best;
}

const KINDS = CHANGES.map(({ kind }) => kind);
const PAIRS = KINDS.flatMap((one, k) => KINDS.slice(k + 1).map((other) => [one, other] as const));

test.each([
  ['a stop too long and a sleeve too tall', 47, { sleeve: { ...base.sleeve, trim: 0, ledgeHeight: 168 } }],
  ['a stop too long and a sleeve far too tall', 44, { sleeve: { ...base.sleeve, trim: 5, ledgeHeight: 178 } }],
  [
    'a perch too high for a short stop',
    46,
    { perch: { ...base.perch, inset: 52 }, sleeve: { ...base.sleeve, trim: 14 } },
  ],
  // Nothing but the whole sleeve is long enough: 300 - 77.2 mm leave 0.3 above the perch.
  [
    'a perch that needs the sleeve whole under a stop too long',
    46,
    { perch: { ...base.perch, inset: 77.2 }, sleeve: { ...base.sleeve, trim: 14 } },
  ],
] as const)('%s: the least pair of changes is found', (_, leastBumpTravel, change) => {
  const corner = plainCorner({ bumpStop: { ...base.bumpStop, length: 58 }, ...change });
  const site = siteAsking(leastBumpTravel);
  const found = pairCure(site, [{ index: 0, corner, findings: findingsAt(site, corner) }]);
  const least = Math.min(...PAIRS.map((kinds) => leastOf(site, corner, kinds)));
  expect(Number.isFinite(least)).toBe(true);
  expect(found?.amount).toBeCloseTo(least, 9);
  expect(works(site, found?.corner as Corner)).toBe(true);
});

test('where the room left is narrower than a step nothing is claimed that does not work', () => {
  const site = siteAsking(46);
  for (let inset = 50; inset < 62; inset += 0.1) {
    const sleeve = { ...base.sleeve, trim: 14 };
    const corner = plainCorner({ bumpStop: { ...base.bumpStop, length: 58 }, perch: { ...base.perch, inset }, sleeve });
    const found = pairCure(site, [{ index: 0, corner, findings: findingsAt(site, corner) }]);
    expect(found === null || works(site, found.corner)).toBe(true);
  }
});

test('on random corners a pair that is claimed works, whatever bends between the steps', () => {
  const claimed = { some: 0, none: 0 };
  fc.assert(
    fc.property(anyFullSite, anyFullCorner, (any, { mount, ...rest }) => {
      const limits = { leastBumpTravel: 20, leastDroopTravel: 10, allowedSlack: 30 };
      const site = { ...any, target: { ...any.target, ...limits }, standingOnStop: false };
      const corner = { ...rest, mount: { ...mount, bareRaise: mount.raise - mount.spacer } };
      const found = pairCure(site, [{ index: 0, corner, findings: findingsAt(site, corner) }]);
      if (found !== null) expect(works(site, found.corner)).toBe(true);
      claimed[found === null ? 'none' : 'some']++;
    }),
    // Some of these come to a point beside which no step works.
    { numRuns: 3000, seed: 5 },
  );
  expect(Math.min(claimed.some, claimed.none)).toBeGreaterThan(100);
});
